// SPDX-License-Identifier: MIT
// The board by keyboard: Enter acts on what is focused, Space holds a button, Shift with arrows
// moves a part, T turns it, Delete puts it back, Escape lets go.
#include "screen/board/keys.h"

#include "bench/catalogue.h"
#include "screen/board/drop.h"
#include "screen/board/hand.h"

#include <cstdlib>

namespace loom::screen {

namespace {

constexpr double kNudge_m = 0.02;

bool pressed(ImGuiKey key) {
    return ImGui::IsKeyPressed(key, false);
}

bool actPressed() {
    return pressed(ImGuiKey_Enter) || pressed(ImGuiKey_KeypadEnter) || pressed(ImGuiKey_Space);
}

// What the keys are on, from the item's name.
struct Target {
    std::optional<bench::PartId> part;
    std::optional<bench::TerminalRef> terminal;
    std::optional<bench::CableId> cable;
    std::optional<int> end;
};

Target targetOf(const bench::Bench& bench, const std::string& name) {
    Target target;
    if (name.rfind("part/", 0) == 0) {
        if (const bench::Part* part = findPart(bench, name.substr(5))) target.part = part->id;
    } else if (name.rfind("terminal/", 0) == 0) {
        const std::size_t slash = name.find('/', 9);
        if (slash != std::string::npos)
            target.terminal =
                bench::findTerminal(bench, name.substr(9, slash - 9), name.substr(slash + 1));
    } else if (name.rfind("cable/", 0) == 0) {
        target.cable = bench::CableId{static_cast<std::uint32_t>(std::atoi(name.c_str() + 6))};
    } else if (name.rfind("end/", 0) == 0) {
        target.cable = bench::CableId{static_cast<std::uint32_t>(std::atoi(name.c_str() + 4))};
        target.end = name.back() == '1' ? 1 : 0;
    }
    if (target.cable && findCable(bench, *target.cable) == nullptr) target = {};
    return target;
}

// The next position in order, round to the first: what a key can ask for without a place to tap.
int nextPosition(const bench::Part& part) {
    const int count = static_cast<int>(bench::spec(part.kind).positions.size());
    if (bench::spec(part.kind).control == bench::ControlKind::Key)
        return part.position == 1 ? 2 : 1;
    return count > 0 ? (part.position + 1) % count : 0;
}

void actOnPart(const Scene& scene, BoardUi& ui, bench::PartId id, Asked& out) {
    if (holdsSomething(ui)) {
        dropOnPart(scene, ui, id, out);
        return;
    }
    ui.chosen = id;
    const bench::Part* part = findPart(scene.bench, id);
    const bench::PartSpec& spec = bench::spec(part->kind);
    if (spec.springsBack)
        holdButtonByKey(scene, ui, id, out);
    else if (!spec.positions.empty())
        out.push_back(Do{bench::Edit{bench::Operate{id, nextPosition(*part)}}});
}

void actOnTerminal(const Scene& scene, BoardUi& ui, bench::TerminalRef at, Asked& out) {
    if (holdsSomething(ui))
        dropOnTerminal(scene, ui, at, out);
    else if (!scene.bench.kit.reels.empty())
        pickUp(ui, NewCable{at}, false);
    else
        ui.chosen = at;
}

// A probe in the hand touches the end's metal; an empty hand takes the end up.
void actOnEnd(BoardUi& ui, bench::CableId cable, int end, Asked& out) {
    const auto* probe = std::get_if<ProbeInHand>(&ui.hand);
    if (probe == nullptr) {
        pickUp(ui, EndInHand{cable, end}, false);
        return;
    }
    bench::ProbeTip tip;
    tip.cable = cable;
    tip.end = end;
    out.push_back(Do{bench::Edit{bench::Probe{probe->which, tip}}});
    letGo(ui);
}

// What a tap with a tool in use would be on.
Press pressOn(const Target& target) {
    Press press;
    if (target.terminal) {
        press.on = Press::On::Terminal;
        press.terminal = *target.terminal;
    } else if (target.end) {
        press.on = Press::On::End;
        press.cable = *target.cable;
        press.end = *target.end;
    }
    return press;
}

void act(const Scene& scene, BoardUi& ui, const Target& target, Asked& out) {
    if (!holdsSomething(ui) && lookCloser(ui, pressOn(target), out)) return;
    if (target.part) actOnPart(scene, ui, *target.part, out);
    if (target.terminal) actOnTerminal(scene, ui, *target.terminal, out);
    if (target.end)
        actOnEnd(ui, *target.cable, *target.end, out);
    else if (target.cable)
        ui.chosen = *target.cable;
}

void nudge(const Scene& scene, const Target& target, Asked& out) {
    if (!target.part || !ImGui::GetIO().KeyShift) return;
    const bench::Part* part = findPart(scene.bench, *target.part);
    bench::Point to = part->at_m;
    if (ImGui::IsKeyPressed(ImGuiKey_LeftArrow)) to.x_m -= kNudge_m;
    if (ImGui::IsKeyPressed(ImGuiKey_RightArrow)) to.x_m += kNudge_m;
    if (ImGui::IsKeyPressed(ImGuiKey_UpArrow)) to.y_m -= kNudge_m;
    if (ImGui::IsKeyPressed(ImGuiKey_DownArrow)) to.y_m += kNudge_m;
    if (to.x_m != part->at_m.x_m || to.y_m != part->at_m.y_m)
        out.push_back(Do{bench::Edit{bench::MovePart{part->id, to}}});
}

void turnOrRemove(const Scene& scene, BoardUi& ui, const Target& target, Asked& out) {
    const bool remove = pressed(ImGuiKey_Delete) || pressed(ImGuiKey_Backspace);
    if (target.part) {
        const bench::Part* part = findPart(scene.bench, *target.part);
        if (pressed(ImGuiKey_T))
            out.push_back(Do{bench::Edit{bench::TurnPart{part->id, (part->quarterTurns + 1) % 4}}});
        if (remove) out.push_back(Do{bench::Edit{bench::RemovePart{part->id}}});
    }
    if (target.cable && remove) out.push_back(Do{bench::Edit{bench::RemoveCable{*target.cable}}});
    if (remove) ui.chosen = {};
}

Target chosenTarget(const BoardUi& ui) {
    Target target;
    if (const auto* part = std::get_if<bench::PartId>(&ui.chosen)) target.part = *part;
    if (const auto* cable = std::get_if<bench::CableId>(&ui.chosen)) target.cable = *cable;
    if (const auto* at = std::get_if<bench::TerminalRef>(&ui.chosen)) target.terminal = *at;
    return target;
}

// The focused thing is brought into view when the camera is near.
void keepFocusInView(const View& view, const Scene& scene, const Item& item, BoardUi& ui) {
    const Rect inner = shrunk(view.layout.board, 30.0f);
    const ImVec2 at = item.rect.centre();
    if (inner.contains(at)) return;
    const ImVec2 m = scene.board.toBoard(at);
    ui.camera.centreX_m = m.x;
    ui.camera.centreY_m = m.y;
}

} // namespace

void handleKeys(const Scene& scene, const View& view, Items& items, BoardUi& ui, Asked& out) {
    const bool released = ImGui::IsKeyReleased(ImGuiKey_Space) ||
                          ImGui::IsKeyReleased(ImGuiKey_Enter) ||
                          ImGui::IsKeyReleased(ImGuiKey_KeypadEnter);
    if (ui.heldByKey && (released || !items.focusVisible())) releaseButtonByKey(ui, out);
    const Item* item = items.focusVisible() ? items.find(items.focused()) : nullptr;
    if (item != nullptr && !ui.carried)
        if (const auto* part = std::get_if<FromTray>(&ui.hand)) {
            const std::string ref = part->ref;
            layAtFreePlace(scene, ui, ref, out);
            items.setFocus("part/" + ref);
            return;
        }
    const bool onBoard = item != nullptr && item->zone == Zone::Board;
    const bench::Bench& bench = view.session->attempt().bench();
    Target target = onBoard ? targetOf(bench, item->name) : Target{};
    if (onBoard) {
        if (holdsSomething(ui) && !ui.carried)
            ui.hand_px = {item->rect.centre().x + 6.0f, item->rect.centre().y + 6.0f};
        if (actPressed()) {
            ui.notice.clear();
            act(scene, ui, target, out);
        }
        keepFocusInView(view, scene, *item, ui);
        nudge(scene, target, out);
    } else {
        target = chosenTarget(ui);
    }
    if (!holdsSomething(ui) && !ImGui::GetIO().KeyCtrl) turnOrRemove(scene, ui, target, out);
}

} // namespace loom::screen
