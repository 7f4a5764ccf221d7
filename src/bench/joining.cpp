// SPDX-License-Identifier: MIT
#include "bench/joining.h"

#include "bench/catalogue.h"
#include "bench/edit.h"
#include "bench/ends.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"

namespace loom::bench {
namespace {

TerminalKind kindOf(const Bench& bench, TerminalRef terminal) {
    return spec(findPart(bench, terminal.part)->kind).terminals[terminal.terminal].kind;
}

// What is on a terminal, leaving out one end of one cable.
struct Load {
    int ends = 0;
    int piggybacks = 0;
};

Load loadOf(const Bench& bench, TerminalRef terminal, CableId leaveOut, int end) {
    Load load;
    for (const EndRef& ref : endsAt(bench, terminal)) {
        if (ref.cable == leaveOut && ref.end == end) continue;
        ++load.ends;
        const EndKind kind = findCable(bench, ref.cable)->ends[ref.end].kind;
        if (kind == EndKind::Piggyback) ++load.piggybacks;
    }
    return load;
}

Phrase takenBy(TerminalKind kind) {
    switch (kind) {
    case TerminalKind::StudM6:
        return wordPhrase(word(EndKind::RingM6));
    case TerminalKind::StudM8:
        return wordPhrase(word(EndKind::RingM8));
    case TerminalKind::Tab:
        return phrase("spade-or-piggyback");
    case TerminalKind::Clamp:
        return phrase("bare-or-ferrule");
    }
    return {};
}

Phrase endsCounted(const char* key, int count) {
    return phrase(key, {{"count", numeral(count)}});
}

// A piggyback spade brings a tab of its own, so it goes under a plain spade that is there already:
// what counts is that at most one end on a tab is not a piggyback.
std::optional<Refusal> whyNoRoom(const Bench& bench, TerminalRef to, EndKind kind, Load load) {
    const TerminalKind terminal = kindOf(bench, to);
    int room = capacity(terminal);
    Phrase expected = endsCounted("ends-at-most", room);
    if (terminal == TerminalKind::Tab) {
        room += load.piggybacks + (kind == EndKind::Piggyback ? 1 : 0);
        expected = phrase("1-end-and-1-more");
    }
    if (load.ends < room) return std::nullopt;
    return Refusal{
        Why::TerminalFull, terminalPhrase(bench, to), expected, endsCounted("ends", load.ends + 1)};
}

} // namespace

std::optional<Refusal> whyNotTerminal(const Bench& bench, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    if (!part)
        return Refusal{Why::UnknownPart,
                       terminalPhrase(bench, terminal),
                       phrase("a-part-on-the-bench"),
                       phrase("none")};
    const std::size_t count = spec(part->kind).terminals.size();
    if (terminal.terminal < count) return std::nullopt;
    return Refusal{Why::UnknownTerminal,
                   part->ref,
                   phrase("terminal-0-to-n", {{"n", numeral(count - 1)}}),
                   numeral(terminal.terminal)};
}

std::optional<Refusal>
whyNotJoinCable(const Bench& bench, const Cable& cable, int end, EndKind kind, TerminalRef to) {
    if (auto why = whyNotTerminal(bench, to)) return why;
    const TerminalKind terminal = kindOf(bench, to);
    const Phrase place = terminalPhrase(bench, to);
    if (!fits(kind, terminal))
        return Refusal{Why::WrongEnd, place, takenBy(terminal), wordPhrase(word(kind))};
    if (terminal == TerminalKind::Clamp && cable.area_m2 > kInClampMost_m2)
        return Refusal{Why::OutOfRange,
                       place,
                       phrase("n-mm2-at-most", {{"n", numeral(kInClampMost_m2 * 1e6)}}),
                       phrase("n-mm2", {{"n", numeral(area_mm2FromM2(cable.area_m2))}})};
    if (cable.ends[1 - end].at == to)
        return Refusal{
            Why::SameTerminal, place, phrase("two-terminals"), phrase("both-ends-on-one")};
    return whyNoRoom(bench, to, kind, loadOf(bench, to, cable.id, end));
}

std::optional<Refusal> whyClampClosed(const Bench& bench, TerminalRef at) {
    if (kindOf(bench, at) != TerminalKind::Clamp) return std::nullopt;
    const Screw screw = screwAt(bench, at);
    if (screw.torque_Nm == 0.0) return std::nullopt;
    return Refusal{Why::ScrewClosed,
                   terminalPhrase(bench, at),
                   phrase("its-screw-open"),
                   phrase("tightened-with-n-n-m", {{"n", numeral(screw.torque_Nm)}})};
}

std::optional<Refusal>
whyScrewClosed(const Bench& bench, const std::string& label, TerminalRef to) {
    return isHandmade(bench, label) ? whyClampClosed(bench, to) : std::nullopt;
}

EndKind endMadeFor(const Bench& bench, TerminalRef to, double area_m2) {
    const TerminalKind terminal = kindOf(bench, to);
    if (terminal != TerminalKind::Tab) return usualEnd(terminal, area_m2);
    const Load load = loadOf(bench, to, {}, 0);
    if (load.ends == 0) return usualEnd(terminal, area_m2);
    return load.piggybacks == load.ends ? EndKind::Spade : EndKind::Piggyback;
}

std::optional<Refusal> whyNotJoin(const Bench& bench, const Held& held, TerminalRef to) {
    if (auto why = whyNotTerminal(bench, to)) return why;
    if (!held.cable) {
        if (auto why = whyNotJoinCable(bench, Cable{}, 0, endMadeFor(bench, to, 1e-6), to))
            return why;
        return whyScrewClosed(bench, "", to);
    }
    const Cable* cable = findCable(bench, held.cable);
    if (!cable || held.end < 0 || held.end > 1)
        return Refusal{Why::UnknownCable,
                       phrase("cable-n", {{"n", numeral(held.cable.number)}}),
                       phrase("a-cable-on-the-bench"),
                       phrase("none")};
    if (auto why = whyNotJoinCable(bench, *cable, held.end, held.kind, to)) return why;
    if (cable->ends[held.end].at == to) return std::nullopt;
    return whyScrewClosed(bench, cable->label, to);
}

} // namespace loom::bench
