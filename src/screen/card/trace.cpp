// SPDX-License-Identifier: MIT
// What of the chosen thing can be traced over time, as actions of its card.
#include "bench/catalogue.h"
#include "screen/card/parts.h"
#include "screen/sentences.h"

#include <iterator>

namespace loom::screen {

namespace {

using Kind = attempt::Quantity::Kind;

constexpr Kind kOfCable[] = {Kind::Current, Kind::Temperature};

Kind kindOf(bench::Traced traced) {
    switch (traced) {
    case bench::Traced::Current:
        return Kind::Current;
    case bench::Traced::Across:
        return Kind::Across;
    case bench::Traced::Temperature:
        return Kind::Temperature;
    case bench::Traced::Charge:
        return Kind::Charge;
    case bench::Traced::Speed:
        break;
    }
    return Kind::Speed;
}

struct Offer {
    const char *item, *key;
};

Offer offerOf(Kind kind) {
    switch (kind) {
    case Kind::Voltage:
    case Kind::Across:
        return {"card/trace/voltage", "card/trace-voltage"};
    case Kind::Current:
        return {"card/trace/current", "card/trace-current"};
    case Kind::Temperature:
        return {"card/trace/temperature", "card/trace-temperature"};
    case Kind::Speed:
        return {"card/trace/speed", "card/trace-speed"};
    case Kind::Charge:
        break;
    }
    return {"card/trace/charge", "card/trace-charge"};
}

// Before the last action, which puts the thing away. The first is "card/trace".
void offer(const std::vector<attempt::Quantity>& quantities, CardText& card) {
    std::vector<Action> actions;
    for (const attempt::Quantity& quantity : quantities) {
        const Offer offered = offerOf(quantity.kind);
        actions.push_back(
            {actions.empty() ? "card/trace" : offered.item, words(offered.key), Watch{quantity}});
    }
    const bool keepsLast = !card.actions.empty() && card.actions.back().away;
    card.actions.insert(card.actions.end() - (keepsLast ? 1 : 0), actions.begin(), actions.end());
}

} // namespace

void offerTraces(const attempt::Attempt& attempt, const Chosen& chosen, CardText& card) {
    std::vector<attempt::Quantity> quantities;
    attempt::Quantity quantity;
    if (const auto* id = std::get_if<bench::PartId>(&chosen)) {
        const bench::Part* part = bench::findPart(attempt.bench(), *id);
        if (part == nullptr) return;
        quantity.part = *id;
        for (const bench::Traced traced : bench::spec(part->kind).traced) {
            quantity.kind = kindOf(traced);
            quantities.push_back(quantity);
        }
    } else if (const auto* cable = std::get_if<bench::CableId>(&chosen)) {
        quantity.cable = *cable;
        for (const Kind kind : kOfCable) {
            quantity.kind = kind;
            quantities.push_back(quantity);
        }
    } else if (const auto* terminal = std::get_if<bench::TerminalRef>(&chosen)) {
        const auto against = againstBattery(attempt, *terminal);
        if (!against || against->minus == *terminal) return;
        quantity.kind = Kind::Voltage;
        quantity.terminal = *terminal;
        quantity.against = against->minus;
        quantities.push_back(quantity);
    }
    offer(quantities, card);
}

} // namespace loom::screen
