// SPDX-License-Identifier: MIT
// Two batteries of unequal charge joined, and one drained and rested, by the equations of battery.h
// integrated a second time by SUNDIALS IDA: within 0.5 %.
//
//   y1' = i/Q + k (y2/(1-c) - y1/c),  y2' = -k (y2/(1-c) - y1/c),  i the charging current
//   c 0.46, k 0.891 c (1-c) /h, Q 1.066 x capacity
//   h = 1 - (1 - y1/c)/(1 + 0.0074 (T - 298.15)), or y1/c above 1
//   emf of h: straight from 12.85 V (1) to 12.0 V (0.1), then 0.4 V less at 0;
//     above 1 it climbs 2 V within 0.05
//   R = 12 mohm (1 + (1-h)^2) (1 + 0.012 (298.15 - T) below 298.15 K)
//   340 J/(K Ah) T' = R i^2 - 0.02 W/(K Ah) (T - ambient)
#include "ida.h"
#include "rig.h"

namespace loom::physics {
namespace {

constexpr double kAh = 24, kAmbient_K = 293.15, kC = 0.46;

double head(const double* y) {
    const double h = y[0] / kC;
    return h > 1 ? h : 1 - (1 - h) / (1 + 0.0074 * (y[2] - 298.15));
}

double emf(const double* y) {
    const double h = head(y);
    if (h > 1) return 12.85 + 2 * (h - 1) / 0.05;
    if (h > 0.1) return 12.85 + 0.85 / 0.9 * (h - 1);
    return 11.6 + 0.4 * h / 0.1;
}

double ohms(const double* y) {
    const double missing = std::fmax(1 - head(y), 0);
    return 12e-3 * (1 + missing * missing) * (1 + 0.012 * std::fmax(298.15 - y[2], 0));
}

// Rates of one battery's y1, y2, T for a charging current.
void rates(const double* y, double i, double* dy) {
    const double k = 0.891 * kC * (1 - kC) / 3600, flow = k * (y[1] / (1 - kC) - y[0] / kC);
    dy[0] = i / (1.066 * kAh * 3600) + flow;
    dy[1] = -flow;
    dy[2] = (ohms(y) * i * i - 0.02 * kAh * (y[2] - kAmbient_K)) / (340 * kAh);
}

Battery part(Node plus, double charge) {
    Battery b;
    b.plus = plus;
    b.charge = charge;
    b.temp_K = 298.15;
    return b;
}

std::vector<double> initial(double charge) {
    return {charge * kC, charge * (1 - kC), 298.15};
}

} // namespace

TEST_CASE("IDA: a full and a nearly flat battery joined by 20 mohm") {
    const double Rs = 20e-3;
    const auto current = [=](const double* y) { // from the full one into the other
        return (emf(y) - emf(y + 3)) / (Rs + ohms(y) + ohms(y + 3));
    };
    std::vector<double> begin = initial(0.95);
    for (const double y : initial(0.25))
        begin.push_back(y);
    Independent ida(begin, [=](double, const double* y, double* dy) {
        const double i = current(y);
        rates(y, -i, dy);
        rates(y + 3, i, dy + 3);
    });
    Rig rig;
    const Key full = rig.add(part(1, 0.95)), flat = rig.add(part(2, 0.25));
    rig.ohm(Rs, 1, 2);
    rig.start();
    for (const double t : {1.0, 60.0, 600.0, 1800.0, 3600.0, 10800.0, 36000.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        const std::vector<double> y = ida.states();
        const Reading a = rig.see(full), b = rig.see(flat);
        CHECK_CLOSE(a.current_A, current(y.data()), 0.005, 1e-4);
        CHECK_CLOSE(b.current_A, -current(y.data()), 0.005, 1e-4);
        CHECK_CLOSE(a.charge, y[0] + y[1], 0.005, 0.0);
        CHECK_CLOSE(b.charge, y[3] + y[4], 0.005, 0.0);
        CHECK_CLOSE(a.temp_K - kAmbient_K, y[2] - kAmbient_K, 0.005, 2e-3);
        CHECK_CLOSE(b.temp_K - kAmbient_K, y[5] - kAmbient_K, 0.005, 2e-3);
    }
    CHECK(rig.first(EventKind::BatteryCharged) != nullptr);
}

TEST_CASE("IDA: a battery is drained hard and recovers at rest") {
    const double amps = 24;
    Independent ida(initial(1.0),
                    [=](double, const double* y, double* dy) { rates(y, -amps, dy); });
    Rig rig;
    const Key battery = rig.add(part(1, 1.0)), load = rig.add(CurrentSource{1, 0, amps});
    rig.start();
    const auto compare = [&](double i) {
        const std::vector<double> y = ida.states();
        const Reading r = rig.see(battery);
        CHECK_CLOSE(r.voltage_V, emf(y.data()) - i * ohms(y.data()), 1e-4, 0.0);
        CHECK_CLOSE(r.charge, ida[0] + ida[1], 0.005, 0.0);
        CHECK_CLOSE(r.temp_K - kAmbient_K, ida[2] - kAmbient_K, 0.005, 2e-3);
    };
    for (const double t : {10.0, 300.0, 1200.0, 1800.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        compare(amps);
    }
    Netlist idle = rig.netlist;
    std::get<CurrentSource>(idle.elements[load - 1].part).current_A = 0;
    rig.circuit->rewire(idle);
    ida.restart(ida.states(), [](double, const double* y, double* dy) { rates(y, 0, dy); });
    const double tired_V = rig.volts(battery);
    for (const double t : {1810.0, 2400.0, 7200.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        compare(0);
    }
    CHECK(rig.volts(battery) > tired_V + 0.05);
}

} // namespace loom::physics
