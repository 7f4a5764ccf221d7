// SPDX-License-Identifier: MIT
#include "lesson/trial.h"

#include "attempt/wear.h"
#include "bench/catalogue.h"

#include <algorithm>

namespace loom::lesson {
namespace {

// A key no part and no cable has.
constexpr circuit::Key kFaultKey = ~circuit::Key{0};

// How often a trial looks at temperatures on its way [s]. The circuit finds its events by itself;
// this only bounds how long after the last warming a fault run goes on.
constexpr double kLook_s = 0.05;

// A cable that gains less than this over kLook_s has stopped warming [K]: 6 K in half a minute.
constexpr double kStillWarming_K = 0.01;

double chargeAtStart(const bench::Bench& start, const std::string& ref) {
    for (const bench::PartSlot& slot : start.kit.parts)
        if (slot.ref == ref) return slot.charge;
    const bench::Part* laid = bench::findPart(start, ref);
    return laid ? laid->charge : 1.0;
}

int positionOf(const bench::PartSpec& kind, const std::string& word) {
    for (std::size_t i = 0; i < kind.positions.size(); ++i)
        if (word == kind.positions[i]) return static_cast<int>(i);
    return kind.restPosition;
}

void setPosition(bench::Part& part, const std::string& word) {
    if (bench::isA(part, bench::PartClass::Fuse) && word == "open")
        part.condition = bench::Condition::Open;
    else
        part.position = positionOf(bench::spec(part.kind), word);
}

void setPositions(bench::Bench& bench, const Positions& set) {
    for (bench::Part& part : bench.parts) {
        const auto asked = set.find(part.ref);
        if (asked != set.end()) setPosition(part, asked->second);
    }
}

std::optional<circuit::Node>
nodeOf(const bench::Bench& bench, const bench::Wiring& wiring, const plan::Spot& spot) {
    const auto terminal = find(bench, spot);
    return terminal ? bench::nodeOf(bench, wiring, *terminal) : std::nullopt;
}

double quantityOf(const circuit::Reading& reading, Quantity quantity) {
    switch (quantity) {
    case Quantity::Voltage_V:
        return reading.voltage_V;
    case Quantity::Current_A:
        return reading.current_A;
    case Quantity::Power_W:
        return reading.power_W;
    case Quantity::Speed_rad_s:
        return reading.speed_rad_s;
    case Quantity::PulledIn:
        return reading.pulledIn ? 1.0 : 0.0;
    case Quantity::Brightness:
        return reading.brightness;
    case Quantity::CableTemp_K:
        return reading.temp_K;
    }
    return 0.0;
}

bool isFault(const circuit::Event& event) {
    return circuit::rowOf(event.kind).weight == circuit::Weight::Fault;
}

// A cable has its temperature; a fuse that opens, a contact that welds and a lamp their first number.
bench::Phrase::Amount amountOf(const circuit::Event& event) {
    using circuit::Unit;
    const circuit::EventRow& row = circuit::rowOf(event.kind);
    if (row.second == Unit::Kelvin) return {event.second, "K"};
    return {event.first, row.first == Unit::Volt ? "V" : "A"};
}

// With what is open or welded from the beginning.
bench::Bench faulty(bench::Bench bench, const std::optional<Fault>& fault) {
    if (!fault || fault->kind == Fault::Kind::Short) return bench;
    for (bench::Part& part : bench.parts)
        if (part.id == fault->part)
            part.condition = fault->kind == Fault::Kind::Weld ? bench::Condition::Welded
                                                              : bench::Condition::Open;
    for (bench::Cable& cable : bench.cables)
        if (cable.id == fault->cable) cable.condition = bench::CableCondition::Parted;
    return bench;
}

} // namespace

bench::Bench copyAsItIs(const bench::Bench& bench, const Positions& set) {
    bench::Bench copy = bench;
    for (bench::Part& part : copy.parts)
        part.position = bench::spec(part.kind).restPosition;
    copy.meter.reset();
    setPositions(copy, set);
    return copy;
}

bench::Bench freshCopy(const bench::Bench& bench, const bench::Bench& start, const Positions& set) {
    bench::Bench copy = bench;
    for (bench::Part& part : copy.parts) {
        part.condition = bench::Condition::Sound;
        part.obstructed = false;
        part.charge = chargeAtStart(start, part.ref);
    }
    for (bench::Cable& cable : copy.cables)
        cable.condition = bench::CableCondition::Sound;
    return copyAsItIs(copy, set);
}

std::optional<bench::TerminalRef> find(const bench::Bench& bench, const plan::Spot& spot) {
    return bench::findTerminal(bench, spot.ref, spot.terminal);
}

Trial::Trial(const bench::Bench& bench,
             const bench::Bench& start,
             const Positions& set,
             const std::optional<Fault>& fault)
    : Trial(faulty(freshCopy(bench, start, set), fault), fault) {}

Trial::Trial(const bench::Bench& bench, const Positions& set)
    : Trial(copyAsItIs(bench, set), std::optional<Fault>()) {}

Trial::Trial(bench::Bench ready, const std::optional<Fault>& fault)
    : tried(std::move(ready)), between(fault), wiring(bench::wire(tried)),
      live(withFault(wiring.netlist)) {}

circuit::Netlist Trial::withFault(circuit::Netlist netlist) const {
    if (!between || between->kind != Fault::Kind::Short) return netlist;
    const auto a = bench::nodeOf(tried, wiring, between->a);
    const auto b = bench::nodeOf(tried, wiring, between->b);
    if (a && b) {
        const circuit::Resistor resistor{*a, *b, between->resistance_ohm};
        netlist.elements.push_back({kFaultKey, resistor});
    }
    return netlist;
}

void Trial::move(const Positions& set) {
    setPositions(tried, set);
    wiring = bench::wire(tried);
    live.rewire(withFault(wiring.netlist));
}

void Trial::run(double seconds) {
    const double end_s = live.time_s() + seconds;
    while (end_s - live.time_s() > 1e-9)
        step(std::min(kLook_s, end_s - live.time_s()));
}

void Trial::runFault(double seconds, const std::set<bench::CableId>& excused) {
    const double end_s = live.time_s() + seconds;
    bool opened = false;
    while (end_s - live.time_s() > 1e-9) {
        step(std::min(kLook_s, end_s - live.time_s()));
        for (const Harm& harm : gaveWay) {
            if (harm.cable && !excused.count(harm.id)) return;
            opened = opened || harm.fuse;
        }
        if (!anyCableWarms() && opened) return;
    }
}

void Trial::step(double seconds) {
    events.clear();
    live.advance(seconds, events);
    for (const circuit::Event& event : events)
        if (isFault(event)) note(event);
}

// What has opened or welded stays so when the controls are moved afterwards.
void Trial::note(const circuit::Event& event) {
    Harm harm;
    harm.amount = amountOf(event);
    harm.after_s = event.time_s;
    harm.cable =
        circuit::rowOf(event.kind).second == circuit::Unit::Kelvin; // so are cables told of
    harm.fuse = circuit::opensByCurrent(event.kind);
    if (const auto* part = bench::findPart(tried, bench::partOf(event.element)))
        harm.name = part->ref;
    const auto strand = bench::strandOf(event.element);
    const bench::CableId id = strand ? strand->cable : bench::cableOf(event.element);
    if (const auto* cable = bench::findCable(tried, id)) {
        harm.name = cable->label;
        harm.id = id;
        harm.current_A = event.first;
        harm.temp_K = event.second;
    }
    gaveWay.push_back(std::move(harm));
    const auto wear = attempt::wearFrom(event, tried);
    if (!wear) return;
    auto worn = bench::apply(tried, *wear);
    if (worn) tried = std::move(worn.value());
}

bool Trial::anyCableWarms() {
    std::vector<double> temps_K;
    for (const bench::Cable& cable : tried.cables)
        temps_K.push_back(live.reading(bench::cableKey(cable.id)).temp_K);
    bool warms = lastTemps_K.empty();
    for (std::size_t i = 0; i < lastTemps_K.size(); ++i)
        warms = warms || temps_K[i] > lastTemps_K[i] + kStillWarming_K;
    lastTemps_K = std::move(temps_K);
    return warms;
}

std::optional<double> Trial::value(const std::string& ref, Quantity quantity) const {
    const bench::Part* part = bench::findPart(tried, ref);
    if (!part) return std::nullopt;
    return quantityOf(live.reading(bench::partKey(part->id)), quantity);
}

std::optional<double> Trial::voltage_V(const plan::Spot& a, const plan::Spot& b) const {
    const auto at = nodeOf(tried, wiring, a), against = nodeOf(tried, wiring, b);
    if (!at || !against) return std::nullopt;
    return live.voltage_V(*at, *against).value_or(0.0);
}

double Trial::hottestCable_K() const {
    double hottest_K = 0.0;
    for (const bench::Cable& cable : tried.cables)
        hottest_K = std::max(hottest_K, live.reading(bench::cableKey(cable.id)).temp_K);
    return hottest_K;
}

} // namespace loom::lesson
