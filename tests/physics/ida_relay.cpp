// SPDX-License-Identifier: MIT
// A relay's coil, pulled in and released over its diode, integrated a second time by SUNDIALS IDA:
// currents within 0.5 %, the instants at which the armature arrives within 10 us.
#include "ida.h"
#include "rig.h"

namespace loom::physics {
namespace {

// Pippin's relay: 320 ohm, 0.6 H, pulls in at 16.8 V / 320 ohm, drops out at 2.4 V / 320 ohm. From
// there, relay.h: normally open makes 2.6 ms later; normally closed makes 2.5 ms later. Its copper
// warms: 12 J/K, 0.033 W/K, 0.00393 per K.
constexpr double kR = 320, kL = 0.6, kPull_A = 16.8 / 320, kDrop_A = 2.4 / 320;
constexpr double kMakes_s = 2.6e-3, kRests_s = 2.5e-3;

double warmOhms(double rise_K) {
    return kR * (1 + 0.00393 * rise_K);
}

// The diode: i = Is (e^(v/0.05) - 1), 1 A at 0.8 V.
double diode_A(double v) {
    return std::exp((v - 0.8) / 0.05) - std::exp(-0.8 / 0.05);
}

// Voltage at which it lets i through.
double diode_V(double i) {
    return 0.8 + 0.05 * std::log(i + std::exp(-0.8 / 0.05));
}

struct CoilRig : Rig {
    Key key = 0, relay = 0;

    explicit CoilRig(bool withDiode) {
        volt(24, 1, 0);
        key = contact(1, 2, false, 0.0);
        Relay spec;
        spec.coilA = 2;
        spec.coilB = 0;
        spec.common = 3;
        spec.normallyOpen = 4;
        spec.normallyClosed = 5;
        relay = add(spec);
        Diode d;
        d.anode = 0;
        d.cathode = 2;
        if (withDiode) add(d);
        start();
    }
};

} // namespace

TEST_CASE("IDA: a relay pulls in") {
    // L i' = E - R(T) i,  12 T' = R(T) i^2 - 0.033 T
    Independent ida({0, 0}, [](double, const double* y, double* dy) {
        const double r = warmOhms(y[1]);
        dy[0] = (24 - r * y[0]) / kL;
        dy[1] = (r * y[0] * y[0] - 0.033 * y[1]) / 12;
    });
    CoilRig rig(true);
    rig.circuit->setContact(rig.key, true);
    for (const double t : {0.5e-3, 1e-3, 2e-3}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.amps(rig.relay), ida[0], 0.005, 0.0);
    }
    const double pulled_s = ida.event([](double, const double* y) { return y[0] - kPull_A; }, 1.0);
    rig.until(20e-3);
    CHECK_CLOSE(rig.when(EventKind::PulledIn), pulled_s + kMakes_s, 0.0, 10e-6);
    for (const double t : {0.02, 10.0, 60.0, 600.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.amps(rig.relay), ida[0], 0.005, 0.0);
        CHECK_CLOSE(rig.see(rig.relay).temp_K - 293.15, ida[1], 0.005, 1e-3);
    }
}

TEST_CASE("IDA: a coil released over its diode") {
    //   L i' = -R i - v(i), v of the diode; the coil is cold: held in for 50 ms only
    CoilRig rig(true);
    rig.circuit->setContact(rig.key, true);
    rig.until(0.05);
    const double begin_A = rig.amps(rig.relay);
    rig.circuit->setContact(rig.key, false);
    const double r = warmOhms(rig.see(rig.relay).temp_K - 293.15);
    Independent ida({begin_A}, [=](double, const double* i, double* di) {
        di[0] = (-r * i[0] - diode_V(i[0])) / kL;
    });
    CHECK_CLOSE(diode_A(diode_V(0.075)), 0.075, 1e-12, 0.0); // the two laws agree
    const double dropped_s = [&] {
        for (const double t : {0.2e-3, 0.5e-3, 1e-3, 2e-3, 3e-3}) {
            CAPTURE(t);
            rig.until(0.05 + t);
            ida.until(t);
            CHECK_CLOSE(rig.amps(rig.relay), ida[0], 0.005, 0.0);
            CHECK_CLOSE(-rig.volts(rig.relay), diode_V(ida[0]), 0.005, 0.0);
        }
        return ida.event([](double, const double* i) { return i[0] - kDrop_A; }, 1.0);
    }();
    rig.until(0.1);
    CHECK_CLOSE(rig.when(EventKind::DroppedOut), 0.05 + dropped_s + kRests_s, 0.0, 10e-6);
}

TEST_CASE("IDA: a coil released with a resistor across it kicks to I R") {
    //   L i' = -(R + 680 ohm) i
    CoilRig rig(false);
    Rig with;
    with.netlist = rig.netlist;
    with.ohm(680, 2, 0);
    with.start();
    with.circuit->setContact(rig.key, true);
    with.until(0.05);
    const double begin_A = with.amps(rig.relay);
    const double r = warmOhms(with.see(rig.relay).temp_K - 293.15);
    with.circuit->setContact(rig.key, false);
    Independent ida({begin_A},
                    [=](double, const double* i, double* di) { di[0] = -(r + 680) * i[0] / kL; });
    for (const double t : {0.1e-3, 0.3e-3, 0.6e-3, 1e-3}) {
        CAPTURE(t);
        with.until(0.05 + t);
        ida.until(t);
        CHECK_CLOSE(with.amps(rig.relay), ida[0], 0.005, 0.0);
        CHECK_CLOSE(-with.volts(rig.relay), 680 * ida[0], 0.005, 0.0);
    }
    const double dropped_s = ida.event([](double, const double* i) { return i[0] - kDrop_A; }, 1.0);
    with.until(0.1);
    CHECK_CLOSE(with.when(EventKind::DroppedOut), 0.05 + dropped_s + kRests_s, 0.0, 10e-6);
    const Event* kick = with.first(EventKind::CoilKicked);
    REQUIRE(kick != nullptr);
    CHECK_CLOSE(kick->first, 680 * begin_A, 0.005, 0.0);
}

// By hand: the coil's current is an exponential between the instants of relay.h. The contact takes too
// little to arc, so the supply behind 60 ohm stands at 24 V with 380 ohm or, loaded, at its Thevenin
// equivalent.
TEST_CASE("by hand: a relay that loads its own weak supply chatters at its period") {
    const double henry = 0.6, coil_ohm = 320, behind_ohm = 60, load_ohm = 5 + 3e-3;
    const double pull_A = 16.8 / 320, drop_A = 2.4 / 320;
    const double loaded_V = 24 * load_ohm / (behind_ohm + load_ohm);
    const double loaded_ohm = coil_ohm + behind_ohm * load_ohm / (behind_ohm + load_ohm);

    struct Supply {
        double volts, ohm;
    };

    const Supply open{24, coil_ohm + behind_ohm}, loaded{loaded_V, loaded_ohm};
    const auto after = [=](const Supply& s, double i, double seconds) {
        return s.volts / s.ohm + (i - s.volts / s.ohm) * std::exp(-seconds * s.ohm / henry);
    };
    const auto reaches = [=](const Supply& s, double i, double to_A) {
        return henry / s.ohm * std::log((i - s.volts / s.ohm) / (to_A - s.volts / s.ohm));
    };
    // Pulled: 2.6 ms to the make, 0.3 ms made, 0.4 ms apart, made until it lets go, 1 ms more, apart.
    double i = after(open, pull_A, 2.6e-3);
    i = after(open, after(loaded, i, 0.3e-3), 0.4e-3);
    const double made_s = reaches(loaded, i, drop_A);
    const double again_s = reaches(open, after(loaded, drop_A, 1e-3), pull_A);
    const double period_s = 3.3e-3 + made_s + 1e-3 + again_s;

    Rig rig;
    rig.volt(24, 1, 0);
    rig.ohm(behind_ohm, 1, 2);
    Relay part;
    part.coilA = part.common = 2;
    part.coilB = 0;
    part.normallyOpen = 3;
    part.normallyClosed = 4;
    rig.add(part);
    rig.ohm(5, 3, 0);
    rig.start();
    rig.until(0.2);
    std::vector<double> pulled_s;
    for (const Event& e : rig.events)
        if (e.kind == EventKind::PulledIn) pulled_s.push_back(e.time_s);
    REQUIRE(pulled_s.size() > 10);
    CHECK_CLOSE(pulled_s[0], reaches(open, 0, pull_A) + 2.6e-3, 0.0, 10e-6);
    for (std::size_t k = 1; k < 10; ++k) {
        CAPTURE(k);
        CHECK_CLOSE(pulled_s[k] - pulled_s[k - 1], period_s, 0.0, 10e-6);
    }
}

} // namespace loom::physics
