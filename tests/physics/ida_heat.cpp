// SPDX-License-Identifier: MIT
// Fuses, cables and lamps by the heat balances stated in fuse.h, cable.h and lamp.h, integrated a
// second time by SUNDIALS IDA: within 0.5 % at every listed time, events within 10 us, both at the
// usual tolerance of a step and at a thousandth of it.
#include "ida.h"
#include "rig.h"

namespace loom::physics {
namespace {

// fuse.h: c1 x1' = n^2 (1 + 0.5 x1) - g1 (x1 - x2),  c2 x2' = g1 (x1 - x2) - g2 x2, n over rating;
//   1/g1 + 1/g2 = 1/(1.5 m^2), the body's share of it s; c1 = 0.5 q / ln 1.5; c2/g2 = T.
struct FuseValues {
    const char* what;
    FuseStyle style;
    double m, q, s, T;
};

// Melting I2t of a blade over rating^2: 26/5^2 at 5 A to 520/20^2 at 20 A, straight in logarithms.
double bladeI2t_s(double rating_A) {
    const double share = std::log(rating_A / 5) / std::log(20.0 / 5);
    return 26.0 / 25 * std::pow((520.0 / 400) / (26.0 / 25), share);
}

const FuseValues fuses[] = {{"blade of 10 A", FuseStyle::Blade, 1.2, bladeI2t_s(10), 0.4, 15},
                            {"strip", FuseStyle::Strip, 1.2, 9, 0.6, 200},
                            {"cartridge", FuseStyle::Cartridge, 1.2, 0.15, 0.4, 10}};

// Rates of x1, x2 for n(x1).
template <class Multiple> Independent::Rates fuseRates(const FuseValues& f, Multiple n) {
    const double thermal = 1 / (1.5 * f.m * f.m);
    const double g1 = 1 / (thermal * (1 - f.s)), g2 = 1 / (thermal * f.s);
    const double c1 = 0.5 * f.q / std::log(1.5), c2 = f.T * g2;
    return [=](double, const double* x, double* dx) {
        const double k = n(x[0]);
        dx[0] = (k * k * (1 + 0.5 * x[0]) - g1 * (x[0] - x[1])) / c1;
        dx[1] = (g1 * (x[0] - x[1]) - g2 * x[1]) / c2;
    };
}

// A tolerance of a step over the usual one, and how far off an event may be.
constexpr double kFine = 1e-3, kEvent_s = 10e-6;

double melts(double, const double* x) {
    return x[0] - 1.0;
}

// cable.h for one metre of a tabulated area.
struct CopperValues {
    double area_mm2, ohm_per_m, wall_mm;

    double ratio() const { return ohm_per_m * area_mm2 / 17.241e-3; }

    double loss() const { return 0.165 * std::pow(area_mm2, 0.23); } // W/(K m), no neighbours

    Independent::Rates rates(double amps) const {
        const double pi = 3.141592653589793, r = std::sqrt(area_mm2 / pi);
        const double cc = 3.45 * area_mm2 * ratio(); // J/(K m)
        const double cs = 1.7 * pi * wall_mm * (2 * r + wall_mm);
        const double gi = 3 * loss(), go = 1.5 * loss(), r20 = ohm_per_m;
        return [=](double, const double* t, double* dt) { // rises of conductor and sleeve
            dt[0] = (amps * amps * r20 * (1 + 0.00393 * t[0]) - gi * (t[0] - t[1])) / cc;
            dt[1] = (gi * (t[0] - t[1]) - go * t[1]) / cs;
        };
    }
};

} // namespace

TEST_CASE("IDA: fuses of three styles melt at a constant current") {
    for (const FuseValues& f : fuses)
        for (const double n : {1.35, 2.0, 3.5, 6.0}) {
            CAPTURE(std::string(f.what));
            CAPTURE(n);
            Independent ida({0, 0}, fuseRates(f, [=](double) { return n; }));
            const double melts_s = ida.event(melts, 4000);
            Rig rig;
            rig.add(CurrentSource{0, 1, n * 10});
            Fuse part;
            part.a = 1;
            part.style = f.style;
            part.rating_A = 10;
            part.cold_ohm = 8e-3;
            const Key fuse = rig.add(part);
            for (const double tolerance : {1.0, kFine}) {
                CAPTURE(tolerance);
                rig.start(tolerance);
                rig.until(0.5 * melts_s);
                Independent half({0, 0}, fuseRates(f, [=](double) { return n; }));
                half.until(0.5 * melts_s);
                CHECK_CLOSE(rig.see(fuse).melting, half[0], 0.005, 0.0);
                CHECK_CLOSE(rig.volts(fuse), n * 10 * 8e-3 * (1 + 0.5 * half[0]), 0.005, 0.0);
                rig.until(1.1 * melts_s);
                CHECK_CLOSE(rig.when(EventKind::FuseMelted, fuse), melts_s, 0.0, kEvent_s);
            }
        }
}

TEST_CASE("IDA: a blade fuse opens a short through its own resistance") {
    // n = E / (Rs + R(x)) / rating, R = 11 mohm (1 + 0.5 x)
    const double E = 12.85, Rs = 0.35;
    const auto n = [=](double x) { return E / (Rs + 11e-3 * (1 + 0.5 * x)) / 7.5; };
    FuseValues blade = fuses[0];
    blade.q = bladeI2t_s(7.5);
    Independent ida({0, 0}, fuseRates(blade, n));
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(Rs, 1, 2);
    Fuse part;
    part.a = 2;
    const Key fuse = rig.add(part);
    rig.start();
    for (const double t : {5e-3, 20e-3, 40e-3}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.see(fuse).melting, ida[0], 0.005, 0.0);
        CHECK_CLOSE(rig.amps(fuse), 7.5 * n(ida[0]), 0.005, 0.0);
    }
    const double melts_s = ida.event(melts, 10);
    rig.until(1.0);
    CHECK_CLOSE(rig.when(EventKind::FuseMelted), melts_s, 0.0, 10e-6);
}

TEST_CASE("IDA: a fuse hot from its rating opens sooner on an overload") {
    Independent ida({0, 0}, fuseRates(fuses[0], [](double) { return 1.0; }));
    Rig rig;
    const Key feed = rig.add(CurrentSource{0, 1, 10});
    Fuse part;
    part.a = 1;
    part.rating_A = 10;
    const Key fuse = rig.add(part);
    rig.start();
    rig.until(100);
    ida.until(100);
    CHECK_CLOSE(rig.see(fuse).melting, ida[0], 0.005, 0.0);
    ida.restart(ida.states(), fuseRates(fuses[0], [](double) { return 2.0; }));
    Netlist more = rig.netlist;
    std::get<CurrentSource>(more.elements[feed - 1].part).current_A = 20;
    rig.circuit->rewire(more);
    const double melts_s = ida.event(melts, 200);
    rig.until(110);
    CHECK_CLOSE(rig.when(EventKind::FuseMelted), melts_s, 0.0, 10e-6);
}

TEST_CASE("IDA: cables warm, cook and part") {
    struct Row {
        const char* what;
        CopperValues cable;
        double amps, end_s;
    };

    const Row rows[] = {{"0.75 mm2 with 12 A, for long", {0.75, 26.0e-3, 0.6}, 12, 600},
                        {"1 mm2 with 60 A", {1.0, 19.5e-3, 0.6}, 60, 60},
                        {"10 mm2 short on a battery: 900 A", {10, 1.91e-3, 1.0}, 900, 20}};
    for (const double tolerance : {1.0, kFine})
        for (const Row& row : rows) {
            CAPTURE(std::string(row.what));
            CAPTURE(tolerance);
            Independent ida({0, 0}, row.cable.rates(row.amps));
            Rig rig;
            rig.add(CurrentSource{0, 1, row.amps});
            Cable part;
            part.a = 1;
            part.length_m = 0.8;
            part.area_m2 = row.cable.area_mm2 * 1e-6;
            part.endA.resistance_ohm = part.endB.resistance_ohm = 0.0;
            const Key cable = rig.add(part);
            rig.start(tolerance);

            struct Limit {
                EventKind kind;
                double rise_K;
            };

            const Limit limits[] = {{EventKind::SleeveSoftened, 60},
                                    {EventKind::SleeveSmoking, 180},
                                    {EventKind::SleeveBurning, 370},
                                    {EventKind::CableParted, 1063}};
            std::size_t next = 0;
            for (int k = 1; k <= 8; ++k) {
                const double t = row.end_s * k / 8 / 8 * k;
                CAPTURE(t);
                while (next < 4) {
                    const double limit_K = limits[next].rise_K;
                    const double at_s =
                        ida.event([=](double, const double* y) { return y[0] - limit_K; }, t);
                    if (std::isnan(at_s)) break;
                    rig.until(at_s + 1e-3);
                    CAPTURE(limit_K);
                    CHECK_CLOSE(rig.when(limits[next].kind), at_s, 0.0, kEvent_s);
                    ++next;
                }
                if (next == 4) break;
                rig.until(t);
                ida.until(t);
                CHECK_CLOSE(rig.see(cable).temp_K - 293.15, ida[0], 0.005, 1e-3);
                CHECK_CLOSE(rig.volts(cable),
                            row.amps * 0.8 * row.cable.ohm_per_m * (1 + 0.00393 * ida[0]),
                            0.005,
                            0.0);
            }
        }
}

// cable.h, of an end: Cj T' = i^2 Rj - Gj (T - A), Cj 12 J/K, Gj 0.15 W/K; Rj (1 + w), w' = P / 400 J.
TEST_CASE("IDA: a loose stud heats, gets worse, and starves what it feeds") {
    const CopperValues copper{10, 1.91e-3, 1.0};
    const double length_m = 1.5, load_ohm = 0.3, made_ohm = 20e-3, hot_K = 70;
    const auto amps = [=](const double* y) {
        const double copper_ohm = length_m * copper.ohm_per_m * (1 + 0.00393 * y[2]);
        return 24 / (load_ohm + copper_ohm + made_ohm * (1 + y[1]));
    };
    const auto rates = [=](double t, const double* y, double* dy) {
        const double i = amps(y), watts = i * i * made_ohm * (1 + y[1]);
        dy[0] = (watts - 0.15 * y[0]) / 12;
        dy[1] = watts / 400;
        copper.rates(i)(t, y + 2, dy + 2);
    };
    for (const double tolerance : {1.0, kFine}) {
        CAPTURE(tolerance);
        Independent ida({0, 0, 0, 0}, rates); // rise of the end, wear, rises of copper and sleeve
        Rig rig;
        rig.volt(24, 1, 0);
        Cable part;
        part.a = 1;
        part.b = 2;
        part.length_m = length_m;
        part.area_m2 = 10e-6;
        part.endA.resistance_ohm = 0.0;
        part.endB.resistance_ohm = made_ohm;
        part.endB.loose = true;
        const Key cable = rig.add(part);
        const Key load = rig.ohm(load_ohm, 2, 0);
        rig.start(tolerance);
        const double at_s = ida.event([=](double, const double* y) { return y[0] - hot_K; }, 20);
        rig.until(20);
        CHECK_CLOSE(rig.when(EventKind::JointHot, cable), at_s, 0.0, kEvent_s);
        double before_A = 24 / load_ohm;
        for (const double t : {20.0, 30.0, 45.0, 60.0}) {
            CAPTURE(t);
            ida.until(t);
            rig.until(t);
            const std::vector<double> y = ida.states();
            CHECK_CLOSE(rig.amps(load), amps(y.data()), 0.005, 0.0);
            CHECK_CLOSE(rig.volts(cable), 24 - load_ohm * amps(y.data()), 0.005, 0.0);
            CHECK(rig.amps(load) < before_A);
            before_A = rig.amps(load);
        }
    }
}

TEST_CASE("IDA: a lamp's rush of current") {
    // lamp.h: R = Rh (q + (1-q)(T - 293.15)/(2800 - 293.15));
    //   C T' = v^2/R - P (T^4 - A^4)/(2800^4 - 293.15^4), C = 6.0e-5 P J/K; v = E R/(R + Rs)
    const double E = 24, Rs = 0.1, P = 21, q = 0.1, Rh = 24 * 24 / 21.0, A = 293.15;
    const auto ohms = [=](double T) { return Rh * (q + (1 - q) * (T - 293.15) / (2800 - 293.15)); };
    Independent ida({A},
                    [=](double, const double* T, double* dT) {
                        const double r = ohms(T[0]), v = E * r / (r + Rs);
                        const double radiated = P * (std::pow(T[0], 4) - std::pow(A, 4)) /
                                                (std::pow(2800, 4) - std::pow(293.15, 4));
                        dT[0] = (v * v / r - radiated) / (6.0e-5 * P);
                    },
                    {1000});
    Rig rig;
    rig.volt(E, 1, 0);
    rig.ohm(Rs, 1, 2);
    Lamp part;
    part.a = 2;
    const Key lamp = rig.add(part);
    rig.start();
    for (const double t : {0.1e-3, 1e-3, 5e-3, 20e-3, 50e-3, 0.1, 0.3, 2.0}) {
        CAPTURE(t);
        rig.until(t);
        ida.until(t);
        CHECK_CLOSE(rig.see(lamp).temp_K, ida[0], 0.005, 0.0);
        CHECK_CLOSE(rig.amps(lamp), E / (ohms(ida[0]) + Rs), 0.005, 0.0);
    }
}

} // namespace loom::physics
