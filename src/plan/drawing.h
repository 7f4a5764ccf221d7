// SPDX-License-Identifier: MIT
// The wiring plan as a drawing in millimetres on A4 lying: boxes for the parts where they are on the
// vehicle, each cable as an orthogonal line in a lane of its own with its label. Start with
// drawPlan(); a plan leaf or a printed page only has to stroke and fill what it says. Not to scale.
// The same plan gives the same drawing everywhere.
#pragma once

#include "plan/plan.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace loom::plan {

struct Mm {
    double x = 0.0, y = 0.0; // from the page's top left corner
};

struct MmBox {
    Mm min, max;

    double width() const { return max.x - min.x; }

    double height() const { return max.y - min.y; }

    Mm centre() const { return {(min.x + max.x) / 2, (min.y + max.y) / 2}; }

    bool contains(Mm p) const {
        return p.x >= min.x && p.x <= max.x && p.y >= min.y && p.y <= max.y;
    }
};

// They share more than an edge.
bool overlap(const MmBox& a, const MmBox& b);

inline constexpr Mm kPlanPage_mm{297.0, 210.0};
// What is drawn lies within this; the rest of the page is for a heading and margins.
inline constexpr MmBox kPlanField_mm{{5.0, 15.0}, {292.0, 201.0}};
inline constexpr double kPlanLetters_mm = 5.0; // em of refs and labels
inline constexpr double kPlanLegends_mm = 4.2; // em of terminal legends and what stands under a ref

struct DrawnPart {
    std::size_t part = 0; // of Plan::parts
    MmBox box;
    Mm refAt;                  // middle of the ref
    std::optional<Mm> wordsAt; // middle of a line under it ("12 V"), where there is room for one
    double clear_mm = 0.0;     // width about both
};

// A way of a connector block.
struct DrawnWay {
    std::size_t part = 0;
    int number = 1;
    MmBox box;
};

enum class Side { Top, Right, Bottom, Left };

// A terminal's mark at the edge of its part's box, wide enough for the ends on it.
struct DrawnTerminal {
    std::size_t part = 0;
    std::string word, legend; // of the catalogue
    Side side = Side::Top;
    MmBox mark;
    Mm legendAt; // middle of the legend, inside the box; not for blocks
};

struct DrawnCable {
    std::size_t cable = 0;  // of Plan::cables
    std::vector<Mm> points; // from `from` to `to`; each stretch level or upright
    double width_mm = 1.0;
    MmBox label;
    bool turned = false;      // the label is read from the right
    std::optional<Mm> leader; // the label lies beside the line; a thin stroke goes here from it
};

struct PlanDrawing {
    MmBox frame;
    std::vector<DrawnPart> parts;
    std::vector<DrawnWay> ways;
    std::vector<DrawnTerminal> terminals;
    std::vector<DrawnCable> cables; // in the plan's order; one without both its parts is left out
    std::vector<MmBox> wheels;      // of the axle the motor drives
    Mm frontAt;                     // middle of the word, above the frame
    Mm axleAt;                      // middle of the word, written upwards beside the frame
};

PlanDrawing drawPlan(const Plan& plan);

// The cable whose label is under the point, else whose line is nearest within reach.
std::optional<std::size_t> cableAt(const PlanDrawing& drawing, Mm at, double reach_mm);

// About how wide a text in semibold is, in ems.
double textWidth_em(const std::string& text);

} // namespace loom::plan
