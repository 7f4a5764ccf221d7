// SPDX-License-Identifier: MIT
// Readings and actions of a cable and of a terminal.
#include "bench/catalogue.h"
#include "screen/card/parts.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr double kLeastCurrent_A = 0.5e-3; // less is said to be none
constexpr double kBesideTerminal_m = 0.06; // where an end comes to lie when it is taken off

std::string endPlace(const bench::Bench& bench, const bench::CableEnd& end) {
    return end.at ? terminalWords(bench, *end.at) : words("card/loose");
}

// "18.4 A from X1 1 upper to K1 normally open"
void addCurrent(const bench::Bench& bench,
                const bench::Cable& cable,
                double current_A,
                CardText& card) {
    if (!(std::fabs(current_A) >= kLeastCurrent_A)) {
        card.facts.push_back({words("fact/current"), words("fact/none")});
        return;
    }
    const int from = current_A > 0.0 ? 0 : 1;
    card.facts.push_back({words("fact/current"), amount(std::fabs(current_A), "A")});
    card.facts.push_back({words("fact/from"), endPlace(bench, cable.ends[from])});
    card.facts.push_back({words("fact/to"), endPlace(bench, cable.ends[1 - from])});
}

const char* conditionKey(bench::CableCondition condition) {
    switch (condition) {
    case bench::CableCondition::Softened:
        return "state/softened";
    case bench::CableCondition::Charred:
        return "state/charred";
    case bench::CableCondition::Parted:
        return "state/parted";
    case bench::CableCondition::Sound:
        break;
    }
    return nullptr;
}

Action takeOff(const bench::Bench& bench,
               const bench::Cable& cable,
               int end,
               std::string name,
               std::string label) {
    bench::Point at = bench::endAt(bench, cable.ends[end]);
    at.y_m = std::min(at.y_m + kBesideTerminal_m, bench.board_m.y_m);
    return {std::move(name), std::move(label), Do{bench::Edit{bench::FreeEnd{cable.id, end, at}}}};
}

Action lookCloser(std::string name, std::string label, CloseupOf of) {
    return {std::move(name), std::move(label), OpenCloseup{std::move(of)}};
}

std::string takesWords(bench::TerminalKind kind) {
    switch (kind) {
    case bench::TerminalKind::StudM6:
        return words("takes/stud-m6");
    case bench::TerminalKind::StudM8:
        return words("takes/stud-m8");
    case bench::TerminalKind::Tab:
        return words("takes/tab");
    case bench::TerminalKind::Clamp:
        break;
    }
    return words("takes/clamp");
}

// Against the most negative terminal of a battery that it is joined to.
void addVoltage(const attempt::Attempt& attempt, bench::TerminalRef terminal, CardText& card) {
    const auto against = againstBattery(attempt, terminal);
    if (!against) {
        card.facts.push_back({words("fact/voltage"), words("fact/no-battery")});
        return;
    }
    card.facts.push_back({words("fact/voltage"), amount(against->voltage_V, "V")});
    card.facts.push_back({words("fact/against"), terminalWords(attempt.bench(), against->minus)});
}

} // namespace

std::optional<Against> againstBattery(const attempt::Attempt& attempt,
                                      bench::TerminalRef terminal) {
    constexpr std::uint8_t kMinus = 1; // of a battery, in the catalogue
    std::optional<Against> most;
    for (const bench::Part& part : attempt.bench().parts) {
        if (!bench::isA(part, bench::PartClass::Battery)) continue;
        const bench::TerminalRef reference{part.id, kMinus};
        const std::optional<double> v = attempt.voltage_V(terminal, reference);
        if (v && (!most || *v > most->voltage_V)) most = Against{reference, *v};
    }
    return most;
}

void tellCable(const attempt::Attempt& attempt, const bench::Cable& cable, CardText& card) {
    const bench::Bench& bench = attempt.bench();
    card.item = "cable/" + std::to_string(cable.id.number);
    card.title = words("card/cable", {{"cable", cable.label}});
    card.second = words("card/cable-about",
                        {{"size", squareMillimetres(cable.area_m2)},
                         {"colour", sleeveWords(cable.sleeve)},
                         {"length", amount(cable.length_m, "m")}});
    const circuit::Reading reading = attempt.reading(cable.id);
    if (const char* key = conditionKey(cable.condition)) {
        Fact said{words("fact/state"), words(key)};
        said.fault = true;
        card.facts.push_back(std::move(said));
    }
    addCurrent(bench, cable, reading.current_A, card);
    card.facts.push_back({words("fact/lost"), amount(std::fabs(reading.voltage_V), "V")});
    card.facts.push_back({words("fact/temperature"), celsius(reading.temp_K)});
    for (int end = 0; end < 2; ++end) {
        const std::string number = std::to_string(end);
        card.actions.push_back(
            lookCloser("card/closeup/" + number,
                       words("card/closeup-at", {{"place", endPlace(bench, cable.ends[end])}}),
                       {cable.id, end, {}}));
        if (cable.ends[end].at)
            card.actions.push_back(
                takeOff(bench,
                        cable,
                        end,
                        "card/off/" + number,
                        words("card/off", {{"place", endPlace(bench, cable.ends[end])}})));
        else
            card.actions.push_back(
                {"card/take/" + number,
                 words("card/take", {{"fitting", endWords(cable.ends[end].kind)}}),
                 PickUp{EndInHand{cable.id, end}}});
    }
    card.actions.push_back(
        {"card/remove", words("card/remove"), Do{bench::Edit{bench::RemoveCable{cable.id}}}, true});
}

void tellTerminal(const attempt::Attempt& attempt, bench::TerminalRef terminal, CardText& card) {
    const bench::Bench& bench = attempt.bench();
    const bench::Part* part = bench::findPart(bench, terminal.part);
    const bench::TerminalSpec& spec = bench::spec(part->kind).terminals[terminal.terminal];
    card.item = "terminal/" + part->ref + "/" + spec.word;
    card.around = "part/" + part->ref;
    card.title = terminalWords(bench, terminal);
    card.second = takesWords(spec.kind);
    addVoltage(attempt, terminal, card);
    std::string labels;
    for (const bench::EndRef& ref : bench::endsAt(bench, terminal)) {
        const bench::Cable* cable = bench::findCable(bench, ref.cable);
        labels += (labels.empty() ? "" : ", ") + cable->label;
        card.actions.push_back(
            takeOff(bench,
                    *cable,
                    ref.end,
                    "card/off/" + std::to_string(ref.cable.number) + "/" + std::to_string(ref.end),
                    words("card/off-cable", {{"cable", cable->label}})));
    }
    const std::vector<bench::EndRef> there = bench::endsAt(bench, terminal);
    if (!there.empty())
        card.actions.push_back(lookCloser("card/closeup",
                                          words("card/closeup"),
                                          {there.back().cable, there.back().end, terminal}));
    else if (spec.kind != bench::TerminalKind::Tab)
        card.actions.push_back(
            lookCloser("card/closeup", words("card/closeup"), {{}, 0, terminal}));
    card.facts.push_back({words("fact/on-it"), labels.empty() ? words("fact/none") : labels});
    if (!bench.kit.reels.empty())
        card.actions.insert(card.actions.begin(),
                            {"card/wire", words("card/wire"), PickUp{NewCable{terminal}}});
}

CardText cardOf(const attempt::Attempt& attempt, const Chosen& chosen) {
    CardText card;
    const bench::Bench& bench = attempt.bench();
    if (const auto* id = std::get_if<bench::PartId>(&chosen)) {
        if (const bench::Part* part = bench::findPart(bench, *id)) tellPart(attempt, *part, card);
    } else if (const auto* wire = std::get_if<bench::CableId>(&chosen)) {
        if (const bench::Cable* cable = bench::findCable(bench, *wire))
            tellCable(attempt, *cable, card);
    } else if (const auto* terminal = std::get_if<bench::TerminalRef>(&chosen)) {
        const bench::Part* part = bench::findPart(bench, terminal->part);
        if (part && terminal->terminal < bench::spec(part->kind).terminals.size())
            tellTerminal(attempt, *terminal, card);
    }
    if (!card.title.empty()) offerTraces(attempt, chosen, card);
    return card;
}

} // namespace loom::screen
