// SPDX-License-Identifier: MIT
#include "attempt/danger.h"

#include "attempt/conductors.h"
#include "circuit/battery.h"
#include "circuit/cable.h"
#include "circuit/stage.h"

#include <algorithm>
#include <cmath>

namespace loom::attempt {
namespace {

// Metal alone between its poles: more than this through it is a short, less its own meter or noise.
constexpr double kShort_A = 1.0;

struct Pole {
    const circuit::Battery* battery;
    circuit::Key key;
    double current_A; // delivered
};

std::vector<Pole> batteriesOf(const LiveCircuit& live) {
    std::vector<Pole> out;
    for (const circuit::Element& element : live.wires().netlist.elements)
        if (const auto* battery = std::get_if<circuit::Battery>(&element.part))
            out.push_back({battery, element.key, live.reading(element.key).current_A});
    return out;
}

// Its poles are joined by metal and other batteries that give current too.
bool isShorted(const LiveCircuit& live, const std::vector<Pole>& all, const Pole& one) {
    if (one.current_A < kShort_A) return false;
    circuit::NodeGroups metal = conductorsOf(live);
    for (const Pole& other : all)
        if (other.battery != one.battery && other.current_A >= kShort_A)
            metal.join(other.battery->plus, other.battery->minus);
    return metal.top(one.battery->plus) == metal.top(one.battery->minus);
}

Danger ofBattery(const LiveCircuit& live, const std::vector<Pole>& all, const Pole& one) {
    const double hours_Ah = one.battery->capacity_C / 3600.0;
    Danger danger;
    danger.battery = bench::partOf(one.key);
    danger.figure = std::fabs(one.current_A);
    if (isShorted(live, all, one))
        danger.harm = Harm::Shorted;
    else if (-one.current_A > kChargeMost_per_h * hours_Ah)
        danger.harm = Harm::Charged;
    else if (one.current_A > circuit::kAbuse_per_h * hours_Ah)
        danger.harm = Harm::Overdrawn;
    return danger;
}

// C dT/dt = i^2 R20 f(T): what it gives off on the way is left out, so this is the least time.
double untilLimit_s(const circuit::CableValues& of, double temp_K, double current_A) {
    const double heat_W = current_A * current_A * of.copper_ohm * circuit::copperFactor(temp_K);
    return heat_W > 0.0 ? (of.limit_K - temp_K) * of.heatConductor_J_per_K / heat_W : 1e30;
}

Danger ofCable(const LiveCircuit& live, circuit::Key key, const circuit::Cable& spec) {
    const circuit::Reading now = live.reading(key);
    Danger danger;
    danger.cable = bench::cableOf(key);
    danger.figure = now.temp_K;
    if (now.temp_K > circuit::sleeveThreshold_K(spec.sleeveLimit_K, circuit::SleeveState::Burning))
        danger.harm = Harm::Burning;
    else if (now.temp_K >
             circuit::sleeveThreshold_K(spec.sleeveLimit_K, circuit::SleeveState::Smoking))
        danger.harm = Harm::Smoking;
    else if (now.temp_K > spec.sleeveLimit_K)
        danger.harm = Harm::Hot;
    else if (untilLimit_s(circuit::cableValues(spec), now.temp_K, now.current_A) < kSoon_s) {
        danger.harm = Harm::Overloaded;
        danger.figure = std::fabs(now.current_A);
    }
    return danger;
}

// The graver first, of two alike the one with the greater figure.
bool isWorse(const Danger& one, const Danger& other) {
    if (one.harm == Harm::None || other.harm == Harm::None) return one.harm != Harm::None;
    if (one.harm != other.harm) return one.harm < other.harm;
    return one.figure > other.figure;
}

} // namespace

Danger dangerOf(const LiveCircuit& live) {
    Danger worst;
    const auto take = [&](const Danger& one) {
        if (isWorse(one, worst)) worst = one;
    };
    const std::vector<Pole> batteries = batteriesOf(live);
    for (const Pole& one : batteries)
        take(ofBattery(live, batteries, one));
    for (const circuit::Element& element : live.wires().netlist.elements)
        if (const auto* cable = std::get_if<circuit::Cable>(&element.part);
            cable && bench::cableOf(element.key)) // not a single strand
            take(ofCable(live, element.key, *cable));
    return worst;
}

} // namespace loom::attempt
