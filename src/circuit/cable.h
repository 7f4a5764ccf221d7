// SPDX-License-Identifier: MIT
// A stranded copper cable in its sleeve, with a made end at each side. One branch, four temperatures.
//
// Resistance:  R = r20 length copperFactor(T) + Ra + Rb,  r20 from the IEC 60228 class 5 table
//   (mycableengineering.com and etechnik-synergie.com) for a tabulated area; the
//   table's ratio to 17.241e-9/area is interpolated between and held outside.
// Heat, for each metre (T conductor, S sleeve, A ambient):
//   Cc dT/dt = i^2 r(T) - Gi (T - S),   Cs dS/dt = Gi (T - S) - Go (S - A).
//   Cc = 3.45e6 J/(K m3) x area x the same ratio (IEC 60949, from memory), so that the adiabatic rule
//   t = (k area/I)^2 of BS 7671 (sparkcerts.co.uk) holds with the tabulated resistance.
//   1/Gi + 1/Go = 1/G, Gi = 3 G;  G = 0.165 W/(K m) (area/mm2)^0.23 fits the ampacities in
//   Lessons in Electric Circuits, "conduct", within 20 %. Cs = 1.7e6 J/(K m3) of PVC (from memory) x the section of its wall (cable.cpp).
//   Cables lying against it: G falls by the square of the grouping factors 0.80, 0.70, 0.65, 0.60,
//   0.57 for 2..6 (IEC 60364-5-52 table B.52.17, from memory).
//   The heat of sound ends goes into their studs and terminals, which are left out.
// Sleeve: softens at its limit + 10 K, smokes at + 130 K, burns at + 320 K; for PVC (70 C) that is
//   80 C (bpks.ru), 200 and 390 C (pslc.ws). Judged on the conductor, which the sleeve touches. The conductor parts
//   at 1083 C (copper.org); heat of fusion is left out. Once a sleeve burns, its copper lies on that of
//   its neighbour, whose sleeve burns with it, through 20 mohm: at the end of each where its current
//   leaves, so that the short flows through what burns. Common practice, no source.
// End, when loose or above 1 mohm (less is sound, from memory): a lump of its own,
//   Cj dT/dt = i^2 Rj - Gj (T - A), Cj = 12 J/K, Gj = 0.15 W/K: common practice, no source.
//   A loose end grows: its resistance is x (1 + w),  dw/dt = P / 400 J, P its heat; no source.
// Left out: heat along the cable into its ends, radiation's own law, heat from a neighbour.
// The cables of a network are held as arrays, one entry a cable: there are many and all do the same.
// Tested: cable_test, published_cables.
#pragma once

#include "circuit/cable_values.h"
#include "circuit/model.h"

namespace loom::circuit {

enum class SleeveState : std::uint8_t { Sound, Softened, Smoking, Burning };

// Conductor temperature at which the given state begins.
constexpr double sleeveThreshold_K(double limit_K, SleeveState state) {
    switch (state) {
    case SleeveState::Softened:
        return limit_K + 10.0;
    case SleeveState::Smoking:
        return limit_K + 130.0;
    case SleeveState::Burning:
        return limit_K + 320.0;
    case SleeveState::Sound:
        break;
    }
    return 0.0;
}

constexpr double kCopperMelts_K = 1356.15;
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

struct Cables : Model<Cable, CableValues> {
    // Branches and states of all cables, each in one run.
    std::uint32_t firstBranch = 0, firstConductor = 0, firstSleeve = 0;
    std::vector<Key> key;
    std::vector<SleeveState> state;   // reported so far
    std::vector<double> nextEvent_K;  // conductor temperature of the next event
    std::vector<Gap> parted;          // closed while whole
    std::vector<std::uint32_t> apart; // which are parted
    std::vector<EndPart> ends;
    std::vector<Key> touchesKey;         // its neighbour by name, 0 for none
    std::vector<std::int32_t> neighbour; // which cable a burnt one touches, -1 for none
    std::vector<Touch> touches;
    bool outgrown =
        false; // a touch has been added that has no branch: the network is to be built anew

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

    std::size_t size() const { return all.size(); }

    std::uint32_t conductor(std::size_t k) const {
        return firstConductor + static_cast<std::uint32_t>(k);
    }

    std::uint32_t sleeve(std::size_t k) const {
        return firstSleeve + static_cast<std::uint32_t>(k);
    }

    std::uint32_t branch(std::size_t k) const {
        return firstBranch + static_cast<std::uint32_t>(k);
    }

    static constexpr Placing kPlacing = Placing::InRun;

    static bool valid(const Cable& spec);

    static bool replaced(const Cable& was, const Cable& now) { return was.parted && !now.parted; }

    Entry add(const Cable& spec, Key key, Builder& b);
    void addConstant(Builder& b); // the touches; those that name no usable cable are dropped
    void endRun(Builder& b);
    void addUncontrolled(Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void updateTemperatures(Stage& s, const Models& models);
    void correct(double h_s, const StepRates& rates, double* y);
    void markSilent(std::vector<char>& silent) const;
    int sparks() const;
    void findExtinction(Extinction& first) const;
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void addTo(Hash& hash) const;
    void read(const View& view, std::uint32_t index, Reading& r) const;
    bool active(const Activity& now) const;

    void part(std::size_t k); // notes that parted[k] is open
    void setState(std::size_t k, SleeveState s);
};

// The touches that outlast a change of the netlist: their cables were not replaced.
std::vector<Touch>
touchesKept(const std::vector<Touch>& touches, const Netlist& was, const Netlist& now);

} // namespace loom::circuit
