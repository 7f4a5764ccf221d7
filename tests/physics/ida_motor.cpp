// SPDX-License-Identifier: MIT
// A brushed motor running up, stalled and braked, integrated a second time by SUNDIALS IDA: within
// 0.5 % at every listed time, starting and stopping within 10 us, at the usual tolerance of a step and
// at a thousandth of it.
//
//   L i' = v - R(T) i - K w,   J w' = K i - B w - sign Tc,   C T' = R(T) i^2 - G T,  T over ambient
//   R(T) = R (1 + 0.00393 T);  C = 4e4 K^2/R, G = 150 K^2/R (motor.h)
#include "ida.h"
#include "rig.h"

namespace loom::physics {
namespace {

struct Values {
    double R = 0.30, L = 0.15e-3, K = 0.069, J = 0.004, Tc = 0.10, B = 0.0;

    double ohms(double rise_K) const { return R * (1 + 0.00393 * rise_K); }

    double heat_J_per_K() const { return 4e4 * K * K / R; }

    double loss_W_per_K() const { return 150 * K * K / R; }

    // v as a function of i; turning: sign of the speed, 0 held
    template <class Volts> Independent::Rates rates(Volts v, int turning) const {
        const Values m = *this;
        return [=](double, const double* y, double* dy) {
            const double i = y[0], w = y[1], r = m.ohms(y[2]);
            dy[0] = (v(i) - r * i - m.K * w) / m.L;
            dy[1] = turning == 0 ? 0.0 : (m.K * i - m.B * w - turning * m.Tc) / m.J;
            dy[2] = (r * i * i - m.loss_W_per_K() * y[2]) / m.heat_J_per_K();
        };
    }

    Motor part(Node a, Node b) const {
        Motor p;
        p.a = a;
        p.b = b;
        p.resistance_ohm = R;
        p.inductance_H = L;
        p.constant_Vs = K;
        p.inertia_kg_m2 = J;
        p.friction_Nm = Tc;
        p.viscous_Nms = B;
        return p;
    }
};

void compare(const Rig& rig, Key motor, const Independent& ida, double scale_A) {
    const Reading r = rig.see(motor);
    CHECK_CLOSE(r.current_A, ida[0], 0.005, 1e-5 * scale_A);
    CHECK_CLOSE(r.speed_rad_s, ida[1], 0.005, 1e-3);
    CHECK_CLOSE(r.temp_K - 293.15, ida[2], 0.005, 2e-3);
}

} // namespace

TEST_CASE("IDA: a motor runs up on 25.7 V behind 54 mohm and comes to rest speed") {
    Values m;
    m.B = 1e-4;
    const double E = 25.7, Rs = 0.054;
    const auto volts = [=](double i) { return E - Rs * i; };
    Independent ida({0, 0, 0}, m.rates(volts, 0));
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(Rs, 1, 2);
    const Key motor = rig.add(m.part(2, 0));
    rig.start();
    const double starts_s =
        ida.event([&](double, const double* y) { return m.K * y[0] - m.Tc; }, 1.0);
    ida.restart(ida.states(), m.rates(volts, 1));
    for (const double t : {0.2e-3, 1e-3, 3e-3, 0.01, 0.03, 0.1, 0.2, 0.4, 0.8, 1.6, 5.0, 60.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        compare(rig, motor, ida, 73.0);
    }
    CHECK_CLOSE(rig.when(EventKind::MotorStarted), starts_s, 0.0, 10e-6);
}

TEST_CASE("IDA: a jammed motor stalls and cooks") {
    const Values m;
    const double E = 25.7, Rs = 0.054;
    Independent ida({0, 0, 0}, m.rates([=](double i) { return E - Rs * i; }, 0));
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(Rs, 1, 2);
    Motor part = m.part(2, 0);
    part.jammed = true;
    const Key motor = rig.add(part);
    rig.start();
    for (const double t : {0.3e-3, 1e-3, 0.01, 0.1, 1.0, 5.0, 20.0, 60.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        compare(rig, motor, ida, 73.0);
    }
    CHECK(rig.first(EventKind::MotorStalled) != nullptr);
    CHECK(rig.see(motor).temp_K > 373.15);
}

TEST_CASE("IDA: a running motor is shorted, brakes and stops") {
    for (const double tolerance : {1.0, 1e-3}) {
        CAPTURE(tolerance);
        const Values m;
        Rig rig;
        rig.volt(24, 1, 0);
        const Key feed = rig.contact(1, 2, true, 1e-3), brake = rig.contact(2, 0, false, 20e-3);
        const Key motor = rig.add(m.part(2, 0));
        rig.start(tolerance);
        rig.until(2.0);
        // The feed opens and its arc goes out; only then the brake closes. Else the arc would feed it.
        rig.circuit->setContact(feed, false);
        const double begin_s = 2.05;
        rig.until(begin_s);
        rig.circuit->setContact(brake, true);
        rig.until(begin_s + 1e-6);
        const Reading r = rig.see(motor);
        Independent ida({r.current_A, r.speed_rad_s, r.temp_K - 293.15},
                        m.rates([](double i) { return -20e-3 * i; }, 1));
        for (const double t : {0.1e-3, 0.5e-3, 2e-3, 0.01, 0.05, 0.15}) {
            CAPTURE(t);
            rig.until(begin_s + 1e-6 + t);
            ida.until(t);
            compare(rig, motor, ida, 70.0);
        }
        const double stops_s = ida.event([](double, const double* y) { return y[1]; }, 5.0);
        rig.until(begin_s + 5.0);
        CHECK_CLOSE(rig.when(EventKind::MotorStopped), begin_s + 1e-6 + stops_s, 0.0, 10e-6);
        CHECK(rig.see(motor).speed_rad_s == 0.0);
    }
}

TEST_CASE("IDA: a motor turning forward is put on reverse, passes through rest and runs back") {
    const Values m;
    Rig rig;
    const Key feed = rig.volt(24, 1, 0);
    rig.ohm(0.05, 1, 2);
    const Key motor = rig.add(m.part(2, 0));
    rig.start();
    rig.until(2.0);
    Netlist reversed = rig.netlist;
    std::get<VoltageSource>(reversed.elements[feed - 1].part).emf_V = -24;
    const Reading r = rig.see(motor);
    rig.circuit->rewire(reversed);
    const auto volts = [](double i) { return -24 - 0.05 * i; };
    Independent ida({r.current_A, r.speed_rad_s, r.temp_K - 293.15}, m.rates(volts, 1));
    for (const double t : {1e-3, 0.01, 0.05, 0.1}) {
        CAPTURE(t);
        rig.until(2.0 + t);
        ida.until(t);
        compare(rig, motor, ida, 130.0);
    }
    const double turns_s = ida.event([](double, const double* y) { return y[1]; }, 5.0);
    std::vector<double> at = ida.states();
    at[1] = 0.0;
    ida.restart(at, m.rates(volts, -1));
    CHECK(turns_s > 0.1);
    for (const double t : {0.3, 0.6, 1.5}) {
        CAPTURE(t);
        rig.until(2.0 + t);
        ida.until(t);
        compare(rig, motor, ida, 130.0);
    }
}

} // namespace loom::physics
