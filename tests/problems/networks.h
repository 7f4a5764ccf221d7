// SPDX-License-Identifier: MIT
// Networks of resistors and ideal sources with worked answers in open textbooks: rows N01-N29.
// Each row quotes the digits printed in the book. Books: University Physics vol. 2 and College
// Physics 2e (OpenStax, module ids), Lessons in Electric Circuits vol. I (T. Kuphaldt, file names;
// hand-worked figures only). Solve a row any way you like and compare.
#pragma once

#include <vector>

namespace problems {

struct Branch {
    int a, b;
    double ohm, emf_V; // v_a - v_b = ohm i + emf_V, i from a to b
};

inline Branch ohm(double r, int a, int b) {
    return {a, b, r, 0.0};
}

inline Branch volt(double v, int plus, int minus) {
    return {plus, minus, 0.0, v};
}

enum class Quantity { Amps, Volts, Watts };

// Of a branch: current from a to b, voltage of a against b, power taken up.
struct Printed {
    Quantity quantity;
    int branch;
    double value;
    double halfDigit; // half of the last printed digit
};

inline Printed A(int branch, double value, double halfDigit) {
    return {Quantity::Amps, branch, value, halfDigit};
}

inline Printed V(int branch, double value, double halfDigit) {
    return {Quantity::Volts, branch, value, halfDigit};
}

inline Printed W(int branch, double value, double halfDigit) {
    return {Quantity::Watts, branch, value, halfDigit};
}

struct NetworkRow {
    const char* source; // and the digits as printed
    std::vector<Branch> branches;
    std::vector<Printed> printed;
};

inline int nodesOf(const std::vector<Branch>& branches) {
    int most = 0;
    for (const Branch& b : branches)
        most = b.a > most ? b.a : b.b > most ? b.b : most;
    return most + 1;
}

// clang-format off
inline const std::vector<NetworkRow>& networks() {
    static const std::vector<NetworkRow> rows = {
    {"N01 UP m58454: 0.1 A; 2 V four times and 1 V; 0.9 W",
     {volt(9, 1, 0), ohm(20, 1, 2), ohm(20, 2, 3), ohm(20, 3, 4), ohm(20, 4, 5), ohm(10, 5, 0)},
     {A(1, 0.1, 0.05), V(1, 2, 0.5), V(4, 2, 0.5), V(5, 1, 0.5), W(0, -0.9, 0.05)}},
    {"N02 CP m42356: 0.600 A; 0.600, 3.60, 7.80 V; 0.360, 2.16, 4.68 W; 7.20 W",
     {volt(12, 1, 0), ohm(1, 1, 2), ohm(6, 2, 3), ohm(13, 3, 0)},
     {A(1, 0.600, 5e-4), V(1, 0.600, 5e-4), V(2, 3.60, 5e-3), V(3, 7.80, 5e-3),
      W(1, 0.360, 5e-4), W(2, 2.16, 5e-3), W(3, 4.68, 5e-3), W(0, -7.20, 5e-3)}},
    {"N03 LEC s_and_p: 500 uA; 1.5, 5, 2.5 V",
     {volt(9, 1, 0), ohm(3e3, 1, 2), ohm(10e3, 2, 3), ohm(5e3, 3, 0)},
     {A(1, 500e-6, 5e-7), V(1, 1.5, 0.05), V(2, 5, 0.5), V(3, 2.5, 0.05)}},
    {"N04 LEC divider: 2 mA; 10 V, twice that on the second",
     {volt(45, 1, 0), ohm(5e3, 1, 2), ohm(10e3, 2, 3), ohm(7.5e3, 3, 0)},
     {A(1, 2e-3, 5e-4), V(1, 10, 0.5), V(2, 20, 0.5)}},
    {"N04 LEC divider at 180 V: 40 V on the first",
     {volt(180, 1, 0), ohm(5e3, 1, 2), ohm(10e3, 2, 3), ohm(7.5e3, 3, 0)}, {V(1, 40, 0.5)}},
    {"N05 UP m58454: 6.00 A; 3.00, 1.50, 1.50 A; 18.00 W",
     {volt(3, 1, 0), ohm(1, 1, 0), ohm(2, 1, 0), ohm(2, 1, 0)},
     {A(0, -6.00, 5e-3), A(1, 3.00, 5e-3), A(2, 1.50, 5e-3), A(3, 1.50, 5e-3), W(0, -18.00, 5e-3)}},
    {"N06 CP m42356: 14.92 A; 12.0, 2.00, 0.92 A; 144, 24.0, 11.1 W; 179 W",
     {volt(12, 1, 0), ohm(1, 1, 0), ohm(6, 1, 0), ohm(13, 1, 0)},
     {A(0, -14.92, 5e-3), A(1, 12.0, 0.05), A(2, 2.00, 5e-3), A(3, 0.92, 5e-3),
      W(1, 144, 0.5), W(2, 24.0, 0.05), W(3, 11.1, 0.05), W(0, -179, 0.5)}},
    {"N07 LEC s_and_p: 0.9, 4.5, 9 mA; 625 ohm in all, so 14.4 mA",
     {volt(9, 1, 0), ohm(10e3, 1, 0), ohm(2e3, 1, 0), ohm(1e3, 1, 0)},
     {A(1, 0.9e-3, 5e-5), A(2, 4.5e-3, 5e-5), A(3, 9e-3, 5e-4), A(0, -9.0 / 625, 0.0)}},
    {"N08 LEC divider: 6, 2, 3 mA",
     {volt(6, 1, 0), ohm(1e3, 1, 0), ohm(3e3, 1, 0), ohm(2e3, 1, 0)},
     {A(1, 6e-3, 5e-4), A(2, 2e-3, 5e-4), A(3, 3e-3, 5e-4)}},
    {"N09 UP m58454, CP m42356: 2.35 A; 9.65 V; 1.61 A; 15.5 W; 0.742 A (5.10 and 5.11 ohm printed)",
     {volt(12, 1, 0), ohm(1, 1, 2), ohm(6, 2, 0), ohm(13, 2, 0)},
     {A(1, 2.35, 5e-3), V(2, 9.65, 5e-3), A(2, 1.61, 5e-3), W(2, 15.5, 0.05), A(3, 0.742, 5e-4)}},
    {"N10 UP m58454: 2 A; 14 V; 1 A; 1 A; 28, 10, 6, 4 W",
     {volt(24, 1, 0), ohm(7, 1, 2), ohm(10, 2, 0), ohm(6, 2, 3), ohm(4, 3, 0)},
     {A(1, 2, 0.5), V(1, 14, 0.5), A(2, 1, 0.5), A(3, 1, 0.5), W(1, 28, 0.5), W(2, 10, 0.5),
      W(3, 6, 0.5), W(4, 4, 0.5), W(0, -48, 0.0)}},
    {"N11 UP m58454: 50.00 V gives 2.00 A, 100.00 W",
     {volt(50, 1, 0), ohm(10, 1, 2), ohm(10, 2, 3), ohm(10, 3, 0), ohm(10, 3, 0)},
     {A(1, 2.00, 5e-3), W(0, -100.00, 5e-3)}},
    {"N12 LEC s_p: 120.78 mA (71.429, 127.27, 198.70 ohm)",
     {volt(24, 1, 0), ohm(100, 1, 2), ohm(250, 1, 2), ohm(350, 2, 0), ohm(200, 2, 0)},
     {A(0, -120.78e-3, 5e-6), V(3, 0.12078 * 127.27, 0.0), A(1, 86.27e-3, 5e-6),
      A(2, 34.51e-3, 5e-6), A(3, 43.92e-3, 5e-6), A(4, 76.86e-3, 5e-6)}},
    {"N13 UP m58454: 36.0, 50.0, 700 ohm in series 786 ohm",
     {volt(786, 1, 0), ohm(36, 1, 2), ohm(50, 2, 3), ohm(700, 3, 0)}, {A(1, 1.0, 0.0)}},
    {"N13 UP m58454: the same side by side 20.32 ohm",
     {volt(20.32, 1, 0), ohm(36, 1, 0), ohm(50, 1, 0), ohm(700, 1, 0)}, {A(0, -1.0, 0.0)}},
    {"N14 UP m58454: 60.8 W in a 75 W bulb, 1.56 kW in the motor beside it, 15.0 A in 0.800 ohm",
     {volt(120, 1, 0), ohm(0.8, 1, 2), ohm(192, 2, 0), ohm(108 / (15.0 - 108.0 / 192.0), 2, 0)},
     {A(1, 15.0, 0.05), W(2, 60.8, 0.05), W(3, 1560, 5)}},
    {"N15 LEC dcmeter: 0.8889 V on a 10 Mohm meter",
     {volt(24, 1, 0), ohm(250e6, 1, 2), ohm(250e6, 2, 0), ohm(10e6, 2, 0)}, {V(3, 0.8889, 5e-5)}},
    {"N15 LEC dcmeter: 12 V without the meter",
     {volt(24, 1, 0), ohm(250e6, 1, 2), ohm(250e6, 2, 0)}, {V(2, 12, 0.5)}},
    {"N16 UP m58455: 3.00, 5.00, -2.00 A; 130 W",
     {volt(24, 1, 0), ohm(3, 1, 2), ohm(3, 2, 0), ohm(3, 2, 3), ohm(4, 3, 4), volt(29, 4, 0)},
     {A(1, 3.00, 5e-3), A(2, 5.00, 5e-3), A(3, -2.00, 5e-3)}},
    {"N17 CP m42359: 4.75, -3.50, 8.25 A (3 and 2 ohm split by us)",
     {ohm(6, 0, 1), ohm(2.5, 1, 2), volt(18, 3, 2), ohm(0.5, 3, 0), ohm(1.5, 1, 4),
      volt(45, 5, 4), ohm(0.5, 5, 0)},
     {A(0, 4.75, 5e-3), A(1, -3.50, 5e-3), A(4, 8.25, 5e-3)}},
    {"N18 UP m58455: 0.20, 0.30, 0.50 A; 1.09 W (first resistor 1 ohm as in its equations)",
     {volt(0.5, 2, 0), ohm(1, 2, 5), ohm(2, 5, 1), volt(2.3, 3, 0), ohm(5, 3, 6), ohm(3, 6, 1),
      ohm(1, 1, 4), volt(0.6, 0, 4)},
     {A(1, 0.20, 5e-3), A(4, 0.30, 5e-3), A(6, 0.50, 5e-3), W(1, 0.04, 5e-3)}},
    {"N19 UP m58455: 0.20 A; 0.40, 1.20, 0.80 W, 2.40 W into the 12 V, 4.80 W in",
     {volt(24, 1, 0), ohm(20, 1, 2), ohm(10, 2, 3), volt(12, 3, 4), ohm(30, 4, 0)},
     {A(1, 0.20, 5e-3), W(2, 0.40, 5e-3), W(4, 1.20, 5e-3), W(1, 0.80, 5e-3), W(3, 2.40, 5e-3),
      W(0, -4.80, 5e-3)}},
    {"N20 UP m58455: 1.5, 2, 0.5, 2.5 A, 2 A from the 5 V; 34 W",
     {volt(12, 1, 0), ohm(4, 1, 2), ohm(3, 2, 0), volt(5, 1, 3), ohm(2, 3, 2), ohm(2, 1, 3)},
     {A(1, 1.5, 0.05), A(2, 2, 0.5), A(4, 0.5, 0.05), A(5, 2.5, 0.05), A(3, -2, 0.5)}},
    {"N21 LEC dcnet: 5, 4, 1 A; 20, 8, 1 V; the 7 V source is charged by 1 A",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(2, 2, 0), ohm(1, 2, 3), volt(7, 3, 0)},
     {A(1, 5, 0.5), A(2, 4, 0.5), A(3, 1, 0.5), V(1, 20, 0.5), V(2, 8, 0.5), V(3, 1, 0.5),
      A(4, 1, 0.5)}},
    {"N21 with 28 V alone: 6, 2, 4 A",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(2, 2, 0), ohm(1, 2, 0)},
     {A(1, 6, 0.5), A(2, 2, 0.5), A(3, 4, 0.5)}},
    {"N21 with 7 V alone: 1, 2, 3 A",
     {ohm(4, 0, 2), ohm(2, 2, 0), ohm(1, 2, 3), volt(7, 3, 0)},
     {A(0, -1, 0.5), A(1, 2, 0.5), A(2, -3, 0.5)}},
    {"N22 LEC dcnet: N21 seen from its 2 ohm, open 11.2 V",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(1, 2, 3), volt(7, 3, 0), ohm(1e12, 2, 0)},
     {V(4, 11.2, 0.05)}},
    {"N22 short-circuit 14 A",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(0, 2, 0), ohm(1, 2, 3), volt(7, 3, 0)}, {A(2, 14, 0.5)}},
    {"N22 as 11.2 V behind 0.8 ohm: 4 A in the 2 ohm of N21",
     {volt(11.2, 1, 0), ohm(0.8, 1, 2), ohm(2, 2, 0)}, {A(2, 4, 0.5)}},
    {"N23 LEC dcnet, unbalanced bridge: loop currents -0.093793, 0.077241, 0.136092 A",
     {volt(24, 1, 0), ohm(150, 1, 2), ohm(50, 1, 3), ohm(100, 2, 3), ohm(300, 2, 0), ohm(250, 3, 0)},
     {A(2, 0.093793, 5e-7), A(5, 0.077241, 5e-7), A(0, -0.136092, 5e-7), A(1, 42.30e-3, 5e-6),
      A(3, -16.55e-3, 5e-6), A(4, 58.85e-3, 5e-6)}},
    {"N24 CP m42362, balanced bridge: 1.56 kohm carries nothing across",
     {volt(12, 1, 0), ohm(1000, 1, 2), ohm(625, 2, 0), ohm(2500, 1, 3), ohm(1562.5, 3, 0), ohm(47, 2, 3)},
     {A(5, 0.0, 1e-15)}},
    {"N25 UP m58453, CP m42357: 1.188 A; 11.9 V (11.90 in UP is a misprint)",
     {volt(12, 1, 0), ohm(0.1, 1, 2), ohm(10, 2, 0)}, {A(1, 1.188, 5e-4), V(2, 11.9, 0.05)}},
    {"N26 UP m58453: 20.00 A, 10.00 V, 200 W",
     {volt(12, 1, 0), ohm(0.1, 1, 2), ohm(0.5, 2, 0)},
     {A(1, 20.00, 5e-3), V(2, 10.00, 5e-3), W(2, 200, 0.5)}},
    {"N26 with 0.500 ohm inside: 12.00 A, then 6 V, 72 W",
     {volt(12, 1, 0), ohm(0.5, 1, 2), ohm(0.5, 2, 0)},
     {A(1, 12.00, 5e-3), V(2, 6, 0.0), W(2, 72, 0.0)}},
    {"N27 CP m42357: 200 A, 10.0 V, 2.00 kW",
     {volt(12, 1, 0), ohm(0.01, 1, 2), ohm(0.05, 2, 0)},
     {A(1, 200, 0.5), V(2, 10.0, 0.05), W(2, 2000, 5)}},
    {"N27, T20 with 0.0900 ohm of corroded joints: 80.0 A, 4.0 V, 320 W",
     {volt(12, 1, 0), ohm(0.01, 1, 2), ohm(0.05, 2, 3), ohm(0.09, 3, 0)},
     {A(1, 80.0, 0.05), V(2, 4.0, 0.05), W(2, 320, 0.5)}},
    {"N28 LEC batt: 8.333 A",
     {volt(10, 1, 0), ohm(0.2, 1, 2), ohm(1, 2, 0)}, {A(1, 8.333, 5e-4)}},
    {"N28 shorted: 50 A", {volt(10, 1, 0), ohm(0.2, 1, 2), ohm(0, 2, 0)}, {A(1, 50, 0.5)}},
    {"N29 UP m58455: 0.617 A; 3.81 W",
     {volt(1.58, 1, 0), ohm(0.02, 1, 2), volt(1.58, 3, 2), ohm(0.02, 3, 4), volt(1.58, 5, 4),
      ohm(0.02, 5, 6), volt(1.53, 7, 6), ohm(0.1, 7, 8), ohm(10, 8, 0)},
     {A(8, 0.617, 5e-4), W(8, 3.81, 5e-3)}},
    {"N29 with 18.0 ohm in the last cell: 0.500 W",
     {volt(1.58, 1, 0), ohm(0.02, 1, 2), volt(1.58, 3, 2), ohm(0.02, 3, 4), volt(1.58, 5, 4),
      ohm(0.02, 5, 6), volt(1.53, 7, 6), ohm(18.0, 7, 8), ohm(10, 8, 0)},
     {W(8, 0.500, 5e-4)}},
    };
    return rows;
}

// clang-format on

} // namespace problems
