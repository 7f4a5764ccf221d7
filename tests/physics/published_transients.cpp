// SPDX-License-Identifier: MIT
// Rows N30-N47: what the books print at a time, and the closed form recomputed, within 0.1 % of
// full scale at the usual steps.
#include "rig.h"

#include <functional>

namespace loom::physics {
namespace {

enum class Look { Amps, Volts };

// One quantity of one element over time.
struct Course {
    const char* source; // with the digits as printed
    std::function<Key(Rig&)> build;
    Look look;
    double fullScale;
    std::function<double(double)> closedForm;       // of t in s
    std::vector<std::pair<double, double>> printed; // t, digits of the book
    double printedOff;                              // half of the last digit printed
};

double e(double x) {
    return std::exp(x);
}

// clang-format off
const Course courses[] = {
    {"N30 LEC time: 15 V, 10 kohm, 100 uF", [](Rig& r) { r.volt(15, 1, 0); r.ohm(1e4, 1, 2); return r.farad(1e-4, 2, 0); },
     Look::Volts, 15, [](double t) { return 15 * (1 - e(-t)); },
     {{0.5, 5.902}, {1, 9.482}, {2, 12.970}, {3, 14.253}, {5, 14.899}, {7.25, 14.989}}, 5e-4},
    {"N30 its current", [](Rig& r) { r.volt(15, 1, 0); r.farad(1e-4, 2, 0); return r.ohm(1e4, 1, 2); },
     Look::Amps, 1.5e-3, [](double t) { return 1.5e-3 * e(-t); },
     {{0.5, 909.8e-6}, {1, 551.8e-6}, {7.25, 1.065e-6}}, 5e-8},
    {"N31 LEC time: 15 V, 1 ohm, 1 H", [](Rig& r) { r.volt(15, 1, 0); return r.henry(1, 1, 0, 1); },
     Look::Amps, 15, [](double t) { return 15 * (1 - e(-t)); },
     {{1, 9.482}, {2, 12.97}, {3.5, 14.547}, {5, 14.90}}, 5e-3},
    {"N31 voltage of the coil", [](Rig& r) { r.volt(15, 1, 0); r.ohm(1, 1, 2); return r.henry(1, 2, 0); },
     Look::Volts, 15, [](double t) { return 15 * e(-t); }, {{1, 5.518}, {2, 2.030}, {3.5, 0.453}}, 5e-4},
    {"N32 LEC time: 15 V, 1 H, 2 ohm after 5 A", [](Rig& r) { r.volt(15, 1, 0); r.ohm(2, 1, 2); return r.henry(1, 2, 0, 0, 5); },
     Look::Amps, 7.5, [](double t) { return 7.5 - 2.5 * e(-2 * t); },
     {{0.1, 5.453}, {0.25, 5.984}, {0.5, 6.580}, {1, 7.162}, {2, 7.454}, {3, 7.494}}, 5e-4},
    {"N32 voltage of the coil", [](Rig& r) { r.volt(15, 1, 0); r.ohm(2, 1, 2); return r.henry(1, 2, 0, 0, 5); },
     Look::Volts, 5, [](double t) { return 5 * e(-2 * t); },
     {{0.1, 4.094}, {0.25, 3.033}, {0.5, 1.839}, {1, 0.677}, {2, 0.092}, {3, 0.012}}, 5e-4},
    {"N33 LEC time: 1.8182 V behind 454.545 ohm into 100 uF, at 60 ms 1.3325 V",
     [](Rig& r) { r.volt(20, 1, 0); r.ohm(2e3, 1, 2); r.ohm(500, 2, 3); r.ohm(3e3, 3, 0); return r.farad(1e-4, 2, 3); },
     Look::Volts, 1.8182, [](double t) { return 20.0 / 11 * (1 - e(-t / (1e-4 * 500 * 10 / 11))); }, {{0.060, 1.3325}}, 5e-5},
    {"N34 UP m58457: 100 V, 101 ohm, 50 mF: 80 V after 8.13 s", [](Rig& r) { r.volt(100, 1, 0); r.ohm(101, 1, 2); return r.farad(0.05, 2, 0); },
     Look::Volts, 100, [](double t) { return 100 * (1 - e(-t / 5.05)); }, {{8.13, 80}}, 0.05},
    {"N35 UP m58457: 12.00 V, 558.11 ohm, 10.00 mF: 10.00 V at 10.00 s", [](Rig& r) { r.volt(12, 1, 0); r.ohm(558.11, 1, 2); return r.farad(0.01, 2, 0); },
     Look::Volts, 12, [](double t) { return 12 * (1 - e(-t / 5.5811)); }, {{10, 10.00}}, 5e-3},
    {"N35 with 10 kohm: 179.18 s", [](Rig& r) { r.volt(12, 1, 0); r.ohm(1e4, 1, 2); return r.farad(0.01, 2, 0); },
     Look::Volts, 12, [](double t) { return 12 * (1 - e(-t / 100)); }, {{179.18, 10.00}}, 5e-3},
    {"N36 CP m42363: 8.00 uF from 10.0 kV through 1.00 kohm: 498 V at 24.0 ms", [](Rig& r) { r.ohm(1e3, 1, 0); return r.farad(8e-6, 1, 0, 1e4); },
     Look::Volts, 1e4, [](double t) { return 1e4 * e(-t / 8e-3); }, {{0.024, 498}}, 0.5},
    {"N37 UP m58752: 2.0 V, 4.0 ohm, 4.0 H: 0.43 A at 2 s, then 0.50 A", [](Rig& r) { r.volt(2, 1, 0); return r.henry(4, 1, 0, 4); },
     Look::Amps, 0.5, [](double t) { return 0.5 * (1 - e(-t)); }, {{2, 0.43}, {30, 0.50}}, 5e-3},
    {"N37 0.27 V on the coil at 2 s", [](Rig& r) { r.volt(2, 1, 0); r.ohm(4, 1, 2); return r.henry(4, 2, 0); },
     Look::Volts, 2, [](double t) { return 2 * e(-t); }, {{2, 0.27}}, 5e-3},
    {"N37 shorted: half after 0.69 s, energy 1 % after 2.3 s", [](Rig& r) { r.ohm(4, 0, 1); return r.henry(4, 1, 0, 0, 0.5); },
     Look::Amps, 0.5, [](double t) { return 0.5 * e(-t); }, {{0.69, 0.25}, {2.3, 0.05}}, 1.5e-3},
    {"N38 CP m42425: 7.50 mH, 3.00 ohm from 10.0 A: 1.35 A at 5 ms, 0.183 A at 10 ms", [](Rig& r) { r.ohm(3, 1, 0); return r.henry(7.5e-3, 0, 1, 0, 10); },
     Look::Amps, 10, [](double t) { return 10 * e(-t / 2.5e-3); }, {{5e-3, 1.35}, {10e-3, 0.183}}, 5e-3},
    {"N39 UP m58752: 4.0 mH let go with 4.0 A into a 5.0 ohm loop: 2.4 A at 0.40 ms", [](Rig& r) { r.ohm(5, 1, 0); return r.henry(4e-3, 0, 1, 0, 4); },
     Look::Amps, 4, [](double t) { return 4 * e(-t / 0.8e-3); }, {{0.40e-3, 2.4}}, 0.05},
    {"N39 and 12 V", [](Rig& r) { const Key k = r.ohm(5, 1, 0); r.henry(4e-3, 0, 1, 0, 4); return k; },
     Look::Volts, 20, [](double t) { return 20 * e(-t / 0.8e-3); }, {{0.40e-3, 12}}, 0.5},
    {"N41 UP m58752: 250 mH, 99.02 ohm: half after 1.75 ms (99.2 printed from rounded 2.52 ms)", [](Rig& r) { r.ohm(99.02, 1, 0); return r.henry(0.25, 0, 1, 0, 1); },
     Look::Amps, 1, [](double t) { return e(-t * 99.02 / 0.25); }, {{1.75e-3, 0.5}}, 5e-4},
    {"N42 UP m58752: 12 V, 5.0 ohm, 20 mH, no printed answer: 2.075 A at 8 ms", [](Rig& r) { r.volt(12, 1, 0); return r.henry(0.02, 1, 0, 5); },
     Look::Amps, 2.4, [](double t) { return 2.4 * (1 - e(-t / 4e-3)); }, {{8e-3, 2.075}, {0.1, 2.400}}, 5e-4},
    {"N42 1.624 V on L", [](Rig& r) { r.volt(12, 1, 0); r.ohm(5, 1, 2); return r.henry(0.02, 2, 0); },
     Look::Volts, 12, [](double t) { return 12 * e(-t / 4e-3); }, {{8e-3, 1.624}}, 5e-4},
};

// clang-format on

// An RLC loop let go from a charged capacitor. Series: L q'' + R q' + q/C = 0.
struct Loop {
    Key coil, capacitor;
};

Loop rlc(Rig& rig, double l, double c, double r, double charge_C) {
    const Key coil = rig.henry(l, 1, 0, r);
    return {coil, rig.farad(c, 1, 0, charge_C / c)};
}

} // namespace

TEST_CASE("worked transients: printed digits and closed forms") {
    for (const Course& course : courses) {
        CAPTURE(std::string(course.source));
        Rig rig;
        const Key key = course.build(rig);
        rig.start();
        for (const auto& [time_s, digits] : course.printed) {
            CAPTURE(time_s);
            rig.until(time_s);
            const double found = course.look == Look::Amps ? rig.amps(key) : rig.volts(key);
            CHECK_CLOSE(found, course.closedForm(time_s), 0.0, 1e-3 * course.fullScale);
            CHECK_CLOSE(found, digits, 0.0, course.printedOff + 1e-3 * course.fullScale);
        }
    }
}

TEST_CASE("N40 UP m58752: two branches behind a switch: 1.7 A; 2.54 and 1.27 A; 0 and 1.27 A") {
    Rig rig;
    rig.volt(50, 1, 0);
    const Key key = rig.contact(1, 4, false, 0.0), feed = rig.ohm(10, 4, 2);
    const Key side = rig.ohm(19.4, 2, 0), coil = rig.henry(2e-3, 2, 0, 19.4);
    rig.start();
    rig.until(1e-3);
    rig.circuit->setContact(key, true);
    rig.until(1e-3 + 1e-8);
    CHECK_CLOSE(rig.amps(feed), 50 / 29.4, 1e-3, 0.0); // printed 1.7, recomputed 1.701
    CHECK_CLOSE(rig.amps(side), 1.701, 1e-3, 0.0);
    CHECK_CLOSE(rig.amps(coil), 0.0, 0.0, 1e-3);
    rig.until(0.05);
    CHECK_CLOSE(rig.amps(feed), 50 / 19.7, 1e-3, 0.0); // printed 2.54, recomputed 2.538
    CHECK_CLOSE(rig.amps(side), 1.269, 1e-3, 0.0);     // printed 1.27
    CHECK_CLOSE(rig.amps(coil), 1.269, 1e-3, 0.0);
}

TEST_CASE("N40 on opening, the coil's 1.27 A goes through R2 and the feed stops") {
    Rig rig; // the switch opened: an arc would blur "on opening", so the network is the opened one
    const Key side = rig.ohm(19.4, 2, 0), coil = rig.henry(2e-3, 2, 0, 19.4, 50 / 19.7 / 2);
    rig.start();
    rig.until(1e-8);
    CHECK_CLOSE(rig.amps(coil), 1.269, 1e-3, 0.0);
    CHECK_CLOSE(rig.amps(side), -1.269, 1e-3, 0.0);
}

TEST_CASE("N46 UP m58756: 12 V, 5 ohm, 1 H, 3 ohm with 2 H across it: 0 A, then 2.4 A") {
    Rig rig;
    rig.volt(12, 1, 0);
    const Key feed = rig.ohm(5, 1, 2);
    rig.henry(1, 2, 3);
    rig.ohm(3, 3, 0);
    rig.henry(2, 3, 0);
    rig.start();
    rig.until(1e-8);
    CHECK_CLOSE(rig.amps(feed), 0.0, 0.0, 2.4e-3);
    rig.until(20.0);
    CHECK_CLOSE(rig.amps(feed), 2.4, 1e-3, 0.0);
}

TEST_CASE("N43 UP m58756: 5.0 mH, 6.0 uF, 200 ohm is overdamped and dissipates 0.75 J") {
    Rig rig;
    const double c = 6e-6, q0 = 3e-3;
    const Loop loop = rlc(rig, 5e-3, c, 200, q0);
    rig.start();
    const double step_s = 2e-5;
    double dissipated_J = 0.0, least_V = 1e9, before_A = 0.0;
    for (int k = 1; k <= 1000; ++k) { // Simpson's rule over pairs would be finer; 0.1 % is enough
        rig.until(k * step_s);
        const double i = rig.amps(loop.coil);
        dissipated_J += 0.5 * step_s * 200 * (i * i + before_A * before_A);
        before_A = i;
        least_V = std::fmin(least_V, rig.volts(loop.capacitor));
    }
    CHECK_CLOSE(dissipated_J, 0.75, 2e-3, 0.0);
    CHECK(least_V > -1e-3 * q0 / c); // never swings through
}

TEST_CASE("N44 UP m58756: 10 mH, 1.5 uF, 2.0 ohm: amplitude halves in 6.9 ms (6.931)") {
    Rig rig;
    const double l = 10e-3, c = 1.5e-6, r = 2.0, v0 = 10.0;
    const Loop loop = rlc(rig, l, c, r, v0 * c);
    rig.start();
    double peak_V = 0.0; // over the period around 6.931 ms
    for (int k = 0; k <= 200; ++k) {
        rig.until(6.931e-3 - 0.385e-3 + k * 0.77e-3 / 200);
        peak_V = std::fmax(peak_V, std::fabs(rig.volts(loop.capacitor)));
    }
    // The greatest of a period lies up to half a period before its middle: between the envelope at
    // the middle and that half a period earlier, which is 4 % more.
    CHECK_WITHIN(peak_V, 0.5 * v0 * (1 - 1e-3), 0.5 * v0 * (1.04 + 1e-3));
}

TEST_CASE("N45 UP m58756: 10 mH, 3.0 uF, 7.0 ohm from 8.0 uC (no printed answer): closed form") {
    Rig rig;
    const double l = 10e-3, c = 3e-6, r = 7.0, q0 = 8e-6;
    const Loop loop = rlc(rig, l, c, r, q0);
    rig.start();
    const double a = r / (2 * l), w = std::sqrt(1 / (l * c) - a * a); // 350 /s, 5763 rad/s
    CHECK_CLOSE(w, 5763, 1e-4, 0.0);
    for (const double periods : {0.1, 0.25, 0.5, 1.0, 2.0, 5.0}) {
        const double t = periods * 6.283185307179586 / w;
        CAPTURE(periods);
        rig.until(t);
        const double q = q0 * e(-a * t) * (std::cos(w * t) + a / w * std::sin(w * t));
        CHECK_CLOSE(rig.volts(loop.capacitor), q / c, 0.0, 1e-3 * q0 / c);
    }
    CHECK_CLOSE(rig.volts(loop.capacitor) * c, 1.187e-6, 5e-3, 0.0); // envelope after 5 cycles
}

TEST_CASE("N47 UP m58756: a coil opened with no diode does not give the 2.5e6 V of 100 A in 1 ms") {
    // The book notes the answer as unreasonable. Here an arc and the winding's insulation bound it
    // (R14: up to 1500 V).
    Rig rig;
    rig.volt(100, 1, 0);
    const Key key = rig.contact(1, 2, true), coil = rig.henry(25.0, 2, 0, 1.0, 100.0);
    rig.start();
    rig.until(1e-3);
    rig.circuit->setContact(key, false);
    double highest_V = 0.0;
    for (int k = 1; k <= 400; ++k) {
        rig.until(1e-3 + k * 5e-4);
        highest_V = std::fmax(highest_V, std::fabs(rig.volts(coil)));
    }
    CHECK_WITHIN(highest_V, 100.0, 2000.0);
}

// The rows above allow 0.1 % of full scale, in which a capacitor 0.2 % too large would hide.
TEST_CASE("N36, N38: with fine steps, a storage element off by a ten-thousandth would show") {
    Rig rig;
    rig.ohm(1e3, 1, 0);
    const Key capacitor = rig.farad(8e-6, 1, 0, 1e4);
    rig.ohm(3, 2, 0);
    const Key coil = rig.henry(7.5e-3, 0, 2, 0, 10);
    rig.start(1e-4);
    rig.until(10e-3);
    CHECK_CLOSE(rig.amps(coil), 10 * e(-4), 1e-4, 0.0);
    rig.until(24e-3);
    CHECK_CLOSE(rig.volts(capacitor), 1e4 * e(-3), 1e-4, 0.0);
}

} // namespace loom::physics
