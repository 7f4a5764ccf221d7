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
//   within 20 %. Cs = 1.7e6 J/(K m3) of PVC x its section (0.5 mm + 0.03 mm x sqrt.. see cpp).
//   Cables lying against it: G falls by the square of the grouping factors 0.80, 0.70, 0.65, 0.60,
//   0.57 for 2..6 (IEC 60364-5-52 table B.52.17, from memory).
// Sleeve: softens at its limit + 10 K, smokes at + 130 K, burns at + 320 K; for PVC (70 C) that is
//   80, 200, 390 C: C44-C48. Judged on the conductor, which the sleeve touches. The conductor parts
//   at 1083 C (C17); heat of fusion is left out (C24).
// End:  Cj dT/dt = i^2 Rj - Gj (T - A), Cj = 12 J/K, Gj = 0.15 W/K: common practice, no source.
//   A loose end grows: its resistance is x (1 + w),  dw/dt = P / 400 J, P its heat; no source.
// Left out: heat along the cable into its ends, radiation's own law, heat from a neighbour.
// Tested: cable_test, C01-C10, C13, C22-C25, C40-C43.
#pragma once

#include "circuit/gap.h"
#include "circuit/netlist.h"
#include "circuit/stage.h"

namespace loom::circuit {

// DC resistance of one metre at 20 C, ohm. area_m2 > 0.
double copperCable_ohm_per_m(double area_m2);

struct EndPart {
    double resistance_ohm = 0.0;
    bool loose = false;
    std::uint32_t temperature = 0, wear = 0; // states
    bool hotReported = false;
};

enum class Sleeve : std::uint8_t { Sound, Softened, Smoking, Burning };

struct CablePart {
    std::uint32_t branch = 0;
    std::uint32_t conductor = 0, sleeve = 0;                      // states
    double copper_ohm = 0.0;                                      // at 20 C, all its length
    double heatConductor_J_per_K = 1.0, heatSleeve_J_per_K = 1.0; // all its length
    double inner_W_per_K = 1.0, outer_W_per_K = 1.0;
    double limit_K = 343.15;
    EndPart ends[2];
    Sleeve state = Sleeve::Sound; // reported so far
    Gap parted;                   // closed while whole
};

CablePart makeCable(const Cable& spec);
double resistance_ohm(const CablePart& c, const double* y);
double endResistance_ohm(const EndPart& e, const double* y);
// Conductor temperature at which the given state begins.
double sleeveThreshold_K(const CablePart& c, Sleeve state);
constexpr double kCopperMelts_K = 1356.15;
constexpr double kEndHot_K = 363.15; // 90 C: too hot to touch, softens a sleeve; no source

void stamp(const std::vector<CablePart>& cables, Stage& s);
void settle(std::vector<CablePart>& cables, Stage& s);

} // namespace loom::circuit
