// SPDX-License-Identifier: MIT
// A stranded copper cable in its sleeve, with a made end at each side. One branch, four temperatures.
//
// Resistance:  R = r20 length copperFactor(T) + Ra + Rb,  r20 from the IEC 60228 class 5 table
//   (REFERENCE C01-C10, mycableengineering.com and etechnik-synergie.com) for a tabulated area; the
//   table's ratio to 17.241e-9/area is interpolated between and held outside.
// Heat, for each metre (T conductor, S sleeve, A ambient):
//   Cc dT/dt = i^2 r(T) - Gi (T - S),   Cs dS/dt = Gi (T - S) - Go (S - A).
//   Cc = 3.45e6 J/(K m3) x area x the same ratio (C14, from memory), so that the adiabatic rule
//   t = (k area/I)^2 of C22-C25 holds with the tabulated resistance.
//   1/Gi + 1/Go = 1/G, Gi = 3 G;  G = 0.165 W/(K m) (area/mm2)^0.23 fits C40-C43 (LEC, conduct)
//   within 20 %. Cs = 1.7e6 J/(K m3) of PVC (from memory) x the section of its wall (cable.cpp).
//   Cables lying against it: G falls by the square of the grouping factors 0.80, 0.70, 0.65, 0.60,
//   0.57 for 2..6 (IEC 60364-5-52 table B.52.17, from memory).
//   The heat of sound ends goes into their studs and terminals, which are left out.
// Sleeve: softens at its limit + 10 K, smokes at + 130 K, burns at + 320 K; for PVC (70 C) that is
//   80, 200, 390 C: C44-C48. Judged on the conductor, which the sleeve touches. The conductor parts
//   at 1083 C (C17); heat of fusion is left out (C24). Once a sleeve burns, its copper lies on that of
//   its neighbour, whose sleeve burns with it, through 20 mohm: at the end of each where its current
//   leaves, so that the short flows through what burns. Common practice, no source.
// End, when loose or above 1 mohm (T19 calls less sound): a lump of its own,
//   Cj dT/dt = i^2 Rj - Gj (T - A), Cj = 12 J/K, Gj = 0.15 W/K: common practice, no source.
//   A loose end grows: its resistance is x (1 + w),  dw/dt = P / 400 J, P its heat; no source.
// Left out: heat along the cable into its ends, radiation's own law, heat from a neighbour.
// The cables of a network are held as arrays, one entry a cable: there are many and all do the same.
// Tested: cable_test, C01-C10, C13, C22-C25, C40-C43.
#pragma once

#include "circuit/gap.h"
#include "circuit/netlist.h"
#include "circuit/stage.h"

namespace loom::circuit {

// DC resistance of one metre at 20 C, ohm. area_m2 > 0.
double copperCable_ohm_per_m(double area_m2);

enum class Sleeve : std::uint8_t { Sound, Softened, Smoking, Burning };

constexpr double kCopperMelts_K = 1356.15;
constexpr double kSoundEnd_ohm = 1e-3;
constexpr double kTouch_ohm = 20e-3; // copper lying on copper; no source
constexpr double kEndHot_K = 363.15; // 90 C: too hot to touch, softens a sleeve; no source

// An end that is modelled by itself.
struct EndPart {
    std::uint32_t cable = 0;     // index among the cables
    double resistance_ohm = 0.0; // as made
    bool loose = false;
    std::uint32_t temperature = 0, wear = 0; // states
    bool hotReported = false;

    double resistance(const double* y) const { return resistance_ohm * (1.0 + y[wear]); }
};

// Copper of a burnt cable that lies on its neighbour's, at one end of each.
struct Touch {
    Key cable = 0, neighbour = 0;
    bool atB = false, neighbourAtB = false;
};

// What does not change of one cable, for all its length.
struct CableValues {
    double copper_ohm = 0.0; // at 20 C
    double soundEnds_ohm = 0.0;
    double heatConductor_J_per_K = 1.0, heatSleeve_J_per_K = 1.0;
    double inner_W_per_K = 1.0, outer_W_per_K = 1.0;
    double limit_K = 343.15;
};

// Whether an end is modelled by itself.
inline bool ownModel(const Joint& end) {
    return end.loose || end.resistance_ohm > kSoundEnd_ohm;
}

CableValues cableValues(const Cable& spec);
// Conductor temperature at which the given state begins.
double sleeveThreshold_K(double limit_K, Sleeve state);

struct Cables {
    // Branches and states of all cables, each in one run.
    std::uint32_t firstBranch = 0, firstConductor = 0, firstSleeve = 0;
    std::vector<CableValues> values;
    std::vector<Sleeve> state;        // reported so far
    std::vector<double> nextEvent_K;  // conductor temperature of the next event
    std::vector<Gap> parted;          // closed while whole
    std::vector<std::uint32_t> apart; // which are parted
    std::vector<EndPart> ends;
    std::vector<std::int32_t> neighbour; // which cable a burnt one touches, -1 for none

    std::vector<double> stamped_ohm, stamped_S; // of the whole cable
    std::vector<double> stampedAt_K;            // for that conductor temperature
    std::vector<double> off_K;                  // conductor against what was expected
    bool fresh = true;                          // all stamped anew, the branches not yet
    // Solution of the two heat equations for the stage weight below, as in cable.cpp.
    std::vector<double> fromConductor, fromSleeve, fromHeat_K_per_A2, sleeveStays, sleeveFollows;
    double preparedFor_s = -1.0;
    std::vector<double> holds1_per_s2, holds2_per_s2; // of conductor and sleeve, see sharpen()
    std::vector<double> share1, share2;               // correctedShare() of them for the step below
    double sharedFor_s = -1.0;

    std::size_t size() const { return values.size(); }

    std::uint32_t conductor(std::size_t k) const {
        return firstConductor + static_cast<std::uint32_t>(k);
    }

    std::uint32_t sleeve(std::size_t k) const {
        return firstSleeve + static_cast<std::uint32_t>(k);
    }

    std::uint32_t branch(std::size_t k) const {
        return firstBranch + static_cast<std::uint32_t>(k);
    }

    void add(const CableValues& values);
    void part(std::size_t k); // notes that parted[k] is open
    void setState(std::size_t k, Sleeve s);
};

// Stamps from the states y exactly, whatever was stamped before.
void refresh(Cables& cables, const double* y);
void stamp(Cables& cables, Stage& s);
void settle(Cables& cables, Stage& s);
void warm(Cables& cables, Stage& s);
// Takes back the error of a step of h_s from the states y at its end (Creeping, stage.h).
void sharpen(Cables& cables, double h_s, const StepRates& rates, double* y);

} // namespace loom::circuit
