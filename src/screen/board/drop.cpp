// SPDX-License-Identifier: MIT
#include "screen/board/drop.h"

#include "bench/catalogue.h"
#include "screen/board/hit.h"
#include "screen/board/place.h"
#include "screen/board/probe.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

const bench::Bench& real(const Scene& scene) {
    return scene.view->session->attempt().bench();
}

void ask(Asked& out, bench::Edit edit) {
    out.push_back(Do{std::move(edit)});
}

const bench::CableSlot* readySlot(const bench::Bench& bench, const std::string& label) {
    for (const bench::CableSlot& slot : bench.kit.readyMade)
        if (slot.label == label && !isOut(bench, slot)) return &slot;
    return nullptr;
}

bench::Reel chosenReel(const bench::Bench& bench, const BoardUi& ui) {
    if (bench.kit.reels.empty()) return {};
    return bench.kit.reels[std::min(ui.reel, bench.kit.reels.size() - 1)];
}

// Which end of a ready-made cable goes here: the first that fits, else the first with its reason.
int readyEnd(const bench::Bench& bench, const bench::CableSlot& slot, bench::TerminalRef to) {
    for (int e = 0; e < 2; ++e)
        if (!whyNotJoin(bench, {{}, e, slot.ends[static_cast<std::size_t>(e)]}, to)) return e;
    return 0;
}

struct Dropping {
    const Scene& scene;
    BoardUi& ui;
    ImVec2 at_px;
    bool onBoard, onTray;
    Asked& out;

    bench::Point at() const { return metres(scene, at_px); }

    void operator()(std::monostate) {}

    void operator()(const FromTray& held) {
        if (!onBoard) return;
        for (const bench::PartSlot& slot : real(scene).kit.parts)
            if (slot.ref == held.ref)
                ask(out,
                    bench::LayPart{held.ref, freePlace(real(scene), slot.kind, 0, at(), {}), 0});
    }

    void operator()(const PartInHand& held) {
        const bench::Part* part = findPart(real(scene), held.part);
        if (part == nullptr) return;
        if (onTray) {
            ask(out, bench::RemovePart{held.part});
            return;
        }
        if (!onBoard) return;
        const bench::Point wish{at().x_m + held.dx_m, at().y_m + held.dy_m};
        ask(out,
            bench::MovePart{
                held.part,
                freePlace(real(scene), part->kind, part->quarterTurns, wish, held.part)});
    }

    void operator()(const EndInHand& held) {
        if (onTray) {
            ask(out, bench::RemoveCable{held.cable});
            return;
        }
        if (!onBoard) return;
        if (const auto to = terminalNear(scene, at_px))
            dropOnTerminal(scene, ui, *to, out);
        else
            ask(out, bench::FreeEnd{held.cable, held.end, at()});
    }

    void operator()(const CableInHand& held) {
        if (onTray) ask(out, bench::RemoveCable{held.cable});
    }

    void operator()(const NewCable&) {
        const auto to = onBoard ? terminalNear(scene, at_px) : std::nullopt;
        if (to)
            dropOnTerminal(scene, ui, *to, out);
        else
            ui.notice = words("notice.cableNeedsTerminal");
    }

    void operator()(const ReadyMade& held) {
        if (!onBoard) return;
        if (const auto to = terminalNear(scene, at_px)) {
            dropOnTerminal(scene, ui, *to, out);
            return;
        }
        const bench::CableSlot* slot = readySlot(real(scene), held.label);
        if (slot == nullptr) return;
        ask(out,
            bench::TakeCable{held.label, at(), {at().x_m + slot->length_m * 0.6, at().y_m + 0.03}});
    }

    void operator()(const FuseInHand&) { dropOnUnder(); }

    void operator()(const KeyInHand&) { dropOnUnder(); }

    void operator()(const ProbeInHand& held) {
        const auto near = onBoard ? probeTargetNear(*scene.view, real(scene), ui.scene, at_px)
                                  : std::optional<ProbeTarget>();
        ask(out, bench::Probe{held.which, near ? near->tip : bench::ProbeTip{}});
    }

    void dropOnUnder() {
        if (!onBoard) return;
        if (const bench::Part* part = partUnder(scene, at_px))
            dropOnPart(scene, ui, part->id, out);
        else
            ui.notice = words(std::holds_alternative<KeyInHand>(ui.hand) ? "notice.keyNowhere"
                                                                         : "notice.fuseNowhere");
    }
};

struct JoinEdit {
    const bench::Bench& bench;
    const BoardUi& ui;
    bench::TerminalRef to;

    std::vector<bench::Edit> operator()(const NewCable& held) const {
        const bench::Reel reel = chosenReel(bench, ui);
        return {bench::MakeCable{held.from, to, reel.area_m2, reel.sleeve, 0.0, {}}};
    }

    std::vector<bench::Edit> operator()(const EndInHand& held) const {
        return {bench::JoinEnd{held.cable, held.end, to}};
    }

    std::vector<bench::Edit> operator()(const ReadyMade& held) const {
        const bench::CableSlot* slot = readySlot(bench, held.label);
        if (slot == nullptr) return {};
        const bench::Point at = terminalAt(bench, to);
        const bench::Point beside{at.x_m + std::min(0.12, slot->length_m * 0.5), at.y_m + 0.09};
        const int e = readyEnd(bench, *slot, to);
        return {bench::TakeCable{held.label, e == 0 ? at : beside, e == 0 ? beside : at},
                bench::JoinEnd{{bench.lastId + 1}, e, to}};
    }

    std::vector<bench::Edit> operator()(const ProbeInHand& held) const {
        bench::ProbeTip tip;
        tip.terminal = to;
        return {bench::Probe{held.which, tip}};
    }

    template <class Other> std::vector<bench::Edit> operator()(const Other&) const { return {}; }
};

// After a join by tap or key, the other end of a ready-made cable is next in the hand.
Hand handAfter(const bench::Bench& bench, const BoardUi& ui, bench::TerminalRef to) {
    const auto* ready = std::get_if<ReadyMade>(&ui.hand);
    if (ready == nullptr || !ui.byTap) return {};
    const bench::CableSlot* slot = readySlot(bench, ready->label);
    if (slot == nullptr) return {};
    return EndInHand{{bench.lastId + 1}, 1 - readyEnd(bench, *slot, to)};
}

} // namespace

std::optional<bench::Refusal>
startRefused(const bench::Bench& bench, const BoardUi& ui, bench::TerminalRef from) {
    const bench::Part* part = findPart(bench, from.part);
    if (part == nullptr) return bench::Refusal{bench::Why::UnknownPart, {}, {}, {}};
    const auto kind = bench::spec(part->kind).terminals[from.terminal].kind;
    return whyNotJoin(bench, {{}, 0, bench::usualEnd(kind, chosenReel(bench, ui).area_m2)}, from);
}

std::optional<bench::Refusal>
whyNot(const bench::Bench& bench, const BoardUi& ui, bench::TerminalRef to) {
    bench::Bench after = bench;
    for (const bench::Edit& edit : std::visit(JoinEdit{bench, ui, to}, ui.hand)) {
        auto outcome = bench::apply(after, edit);
        if (!outcome) return outcome.refusal();
        after = std::move(outcome.value());
    }
    return std::nullopt;
}

void dropOnTerminal(const Scene& scene, BoardUi& ui, bench::TerminalRef to, Asked& out) {
    if (const auto refusal = whyNot(real(scene), ui, to)) {
        ui.notice = sentence(*refusal);
        if (ui.carried) letGo(ui);
        if (refusal->why == bench::Why::ScrewClosed && !holdsSomething(ui))
            out.push_back(OpenCloseupAt{to});
        return;
    }
    for (bench::Edit& edit : std::visit(JoinEdit{real(scene), ui, to}, ui.hand))
        ask(out, std::move(edit));
    Hand next = handAfter(real(scene), ui, to);
    letGo(ui);
    ui.hand = std::move(next);
    ui.scene.takersKey = 0;
}

void dropOnPart(const Scene& scene, BoardUi& ui, bench::PartId id, Asked& out) {
    const bench::Part* part = findPart(real(scene), id);
    if (part == nullptr) return;
    if (const auto* fuse = std::get_if<FuseInHand>(&ui.hand)) {
        if (takesFuse(part->kind, fuse->rating_A))
            ask(out, bench::FitFuse{id, fuse->rating_A});
        else
            ui.notice = words("notice.fuseWrongPlace", {{"part", part->ref}});
    } else if (std::holds_alternative<KeyInHand>(ui.hand)) {
        if (bench::isA(*part, bench::PartClass::Isolator))
            ask(out, bench::Operate{id, 1});
        else
            ui.notice = words("notice.keyWrongPlace", {{"part", part->ref}});
    }
    letGo(ui);
}

void layAtFreePlace(const Scene& scene, BoardUi& ui, const std::string& ref, Asked& out) {
    const bench::Bench& bench = real(scene);
    for (const bench::PartSlot& slot : bench.kit.parts)
        if (slot.ref == ref)
            ask(out,
                bench::LayPart{ref,
                               freePlace(bench,
                                         slot.kind,
                                         0,
                                         {bench.board_m.x_m * 0.5, bench.board_m.y_m * 0.45},
                                         {},
                                         kRoomForCables_m),
                               0});
    letGo(ui);
}

void drop(const Scene& scene, const View& view, BoardUi& ui, ImVec2 at_px, Asked& out) {
    const bool onBoard = view.layout.board.contains(at_px);
    const bool onTray = view.layout.tray.contains(at_px);
    const Hand held = ui.hand;
    std::visit(Dropping{scene, ui, at_px, onBoard, onTray, out}, held);
    if (ui.carried) letGo(ui);
}

} // namespace loom::screen
