// SPDX-License-Identifier: MIT
// Writes what docs/plots/plot.py draws, as CSV into the folder named by LOOM_PLOT_DATA; docs/plots/plot.py
// calls it so. Without that variable it does nothing.
#include "ida.h"
#include "rig.h"

#include <cstdlib>
#include <fstream>

namespace loom::physics {
namespace {

const char* folder() {
    return std::getenv("LOOM_PLOT_DATA");
}

std::ofstream table(const char* name, const char* head) {
    std::ofstream out(std::string(folder()) + "/" + name + ".csv");
    out.precision(9);
    out << head << "\n";
    return out;
}

} // namespace

TEST_CASE("plot data: fuses") {
    if (folder() == nullptr) return;
    std::ofstream out = table("fuses", "style,rating_A,multiple,opens_s");

    struct Row {
        const char* name;
        FuseStyle style;
        double rating_A;
    };

    for (const Row& row : {Row{"blade", FuseStyle::Blade, 7.5}, Row{"strip", FuseStyle::Strip, 50}})
        for (double multiple = 1.22; multiple < 10.0; multiple *= 1.02) {
            Rig rig;
            rig.add(CurrentSource{0, 1, multiple * row.rating_A});
            Fuse f;
            f.a = 1;
            f.style = row.style;
            f.rating_A = row.rating_A;
            f.cold_ohm = 1e-3;
            rig.add(f);
            rig.start();
            const double opens_s = rig.wait(EventKind::FuseMelted, 4000, 0.05);
            out << row.name << "," << row.rating_A << "," << multiple << "," << opens_s << "\n";
        }
}

TEST_CASE("plot data: motor run-up, ours and IDA's") {
    if (folder() == nullptr) return;
    // Pippin's motor behind 54 mohm on 25.7 V; the equations of ida_motor.cpp without warming.
    const double E = 25.7, Rs = 0.054, R = 0.30, L = 0.15e-3, K = 0.069, J = 0.004, Tc = 0.10;
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(Rs, 1, 2);
    Motor m;
    m.a = 2;
    const Key motor = rig.add(m);
    rig.start();
    Independent ida({Tc / K, 0}, [=](double, const double* y, double* dy) {
        dy[0] = (E - (Rs + R) * y[0] - K * y[1]) / L;
        dy[1] = (K * y[0] - Tc) / J;
    });
    // IDA begins where the torque first exceeds friction: i = (E/(R+Rs)) (1 - e^(-t (R+Rs)/L)).
    const double starts_s = -L / (R + Rs) * std::log(1 - Tc / K * (R + Rs) / E);
    std::ofstream out =
        table("motor", "time_s,current_A,speed_rad_s,ida_current_A,ida_speed_rad_s");
    for (int k = 0; k <= 300; ++k) {
        const double t = starts_s + 1.5 * k / 300 * k / 300; // closer together at the beginning
        rig.until(t);
        ida.until(t - starts_s);
        const Reading r = rig.see(motor);
        out << t << "," << r.current_A << "," << r.speed_rad_s << "," << ida[0] << "," << ida[1]
            << "\n";
    }
}

TEST_CASE("plot data: a battery shorted by its own link") {
    if (folder() == nullptr) return;
    Rig rig; // PIPPIN: 12.85 V, 12 mohm, P-01 of 10 mm2 and 0.30 m across its studs
    Battery b;
    b.plus = 1;
    const Key battery = rig.add(b);
    Cable c;
    c.a = 1;
    c.length_m = 0.30;
    c.area_m2 = 10e-6;
    const Key link = rig.add(c);
    rig.start();
    std::ofstream out = table("cable", "time_s,current_A,temp_C,terminal_V");
    for (double t = 0.0; t <= 60.0; t += 0.05) {
        rig.until(t);
        out << t << "," << rig.amps(link) << "," << rig.see(link).temp_K - kZero_K << ","
            << rig.volts(battery) << "\n";
    }
    std::ofstream events = table("cable_events", "time_s,kind,temp_C");
    for (const Event& e : rig.events)
        if (e.element == link)
            events << e.time_s << "," << int(e.kind) << "," << e.second - kZero_K << "\n";
}

} // namespace loom::physics
