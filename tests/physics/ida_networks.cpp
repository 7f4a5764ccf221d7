// SPDX-License-Identifier: MIT
// Transients of plain networks, integrated a second time by SUNDIALS IDA from equations written out
// here: agreement within 0.5 % of full scale at every listed time, where not said otherwise.
#include "ida.h"
#include "rig.h"

namespace loom::physics {

TEST_CASE("IDA: two RC sections in series charge from 24 V") {
    // C1 v1' = (E - v1)/R1 - (v1 - v2)/R2,  C2 v2' = (v1 - v2)/R2
    const double E = 24, R1 = 100, R2 = 470, C1 = 220e-6, C2 = 47e-6;
    Independent ida({0, 0}, [&](double, const double* v, double* dv) {
        dv[0] = ((E - v[0]) / R1 - (v[0] - v[1]) / R2) / C1;
        dv[1] = (v[0] - v[1]) / R2 / C2;
    });
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(R1, 1, 2);
    const Key first = rig.farad(C1, 2, 0);
    rig.ohm(R2, 2, 3);
    const Key second = rig.farad(C2, 3, 0);
    rig.start();
    for (const double t : {1e-3, 3e-3, 10e-3, 20e-3, 40e-3, 0.1, 0.3}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.volts(first), ida[0], 0.005, 1e-3);
        CHECK_CLOSE(rig.volts(second), ida[1], 0.005, 1e-3);
    }
}

TEST_CASE("IDA: two coupled RL loops fed through one resistor") {
    // i = i1 + i2, v = E - R0 i;  L1 i1' = v - R1 i1,  L2 i2' = v - R2 i2
    const double E = 12, R0 = 0.5, R1 = 2, L1 = 20e-3, R2 = 8, L2 = 0.4;
    Independent ida({0, 0}, [&](double, const double* i, double* di) {
        const double v = E - R0 * (i[0] + i[1]);
        di[0] = (v - R1 * i[0]) / L1;
        di[1] = (v - R2 * i[1]) / L2;
    });
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(R0, 1, 2);
    const Key first = rig.henry(L1, 2, 0, R1), second = rig.henry(L2, 2, 0, R2);
    rig.start();
    for (const double t : {1e-3, 5e-3, 20e-3, 50e-3, 0.1, 0.3}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.amps(first), ida[0], 0.005, 1e-4);
        CHECK_CLOSE(rig.amps(second), ida[1], 0.005, 1e-4);
    }
}

TEST_CASE("IDA: RLC loops, swinging and overdamped") {
    // L i' = v - R i,  C v' = -i; v of the capacitor, i out of it
    struct Row {
        const char* what;
        double R, L, C, v0, end_s;
    };

    const Row rows[] = {{"swinging", 7.0, 10e-3, 3e-6, 100, 5e-3},
                        {"barely damped", 0.5, 10e-3, 3e-6, 100, 5e-3},
                        {"overdamped", 200, 5e-3, 6e-6, 500, 6e-3}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.what));
        Independent ida({0, row.v0}, [&](double, const double* y, double* dy) {
            dy[0] = (y[1] - row.R * y[0]) / row.L;
            dy[1] = -y[0] / row.C;
        });
        Rig rig;
        const Key coil = rig.henry(row.L, 1, 0, row.R);
        const Key capacitor = rig.farad(row.C, 1, 0, row.v0);
        rig.start();
        const double scale_A = row.v0 * std::sqrt(row.C / row.L);
        for (int k = 1; k <= 10; ++k) {
            const double t = row.end_s * k / 10;
            CAPTURE(t);
            rig.until(t);
            ida.until(t);
            CHECK_CLOSE(rig.amps(coil), ida[0], 0.0, 0.005 * scale_A);
            CHECK_CLOSE(rig.volts(capacitor), ida[1], 0.0, 0.005 * row.v0);
        }
    }
}

TEST_CASE("IDA: a loaded coil is opened: the contact arcs until the arc is too long") {
    // Arc law of gap.h: v = 12 V + 4500 V/s t + 20 mohm i, out below 0.5 A. Then the winding's
    // insulation takes what is left.
    //   L i' = E - R i - (12 + 4500 t + 0.02 i)
    const double E = 24, R = 2, L = 0.05;
    Independent ida({E / R}, [&](double t, const double* i, double* di) {
        di[0] = (E - R * i[0] - (12 + 4500 * t + 0.02 * i[0])) / L;
    });
    Rig rig;
    rig.volt(E, 1, 0);
    const Key key = rig.contact(1, 2, true, 0.0), coil = rig.henry(L, 2, 0, R, E / R);
    rig.start();
    rig.until(0.01);
    rig.circuit->setContact(key, false);
    for (const double t : {1e-3, 3e-3, 6e-3, 9e-3}) {
        CAPTURE(t);
        rig.until(0.01 + t);
        ida.until(t);
        CHECK_CLOSE(rig.amps(coil), ida[0], 0.005, 1e-3);
        CHECK_CLOSE(rig.volts(key), 12 + 4500 * t + 0.02 * ida[0], 0.005, 0.0);
    }
    const double out_s = ida.event([](double, const double* i) { return i[0] - 0.5; }, 1.0);
    rig.until(0.01 + out_s - 20e-6);
    CHECK(rig.volts(key) < 100.0);
    rig.until(0.01 + out_s + 10e-6);
    CHECK(rig.volts(key) > 500.0); // the arc is out and the coil kicks
}

} // namespace loom::physics
