// SPDX-License-Identifier: MIT
// Rows C01-C43: resistance of copper cables, what temperature does to it, how fast a fault heats
// it, how warm it rests, and when its sleeve fails (C44-C48).
#include "rig.h"

namespace loom::physics {
namespace {

Cable cable(Node a, Node b, double area_mm2, double length_m) {
    Cable c;
    c.a = a;
    c.b = b;
    c.area_m2 = area_mm2 * 1e-6;
    c.length_m = length_m;
    c.endA.resistance_ohm = c.endB.resistance_ohm = 0.0;
    return c;
}

// Resistance of one kilometre, measured with a milliampere at a temperature.
double ohmPerKm(double area_mm2, double temp_C) {
    Rig rig;
    rig.netlist.ambient_K = kZero_K + temp_C;
    rig.add(CurrentSource{0, 1, 1e-3});
    const Key key = rig.add(cable(1, 0, area_mm2, 1000.0));
    rig.start();
    return rig.volts(key) / 1e-3;
}

// Time for a current to bring the conductor from one temperature to another: the sleeve is told to
// soften there (10 K above its limit).
double secondsToHeat(double area_mm2, double current_A, double from_C, double to_C) {
    Rig rig;
    rig.netlist.ambient_K = kZero_K + from_C;
    rig.add(CurrentSource{0, 1, current_A});
    Cable c = cable(1, 0, area_mm2, 1.0);
    c.sleeveLimit_K = kZero_K + to_C - 10.0;
    rig.add(c);
    rig.start();
    return rig.wait(EventKind::SleeveSoftened, 60.0, 0.05);
}

} // namespace

TEST_CASE("C01-C10: IEC 60228 class 5 at 20 C and, by C13, at 70 C; ratio to 17.241/S") {
    struct Row {
        const char* source;
        double area_mm2, at20_ohm, ratio, at70_ohm;
    };

    const Row rows[] = {
        {"C01 mycableengineering.com, etechnik-synergie.com: 39.0 ohm/km", 0.5, 39.0, 1.131, 46.66},
        {"C02: 26.0", 0.75, 26.0, 1.131, 31.11},
        {"C03 and uecables.com: 19.5", 1, 19.5, 1.131, 23.33},
        {"C04: 13.3", 1.5, 13.3, 1.157, 15.91},
        {"C05: 7.98", 2.5, 7.98, 1.157, 9.548},
        {"C06: 4.95", 4, 4.95, 1.148, 5.923},
        {"C07: 3.30", 6, 3.30, 1.148, 3.948},
        {"C08: 1.91", 10, 1.91, 1.108, 2.285},
        {"C09: 1.21", 16, 1.21, 1.123, 1.448},
        {"C10: 0.780", 25, 0.780, 1.131, 0.9333},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        CHECK_CLOSE(ohmPerKm(row.area_mm2, 20.0), row.at20_ohm, 1e-9, 0.0); // tabulated: exact
        CHECK_CLOSE(ohmPerKm(row.area_mm2, 70.0), row.at70_ohm, 5e-4, 0.0); // digits of the row
        CHECK_CLOSE(row.at20_ohm / (17.241 / row.area_mm2), row.ratio, 5e-4, 0.0);
    }
}

TEST_CASE("C13, C18: resistance over temperature against the table factors of uecables.com") {
    struct Row {
        const char* source;
        double temp_C, tableFactor, byC13;
    };

    const Row rows[] = {{"C18: 5 C 1.064", 5, 1.064, 1.063},
                        {"C18: 50 C 0.893", 50, 0.893, 0.8945},
                        {"C18: 70 C 0.833", 70, 0.833, 0.8358},
                        {"C18: 100 C 0.758", 100, 0.758, 0.7608}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const double k = ohmPerKm(1.0, 20.0) / ohmPerKm(1.0, row.temp_C);
        CHECK_CLOSE(k, row.tableFactor, 0.005, 0.0);
        CHECK_CLOSE(k, row.byC13, 5e-4, 0.0);
    }
}

TEST_CASE("C19, C32-C39: gauge sizes: between solid copper and 16 % above it") {
    struct Row {
        const char* source;
        int gauge;
        double diameter_inch, area_mm2, solid_ohm_per_km;
    };

    const Row rows[] = {
        {"C32 LEC conduct: 20 AWG 0.03196 in", 20, 0.03196, 0.5176, 33.31},
        {"C33 18 AWG 0.04030 in", 18, 0.04030, 0.8230, 20.95},
        {"C34 16 AWG 0.05082 in", 16, 0.05082, 1.309, 13.17},
        {"C35 14 AWG 0.06408 in", 14, 0.06408, 2.081, 8.285},
        {"C36 12 AWG 0.08081 in", 12, 0.08081, 3.309, 5.211},
        {"C37 10 AWG 0.1019 in", 10, 0.1019, 5.261, 3.277},
        {"C38 8 AWG 0.1285 in", 8, 0.1285, 8.366, 2.061},
        {"C39 4 AWG 0.2043 in", 4, 0.2043, 21.15, 0.8152},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const double inch = 0.005 * std::pow(92.0, (36 - row.gauge) / 39.0); // C19, from memory
        CHECK_CLOSE(inch, row.diameter_inch, 5e-4, 0.0);
        const double found = ohmPerKm(row.area_mm2, 20.0);
        CHECK_WITHIN(found, row.solid_ohm_per_km * 0.9995, row.solid_ohm_per_km / 0.84);
    }
}

TEST_CASE("C27, C28: long wires of the books lie 0 to 19 % under the stranded cable") {
    // The books take solid wire, C27 with 1.68e-8 ohm m, which is 2.6 % under C11.
    Rig rig;
    rig.add(CurrentSource{0, 1, 10e-3});
    const Key lead = rig.add(cable(1, 0, 3.310, 5.0));
    rig.start();
    CHECK_WITHIN(rig.volts(lead) / 10e-3, 0.02538, 0.02538 * 1.19); // UP m58731: printed 0.025
    CHECK_WITHIN(ohmPerKm(2.081, 20.0) * 2300 * 0.3048e-3, 5.6506, 5.6506 / 0.84); // LEC: 5.651
}

TEST_CASE("C28 LEC conduct: two such wires shorted across 230 V: 20.352 A") {
    Rig rig;
    rig.volt(230, 1, 0);
    const Key first = rig.ohm(5.6506, 1, 2);
    rig.ohm(5.6506, 2, 0);
    rig.start();
    CHECK_CLOSE(rig.amps(first), 20.352, 5e-5, 0.0);
}

TEST_CASE(
    "C29 LEC conduct: 14 V, two wires of 15 ohm, 250 ohm: 12.5 and 0.75 V, warm 12.42 and 0.79 V") {
    for (const double temp_C : {20.0, 35.0}) {
        CAPTURE(temp_C);
        const bool warm = temp_C > 20.0;
        Rig rig;
        rig.netlist.ambient_K = kZero_K + temp_C;
        rig.volt(14, 1, 0);
        const Key out = rig.add(cable(1, 2, 1.0, 15 / 19.5e-3));
        const Key load = rig.ohm(250, 2, 3);
        rig.add(cable(3, 0, 1.0, 15 / 19.5e-3));
        rig.start();
        CHECK_CLOSE(rig.volts(load), warm ? 12.4215 : 12.5, 5e-6, 0.0); // with C13
        CHECK_CLOSE(rig.volts(out), warm ? 0.7892 : 0.75, 1e-4, 0.0);
        CHECK_CLOSE(rig.volts(load), warm ? 12.42 : 12.5, 0.005, 0.0); // printed
        CHECK_CLOSE(rig.volts(out), warm ? 0.79 : 0.75, 0.005, 0.0);
    }
}

TEST_CASE("C22-C26: adiabatic heating of PVC cables, k of BS 7671 (sparkcerts.co.uk)") {
    struct Row {
        const char* source;
        double area_mm2, current_A, from_C, to_C, expect_s, rel;
    };

    // Ten times the 1 s current lets nearly no heat out: 1 % (section 10). With heat lost over
    // longer times it is never shorter than the rule.
    const Row rows[] = {
        {"C01 1 s limit 57.5 A, at ten times", 0.5, 575, 70, 160, 0.01, 0.01},
        {"C02 86.25 A", 0.75, 862.5, 70, 160, 0.01, 0.01},
        {"C03 115 A", 1, 1150, 70, 160, 0.01, 0.01},
        {"C04 172.5 A", 1.5, 1725, 70, 160, 0.01, 0.01},
        {"C05 287.5 A", 2.5, 2875, 70, 160, 0.01, 0.01},
        {"C06 460 A", 4, 4600, 70, 160, 0.01, 0.01},
        {"C07 690 A", 6, 6900, 70, 160, 0.01, 0.01},
        {"C08 1150 A", 10, 11500, 70, 160, 0.01, 0.01},
        {"C09 1840 A", 16, 18400, 70, 160, 0.01, 0.01},
        {"C10 2875 A", 25, 28750, 70, 160, 0.01, 0.01},
        {"C22 k 143 from 30 to 160", 2.5, 3575, 30, 160, 0.01, 0.01},
        {"C22 k 176 from 30 to 250", 2.5, 4400, 30, 250, 0.01, 0.01},
        {"C24 k 95.72 from 20 to 70", 2.5, 2393, 20, 70, 0.01, 0.01},
        {"C24 k 149.6 from 20 to 160", 2.5, 3740, 20, 160, 0.01, 0.01},
        {"C24 k 289.8 from 20 to 1083, no heat of fusion", 2.5, 7245, 20, 1083, 0.01, 0.01},
        {"C26 3000 A 0.4 s: 16.50 mm2", 16.50, 3000, 70, 160, 0.4, 0.01},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const double found_s = secondsToHeat(row.area_mm2, row.current_A, row.from_C, row.to_C);
        CHECK_CLOSE(found_s, row.expect_s, row.rel, 0.0);
    }
    const Row slow[] = {
        {"C25 0.75 mm2 100 A: 0.7439 s", 0.75, 100, 70, 160, 0.7439, 0},
        {"C25 2.5 mm2 500 A: 0.3306 s", 2.5, 500, 70, 160, 0.3306, 0},
        {"C25 16 mm2 1000 A: 3.386 s", 16, 1000, 70, 160, 3.386, 0},
    };
    for (const Row& row : slow) { // 0.3 % for C23: the constant is 226 printed, 225.7 derived
        CAPTURE(std::string(row.source));
        const double found_s = secondsToHeat(row.area_mm2, row.current_A, row.from_C, row.to_C);
        CHECK_WITHIN(found_s, row.expect_s * 0.997, row.expect_s * 1.10);
    }
}

TEST_CASE("C40-C43: rest temperature in free air at 30 C against the ampacities of LEC conduct") {
    struct Row {
        const char* source;
        double area_mm2, current_A, solid_ohm_per_km;
    };

    const Row rows[] = {{"C40 18 AWG 13 A: 60 C", 0.8230, 13, 20.95},
                        {"C41 14 AWG 25 A: 60 C", 2.081, 25, 8.285},
                        {"C42 10 AWG 40 A: 60 C", 5.261, 40, 3.277},
                        {"C43 4 AWG 105 A: 60 C", 21.15, 105, 0.8152}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        Rig rig;
        rig.netlist.ambient_K = kZero_K + 30.0;
        rig.add(CurrentSource{0, 1, row.current_A});
        const Key key = rig.add(cable(1, 0, row.area_mm2, 1.0));
        rig.start();
        rig.until(3600.0);
        CHECK_CLOSE(rig.see(key).temp_K - kZero_K - 30.0, 30.0, 0.35, 0.0);
    }
}

TEST_CASE("C44-C48: a PVC sleeve softens, smokes and burns where its sources say; copper parts") {
    Rig rig; // 1 mm2 with 80 A
    rig.add(CurrentSource{0, 1, 80.0});
    const Key key = rig.add(cable(1, 0, 1.0, 1.0));
    rig.start();
    rig.wait(EventKind::CableParted, 120.0, 0.1);

    struct Row {
        const char* source;
        EventKind kind;
        double temp_C, within_K;
    };

    const Row rows[] = {
        {"C48 bpks.ru: cable PVC softens at 80", EventKind::SleeveSoftened, 80, 10},
        {"C47 pslc.ws: decomposes from 200", EventKind::SleeveSmoking, 200, 10},
        {"C47 pslc.ws: flash ignition 391", EventKind::SleeveBurning, 391, 50},
        {"C17 copper.org: copper melts at 1083", EventKind::CableParted, 1083, 10},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const Event* event = rig.first(row.kind, key);
        REQUIRE(event != nullptr);
        CHECK_CLOSE(event->second - kZero_K, row.temp_C, 0.0, row.within_K);
        CHECK_CLOSE(event->first, 80.0, 1e-9, 0.0);
    }
    CHECK(rig.see(key).open);
}

TEST_CASE(
    "C20 nessengr.com: a sleeved cable parts at no more than Preece's current for bare wire") {
    // I = 80 d^1.5 (mm). Our sleeve keeps heat in and radiation is left out, so ours errs to the
    // cautious side; how far is said in docs/physics.md.
    struct Row {
        const char* source;
        double diameter_mm;
    };

    const Row rows[] = {{"C21: 0.0288 in fuses at 50 A", 0.0288 * 25.4},
                        {"C21: 0.0457 in fuses at 100 A", 0.0457 * 25.4}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        Rig rig;
        const double preece_A = 80.0 * std::pow(row.diameter_mm, 1.5);
        rig.add(CurrentSource{0, 1, preece_A});
        rig.add(cable(1, 0, 0.7853981634 * row.diameter_mm * row.diameter_mm, 1.0));
        rig.start();
        CHECK(rig.wait(EventKind::CableParted, 600.0, 1.0) > 0.0);
    }
}

TEST_CASE("T25, T24: 0.72 V (3 % of 24 V) is lost in both ways of the longest run") {
    struct Row {
        const char* source;
        double area_mm2, current_A, one_way_m;
    };

    const Row rows[] = {{"T25 0.75 mm2, 5 A: 2.769 m", 0.75, 5, 2.769},
                        {"T25 6 mm2, 30 A: 3.636 m", 6, 30, 3.636}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        Rig rig;
        rig.add(CurrentSource{0, 1, row.current_A});
        rig.add(cable(1, 2, row.area_mm2, row.one_way_m));
        rig.add(cable(2, 0, row.area_mm2, row.one_way_m));
        rig.start();
        CHECK_CLOSE(rig.volts(1, 0), 0.72, 0.01, 0.0);
    }
}

TEST_CASE("T20 CP m42357: a made end of 0.0900 ohm leaves a 12 V starter 80.0 A of 200 A") {
    for (const bool corroded : {false, true}) {
        CAPTURE(corroded);
        Rig rig;
        rig.volt(12, 1, 0);
        rig.ohm(0.01, 1, 2);
        Cable lead = cable(2, 3, 1e4, 1e-3); // no resistance of its own to speak of
        if (corroded) lead.endB.resistance_ohm = 0.09;
        rig.add(lead);
        const Key motor = rig.ohm(0.05, 3, 0);
        rig.start();
        CHECK_CLOSE(rig.amps(motor), corroded ? 80.0 : 200.0, 1e-4, 0.0);
        CHECK_CLOSE(rig.volts(motor), corroded ? 4.0 : 10.0, 1e-4, 0.0);
    }
}

TEST_CASE("C30, C31: tungsten of 0.350 ohm cold") {
    // UP m58731, CP m42346: 4.8 ohm (4.807) at 2850 C with 4.5e-3 per K. CP m42714: cold 411 W and
    // 34.3 A at 12 V, hot 2.50 A and 30.0 W. The lamp's hot point is 2800 K here, 323 K less.
    const double hot_ohm = 12 / 2.5;
    Lamp lamp;
    lamp.a = 1;
    lamp.rated_V = 12;
    lamp.rated_W = 30;
    lamp.coldRatio = 0.350 / hot_ohm;
    Rig rig;
    rig.volt(12, 1, 0);
    const Key headlamp = rig.add(lamp);
    rig.start();
    CHECK_CLOSE(rig.amps(headlamp), 34.29, 0.005, 0.0);        // printed 34.3
    CHECK_CLOSE(rig.see(headlamp).power_W, 411.4, 0.005, 0.0); // printed 411
    rig.until(5.0);
    CHECK_CLOSE(rig.amps(headlamp), 2.50, 0.005, 0.0);
    CHECK_CLOSE(rig.see(headlamp).power_W, 30.0, 0.005, 0.0);

    lamp.coldRatio = 1 / (1 + 4.5e-3 * (2800 - 293.15)); // so that R follows 4.5e-3 per K
    lamp.rated_W = 144 * lamp.coldRatio / 0.350;         // and is 0.350 ohm cold
    for (const double volts : {2.0, 12.0, 15.0}) {
        CAPTURE(volts);
        Rig warm;
        warm.volt(volts, 1, 0);
        const Key key = warm.add(lamp);
        warm.start();
        warm.until(10.0);
        const Reading r = warm.see(key);
        CHECK_CLOSE(
            r.voltage_V / r.current_A, 0.350 * (1 + 4.5e-3 * (r.temp_K - 293.15)), 1e-6, 0.0);
    }
}

} // namespace loom::physics
