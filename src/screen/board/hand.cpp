// SPDX-License-Identifier: MIT
#include "screen/board/hand.h"

#include "bench/catalogue.h"
#include "screen/board/drop.h"
#include "screen/board/hit.h"
#include "screen/sentences.h"

#include <cmath>

namespace loom::screen {

namespace {

float travelled(const BoardUi& ui, ImVec2 now) {
    return std::hypot(now.x - ui.press.at_px.x, now.y - ui.press.at_px.y);
}

// A finger wanders more than a mouse; a held button lets it wander further still.
float dragThreshold(const View& view, const BoardUi& ui) {
    const float base = (view.touch ? 10.0f : 5.0f) * view.layout.unit;
    return ui.heldButton ? base + 16.0f * view.layout.unit : base;
}

void holdButton(const Scene& scene, BoardUi& ui, bench::PartId id, bool byKey, Asked& out) {
    const bench::Part* part = findPart(scene.bench, id);
    if (part == nullptr || !bench::spec(part->kind).springsBack) return;
    ui.heldButton = id;
    ui.heldByKey = byKey;
    out.push_back(Do{bench::Edit{bench::Operate{id, 1}}});
}

void releaseButton(BoardUi& ui, Asked& out) {
    if (!ui.heldButton) return;
    out.push_back(Do{bench::Edit{bench::Operate{*ui.heldButton, 0}}});
    ui.heldButton.reset();
}

void beginPress(const Scene& scene, BoardUi& ui, ImVec2 at_px, Asked& out) {
    ui.notice.clear();
    ui.hand_px = at_px;
    if (holdsSomething(ui)) { // picked up by a tap: this press carries it on
        ui.carried = true;
        return;
    }
    ui.press = pressAt(scene, ui, at_px);
    ui.chosen = {}; // its card is out of the way while something is held or dragged
    if (ui.press.on == Press::On::Control) holdButton(scene, ui, ui.press.part, false, out);
}

// From a terminal a new cable is drawn off the reel; without a reel, or when it is full, the end
// that lies on top comes off.
void dragFromTerminal(const Scene& scene, BoardUi& ui) {
    const bench::TerminalRef from = ui.press.terminal;
    const std::vector<bench::EndRef> there = endsAt(scene.bench, from);
    const bool reel = !scene.bench.kit.reels.empty();
    if (reel && !startRefused(scene.bench, ui, from)) {
        pickUp(ui, NewCable{from}, true);
    } else if (!there.empty()) {
        pickUp(ui, EndInHand{there.back().cable, there.back().end}, true);
    } else {
        ui.notice = words("notice.noReel");
        ui.press = {};
    }
}

void beginDrag(const Scene& scene, BoardUi& ui, Asked& out) {
    const Press press = ui.press;
    switch (press.on) {
    case Press::On::Terminal:
        dragFromTerminal(scene, ui);
        break;
    case Press::On::End:
        pickUp(ui, EndInHand{press.cable, press.end}, true);
        break;
    case Press::On::Cable:
        if (press.end >= 0)
            pickUp(ui, EndInHand{press.cable, press.end}, true);
        else
            pickUp(ui, CableInHand{press.cable, metres(scene, press.at_px)}, true);
        break;
    case Press::On::Part:
    case Press::On::Control: {
        releaseButton(ui, out);
        const bench::Part* part = findPart(scene.bench, press.part);
        if (part == nullptr) break;
        const bench::Point at = metres(scene, press.at_px);
        pickUp(ui, PartInHand{part->id, part->at_m.x_m - at.x_m, part->at_m.y_m - at.y_m}, true);
        break;
    }
    default:
        break;
    }
}

void tap(const Scene& scene, BoardUi& ui, Asked& out) {
    if (lookCloser(ui, ui.press, out)) return;
    switch (ui.press.on) {
    case Press::On::Terminal:
        ui.chosen = ui.press.terminal;
        break;
    case Press::On::End:
    case Press::On::Cable:
        ui.chosen = ui.press.cable;
        ui.chosenAlong = ui.press.along;
        break;
    case Press::On::Part:
        ui.chosen = ui.press.part;
        break;
    case Press::On::Control: {
        ui.chosen = ui.press.part;
        const bench::Part* part = findPart(scene.bench, ui.press.part);
        if (part != nullptr && !bench::spec(part->kind).springsBack)
            out.push_back(
                Do{bench::Edit{bench::Operate{part->id, tappedPosition(*part, ui.press.local_m)}}});
        break;
    }
    default:
        ui.chosen = {};
        break;
    }
}

void endPress(const Scene& scene, const View& view, BoardUi& ui, ImVec2 at_px, Asked& out) {
    if (ui.carried) {
        ui.hand_px = at_px;
        drop(scene, view, ui, at_px, out);
        return;
    }
    const bool moved = travelled(ui, at_px) > dragThreshold(view, ui);
    if (!moved) tap(scene, ui, out);
    if (!ui.heldByKey) releaseButton(ui, out);
    ui.press = {};
}

// A thing held may have gone: undone, removed, or refused on its way to the bench.
void forgetMissing(const Scene& scene, BoardUi& ui) {
    const bench::Bench& bench = scene.view->session->attempt().bench();
    if (const auto* end = std::get_if<EndInHand>(&ui.hand))
        if (findCable(bench, end->cable) == nullptr) letGo(ui);
    if (const auto* cable = std::get_if<CableInHand>(&ui.hand))
        if (findCable(bench, cable->cable) == nullptr) letGo(ui);
    if (const auto* part = std::get_if<PartInHand>(&ui.hand))
        if (findPart(bench, part->part) == nullptr) letGo(ui);
    if (const auto* cable = std::get_if<NewCable>(&ui.hand))
        if (findPart(bench, cable->from.part) == nullptr) letGo(ui);
    if (const auto* part = std::get_if<bench::PartId>(&ui.chosen))
        if (findPart(bench, *part) == nullptr) ui.chosen = {};
    if (const auto* cable = std::get_if<bench::CableId>(&ui.chosen))
        if (findCable(bench, *cable) == nullptr) ui.chosen = {};
    if (const auto* terminal = std::get_if<bench::TerminalRef>(&ui.chosen))
        if (findPart(bench, terminal->part) == nullptr) ui.chosen = {};
}

} // namespace

bool lookCloser(const BoardUi& ui, const Press& at, Asked& out) {
    if (ui.tool != Tool::Strip && ui.tool != Tool::Driver && ui.tool != Tool::Spanner) return false;
    if (at.on == Press::On::Terminal) {
        out.push_back(OpenCloseupAt{at.terminal});
        return true;
    }
    const bool anEnd = at.on == Press::On::End || (at.on == Press::On::Cable && at.end >= 0);
    if (anEnd) out.push_back(OpenCloseup{{at.cable, at.end, {}}});
    return anEnd;
}

void handlePointer(const Scene& scene, const View& view, Items& items, BoardUi& ui, Asked& out) {
    forgetMissing(scene, ui);
    const ImGuiIO& io = ImGui::GetIO();
    const ImVec2 at = io.MousePos;
    if (view.pinch.active) { // the second finger takes the board: what the first began is let go
        releaseButton(ui, out);
        letGo(ui);
        return;
    }
    if (holdsSomething(ui) && !items.focusVisible() && ImGui::IsMousePosValid()) ui.hand_px = at;
    const bool free = view.layout.board.contains(at) && items.over(at) == nullptr;
    if (io.MouseClicked[0] && free) beginPress(scene, ui, at, out);
    const bool pressing = ui.press.on != Press::On::Nothing && io.MouseDown[0];
    if (pressing && !holdsSomething(ui) && travelled(ui, at) > dragThreshold(view, ui))
        beginDrag(scene, ui, out);
    if (io.MouseReleased[0] && (ui.carried || ui.press.on != Press::On::Nothing))
        endPress(scene, view, ui, at, out);
    if (ui.heldButton && !ui.heldByKey && !io.MouseDown[0]) releaseButton(ui, out);
}

void holdButtonByKey(const Scene& scene, BoardUi& ui, bench::PartId id, Asked& out) {
    holdButton(scene, ui, id, true, out);
}

void releaseButtonByKey(BoardUi& ui, Asked& out) {
    if (ui.heldByKey) releaseButton(ui, out);
    ui.heldByKey = false;
}

} // namespace loom::screen
