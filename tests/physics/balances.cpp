// SPDX-License-Identifier: MIT
// What is stored is what flowed in, over 40 ms of thrown networks that run smoothly: charge of
// capacitors and batteries, flux of coils, momentum and energy of motors. Integrals by Simpson's rule on
// readings 20 us apart; 0.1 % of what flowed, sign aside.
#include "problems/dice.h"
#include "rig.h"

namespace loom::physics {
namespace {

using problems::Dice;

constexpr double kBegin_s = 5e-3, kStep_s = 20e-6;
constexpr int kSteps = 2000; // even

// Every node hangs on the ones before it by ohms, so that nothing is torn; stores lie across.
Rig throwSmooth(std::uint64_t seed) {
    Dice dice(seed);
    Rig rig;
    const std::uint32_t nodes = 4 + dice.below(5);
    rig.volt(dice.between(6, 24), 1, 0);
    for (Node n = 1; n < nodes; ++n)
        rig.ohm(dice.between(0.5, 20), n, dice.below(n));
    const std::uint32_t stores = 2 + dice.below(5);
    for (std::uint32_t k = 0; k < stores; ++k) {
        const Node a = dice.below(nodes), b = (a + 1 + dice.below(nodes - 1)) % nodes;
        switch (dice.below(4)) {
        case 0:
            rig.farad(dice.between(1e-4, 5e-3), a, b, dice.between(-10, 10));
            break;
        case 1:
            rig.henry(dice.between(0.5e-3, 0.2), a, b, dice.between(0.05, 5));
            break;
        case 2: {
            Battery p;
            p.plus = a;
            p.minus = b;
            p.charge = dice.between(0.4, 0.8);
            p.capacity_C = dice.between(100, 400); // small, so that 40 ms can be seen
            p.resistance_ohm = dice.between(0.1, 0.5);
            rig.add(p);
            break;
        }
        default: {
            Motor p;
            p.a = a;
            p.b = b;
            p.inductance_H = 1e-3;
            p.inertia_kg_m2 = dice.between(1e-4, 2e-3);
            p.friction_Nm = 0.0; // no edges
            rig.add(p);
        }
        }
    }
    rig.start();
    return rig;
}

// Simpson's weights over one element's readings.
struct Integral {
    double sum = 0.0, size = 0.0;

    void add(int k, double x, double moved) {
        const double w = kStep_s / 3 * (k == 0 || k == kSteps ? 1 : k % 2 == 1 ? 4 : 2);
        sum += w * x;
        size += w * std::fabs(moved);
    }
};

// Left side of each balance at a time, and what is integrated for it.
struct Balance {
    const char* what;
    double (*stored)(const Part&, const Reading&);
    double (*flow)(const Part&, const Reading&);
    double (*moved)(const Reading&); // 0.1 % of this, integrated, is allowed
    double floor;
};

double amps(const Reading& r) {
    return r.current_A;
}

double volts(const Reading& r) {
    return r.voltage_V;
}

double watts(const Reading& r) {
    return r.power_W;
}

double chargeOfCapacitor(const Part& p, const Reading& r) {
    return std::get<Capacitor>(p).capacitance_F * r.voltage_V;
}

double current(const Part&, const Reading& r) {
    return r.current_A;
}

double flux(const Part& p, const Reading& r) {
    return std::get<Inductor>(p).inductance_H * r.current_A;
}

double inducedVolts(const Part& p, const Reading& r) {
    return r.voltage_V - std::get<Inductor>(p).resistance_ohm * r.current_A;
}

double chargeGiven(const Part& p, const Reading& r) {
    return -1.066 * std::get<Battery>(p).capacity_C * r.charge;
}

double motorMomentum(const Part& p, const Reading& r) {
    return std::get<Motor>(p).inertia_kg_m2 * r.speed_rad_s;
}

double torque(const Part& p, const Reading& r) {
    return std::get<Motor>(p).constant_Vs * r.current_A;
}

double torqueSize(const Reading& r) {
    return Motor{}.constant_Vs * r.current_A;
}

double motorEnergy(const Part& p, const Reading& r) {
    const Motor& m = std::get<Motor>(p);
    return 0.5 * (m.inertia_kg_m2 * r.speed_rad_s * r.speed_rad_s +
                  m.inductance_H * r.current_A * r.current_A);
}

// Power that does not become heat of the winding.
double powerKept(const Part& p, const Reading& r) {
    const double ohms = std::get<Motor>(p).resistance_ohm * (1 + 0.00393 * (r.temp_K - 293.15));
    return r.power_W - ohms * r.current_A * r.current_A;
}

const Balance capacitor = {"capacitor: charge", chargeOfCapacitor, current, amps, 1e-7};
const Balance coil = {"coil: flux", flux, inducedVolts, volts, 1e-7};
const Balance battery = {"battery: charge", chargeGiven, current, amps, 1e-5};
const Balance momentum = {"motor: momentum", motorMomentum, torque, torqueSize, 1e-7};
const Balance energy = {"motor: energy", motorEnergy, powerKept, watts, 1e-7};

std::vector<const Balance*> balancesOf(const Part& part) {
    if (std::holds_alternative<Capacitor>(part)) return {&capacitor};
    if (std::holds_alternative<Inductor>(part)) return {&coil};
    if (std::holds_alternative<Battery>(part)) return {&battery};
    if (std::holds_alternative<Motor>(part)) return {&momentum, &energy};
    return {};
}

struct Watched {
    const Element* element;
    const Balance* balance;
    Integral flow;
    double begin = 0.0;
};

} // namespace

TEST_CASE("what is stored is what flowed in") {
    int seen = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Rig rig = throwSmooth(seed);
        std::vector<Watched> all;
        for (const Element& e : rig.netlist.elements)
            for (const Balance* b : balancesOf(e.part))
                all.push_back({&e, b, {}, 0.0});
        for (int k = 0; k <= kSteps; ++k) {
            rig.until(kBegin_s + k * kStep_s);
            for (Watched& w : all) {
                const Reading r = rig.see(w.element->key);
                if (k == 0) w.begin = w.balance->stored(w.element->part, r);
                w.flow.add(k, w.balance->flow(w.element->part, r), w.balance->moved(r));
            }
        }
        for (const Watched& w : all) {
            CAPTURE(std::string(w.balance->what));
            CAPTURE(w.element->key);
            const double stored =
                w.balance->stored(w.element->part, rig.see(w.element->key)) - w.begin;
            CHECK_CLOSE(stored, w.flow.sum, 0.0, 1e-3 * w.flow.size + w.balance->floor);
            ++seen;
        }
    }
    CHECK(seen > 100);
}

} // namespace loom::physics
