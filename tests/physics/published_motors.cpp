// SPDX-License-Identifier: MIT
// Rows D01-D18: motor examples of open textbooks, within 0.5 % (D01-D15) and 0.1 % of full scale
// (D16, D17). A running point is reached by running: the load is the torque K i of the case.
#include "rig.h"

namespace loom::physics {
namespace {

constexpr double kSmall_H = 1e-6; // where the book has no inductance
constexpr double kRpm = 6.283185307179586 / 60.0;

// A case at rest and running. series_ohm stands before the motor (a field winding, cells).
struct Case {
    const char* source;
    double volts, series_ohm, motor_ohm;
    double start_A;                  // NaN: not asked
    double run_A, backEmf_V;         // running; NaN: no such case
    double taken_W, shaft_W, heat_W; // of the motor; NaN: not asked
};

constexpr double kNo = std::numeric_limits<double>::quiet_NaN();

// clang-format off
const Case cases[] = {
    {"D01, D02 CP m42411: 48.0 V, 0.400 ohm: 120 A, then 20 A at 40.0 V, 160 W of heat", 48, 0, 0.4, 120, 20, 40, 960, 800, 160},
    {"D03 UP m58481: 120 V, 2.0 ohm, 10 A: 100 V; 1.0 kW out; 200 W lost; 1.2 kW in", 120, 0, 2, kNo, 10, 100, 1200, 1000, 200},
    {"D04 UP m58481: the same at 20 A: 80 V; 1.6 kW; 800 W; 2.4 kW", 120, 0, 2, kNo, 20, 80, 2400, 1600, 800},
    {"D05 CP m42411: 120 V, 10.0 A at start (12.00 ohm); 1.67 A at 100 V", 120, 0, 12, 10, 100.0 / 60, 100, kNo, kNo, kNo},
    {"D06 CP m42411: 120 V, 20.0 A starting, 8.00 A running: 72.0 V", 120, 0, 6, 20, 8, 72, kNo, kNo, kNo},
    {"D07 CP m42411: 6.00 V of 4 cells of 0.100 ohm, 3.00 A, 4.50 V: motor 0.100 ohm", 6, 0.4, 0.1, kNo, 3, 4.5, kNo, 13.5, 0.9},
    {"D08 UP m58481: 120 V, 80+10 ohm, 75 V: 1.33 A; 0.50 A, 60 W in, 37.5 W out, 22.5 W lost", 120, 0, 90, 120.0 / 90, 0.5, 75, 60, 37.5, 22.5},
    {"D09 from CP m42411: 240 V, 180 V, 12.0 A (no printed answer): 5.000 ohm, 48.00 A", 240, 0, 5, 48, 12, 180, kNo, kNo, kNo},
    {"D10 from UP m58481: 12 V, 4.0 A running, 24 A locked (no printed answer): 0.5000 ohm, 10.00 V", 12, 0, 0.5, 24, 4, 10, kNo, kNo, kNo},
    {"D11 UP m58734: winch 115 V, 20.00 A: 2300 W in, 1633.33 W out, 1.67 ohm", 115, 0, (2300 - 4900.0 * 10 / 30) / 400, kNo, 20, 4900.0 * 10 / 30 / 20, 2300, 1633.33, 666.67},
};

// clang-format on

struct Bench : Rig {
    Key motor = 0;
};

// The motor of a case: K is free, so the running speed is 10 rad/s, reached within some 0.1 s; the
// lumps that warm are then so large (motor.h: they go with K^2/R) that copper stays cold.
Bench benchOf(const Case& c, bool jammed) {
    Bench b;
    b.volt(c.volts, 1, 0);
    if (c.series_ohm > 0.0) b.ohm(c.series_ohm, 1, 2);
    Motor m;
    m.a = c.series_ohm > 0.0 ? 2 : 1;
    m.b = 0;
    m.resistance_ohm = c.motor_ohm;
    m.inductance_H = kSmall_H;
    m.constant_Vs = (std::isnan(c.backEmf_V) ? c.volts : c.backEmf_V) / 10.0;
    m.inertia_kg_m2 = 0.01 * m.constant_Vs * m.constant_Vs / (c.motor_ohm + c.series_ohm);
    m.friction_Nm = 0.0;
    m.load_Nm = jammed ? 0.0 : m.constant_Vs * c.run_A;
    m.jammed = jammed;
    b.motor = b.add(m);
    b.start();
    return b;
}

} // namespace

TEST_CASE("motors of open textbooks: starting and running") {
    for (const Case& c : cases) {
        CAPTURE(std::string(c.source));
        if (!std::isnan(c.start_A)) {
            Bench b = benchOf(c, true);
            b.until(50 * kSmall_H / c.motor_ohm);
            CHECK_CLOSE(b.amps(b.motor), c.start_A, 0.005, 0.0);
        }
        Bench b = benchOf(c, false);
        b.until(0.2);
        const Reading r = b.see(b.motor);
        CHECK_CLOSE(r.current_A, c.run_A, 0.005, 0.0);
        const double backEmf_V = r.voltage_V - r.current_A * c.motor_ohm;
        CHECK_CLOSE(backEmf_V, c.backEmf_V, 0.005, 0.0);
        CHECK_CLOSE(r.speed_rad_s, 10.0, 0.005, 0.0);
        if (!std::isnan(c.taken_W)) CHECK_CLOSE(r.power_W, c.taken_W, 0.005, 0.0);
        if (!std::isnan(c.shaft_W)) CHECK_CLOSE(backEmf_V * r.current_A, c.shaft_W, 0.005, 0.0);
        if (!std::isnan(c.heat_W))
            CHECK_CLOSE(r.power_W - backEmf_V * r.current_A, c.heat_W, 0.005, 0.0);
    }
}

TEST_CASE("D01 CP m42411: 5.76 kW at start") {
    Bench b = benchOf(cases[0], true);
    b.until(50 * kSmall_H / 0.4);
    CHECK_CLOSE(b.see(b.motor).power_W, 5760.0, 0.005, 0.0);
}

TEST_CASE("D12 CP m42380: 100 turns of 0.0100 m2 in 2.00 T carry 15.0 A: 30.0 N m") {
    // K = turns x area x field = 2 V s; the torque is what just holds the axle.
    const double K = 100 * 0.0100 * 2.00;
    for (const double load_Nm : {30.0 * 1.005, 30.0 * 0.995}) {
        Rig rig;
        rig.add(CurrentSource{0, 1, 15.0});
        Motor m;
        m.a = 1;
        m.constant_Vs = K;
        m.friction_Nm = load_Nm;
        const Key motor = rig.add(m);
        rig.start();
        rig.until(0.01);
        CAPTURE(load_Nm);
        CHECK((rig.see(motor).speed_rad_s > 0.0) == (load_Nm < 30.0));
    }
}

TEST_CASE("D13 from a motor exercise (transtutors.com): 10 V, 1.5 ohm") {
    Motor m; // stall with Kt 0.12 N m/A: 6.667 A, 0.8000 N m
    m.a = 1;
    m.resistance_ohm = 1.5;
    m.inductance_H = kSmall_H;
    m.friction_Nm = 0.0;
    m.constant_Vs = 0.12;
    for (const double load_Nm : {0.8 * 1.005, 0.8 * 0.995}) {
        Rig rig;
        rig.volt(10, 1, 0);
        m.load_Nm = load_Nm;
        const Key motor = rig.add(m);
        rig.start();
        rig.until(1e-4);
        CAPTURE(load_Nm);
        CHECK_CLOSE(rig.amps(motor), 6.667, 0.005, 0.0);
        CHECK((rig.see(motor).speed_rad_s > 0.0) == (load_Nm < 0.8));
    }
    Rig rig; // no load with Ke 12 V per 1000 rpm: 833.3 rpm
    rig.volt(10, 1, 0);
    m.constant_Vs = 12 / (1000 * kRpm);
    m.load_Nm = 0.0;
    m.inertia_kg_m2 = 1e-5;
    const Key motor = rig.add(m);
    rig.start();
    rig.until(0.1);
    CHECK_CLOSE(rig.see(motor).speed_rad_s / kRpm, 833.3, 0.005, 0.0);
}

TEST_CASE("D14 from a motor exercise (homeworklib.com): 12 V, 3800 rpm, stall 30 mN m") {
    // K 0.03016, R 12.06 ohm; at 2500 rpm 10.26 mN m, 0.3403 A, 7.895 V; 4.084, 2.687, 1.397 W
    Rig rig;
    rig.volt(12, 1, 0);
    Motor m;
    m.a = 1;
    m.constant_Vs = 12 / (3800 * kRpm);
    m.resistance_ohm = 12 * m.constant_Vs / 30e-3;
    m.inductance_H = kSmall_H;
    m.inertia_kg_m2 = 1e-6;
    m.friction_Nm = 0.0;
    m.load_Nm = 10.26e-3;
    CHECK_CLOSE(m.constant_Vs, 0.03016, 0.005, 0.0);
    CHECK_CLOSE(m.resistance_ohm, 12.06, 0.005, 0.0);
    const Key motor = rig.add(m);
    rig.start();
    rig.until(0.2);
    const Reading r = rig.see(motor);
    CHECK_CLOSE(r.speed_rad_s / kRpm, 2500.0, 0.005, 0.0);
    CHECK_CLOSE(r.current_A, 0.3403, 0.005, 0.0);
    CHECK_CLOSE(m.constant_Vs * r.speed_rad_s, 7.895, 0.005, 0.0);
    CHECK_CLOSE(r.power_W, 4.084, 0.005, 0.0);
    CHECK_CLOSE(m.load_Nm * r.speed_rad_s, 2.687, 0.005, 0.0);
    CHECK_CLOSE(r.current_A * r.current_A * m.resistance_ohm, 1.397, 0.005, 0.0);
}

TEST_CASE("D15 thefreedictionary.com: 51 V per 1000 rpm is 0.4870 V s/rad") {
    Rig rig;
    rig.volt(51, 1, 0);
    Motor m;
    m.a = 1;
    m.constant_Vs = 0.4870;
    m.friction_Nm = 0.0;
    m.inertia_kg_m2 = 0.01;
    const Key motor = rig.add(m);
    rig.start();
    rig.until(0.5);
    CHECK_CLOSE(rig.see(motor).speed_rad_s / kRpm, 1000.0, 0.005, 0.0);
}

TEST_CASE("D16, D17: run-up of 24 V, 0.1 ohm, K 0.1, J 0.01, closed forms") {
    struct Row {
        const char* source;
        double inductance_H, time_s, current_A, speed_rad_s;
    };

    const double tau = 0.1; // R J / K^2
    const Row rows[] = {
        {"D16 closed form, L 0: 240 A at t 0",
         1e-7,
         2e-5,
         240 * std::exp(-2e-4),
         240 * -std::expm1(-2e-4)},
        {"D16 at 0.1 s", 1e-7, tau, 240 * std::exp(-1.0), 240 * -std::expm1(-1.0)},
        {"D16 at 1 s: 240.0 rad/s", 1e-7, 1.0, 240 * std::exp(-10.0), 240.0 * -std::expm1(-10.0)},
        {"D17 L 0.5 mH: peak 213.7 A at 16.14 ms", 0.5e-3, 16.14e-3, 213.7, kNo},
        {"D17 0.02 s: 211.2 A, 34.53 rad/s", 0.5e-3, 0.02, 211.2, 34.53},
        {"D17 0.1 s: 93.36 A, 151.6 rad/s", 0.5e-3, 0.1, 93.36, 151.6},
        {"D17 0.5 s: 1.368 A, 238.7 rad/s", 0.5e-3, 0.5, 1.368, 238.7},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        Rig rig;
        rig.volt(24, 1, 0);
        Motor m;
        m.a = 1;
        m.resistance_ohm = 0.1;
        m.inductance_H = row.inductance_H;
        m.constant_Vs = 0.1;
        m.inertia_kg_m2 = 0.01;
        m.friction_Nm = 0.0;
        const Key motor = rig.add(m);
        rig.start();
        rig.until(row.time_s);
        CHECK_CLOSE(rig.amps(motor), row.current_A, 0.0, 1e-3 * 240);
        if (!std::isnan(row.speed_rad_s))
            CHECK_CLOSE(rig.see(motor).speed_rad_s, row.speed_rad_s, 0.0, 1e-3 * 240);
    }
}

TEST_CASE("D18: two 12.8 V batteries of 8 mohm, 2 m of 16 mm2, motor of 0.1 ohm stalled: 216.2 A") {
    Rig rig; // batteries B09, cable C09
    Battery battery;
    battery.full_V = 12.8;
    battery.resistance_ohm = 8e-3;
    battery.capacity_C = 40 * 3600.0;
    battery.plus = 1;
    battery.minus = 0;
    rig.add(battery);
    battery.plus = 2;
    battery.minus = 1;
    rig.add(battery);
    Cable cable;
    cable.a = 2;
    cable.b = 3;
    cable.length_m = 2.0;
    cable.area_m2 = 16e-6;
    cable.endA.resistance_ohm = cable.endB.resistance_ohm = 0.0;
    rig.add(cable);
    Motor m;
    m.a = 3;
    m.b = 0;
    m.resistance_ohm = 0.1;
    m.inductance_H = 1e-5;
    m.constant_Vs = 0.1;
    m.jammed = true;
    const Key motor = rig.add(m);
    rig.start();
    rig.until(2e-3);
    CHECK_CLOSE(rig.amps(motor), 216.2, 0.005, 0.0);
    CHECK_CLOSE(rig.volts(motor), 21.62, 0.005, 0.0);
}

} // namespace loom::physics
