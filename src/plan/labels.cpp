// SPDX-License-Identifier: MIT
#include "plan/labels.h"

#include <algorithm>
#include <cmath>

namespace loom::plan {
namespace {

constexpr double kHeight_mm = 6.1, kPad_mm = 1.2;
constexpr double kGap_mm = 0.5; // least, between labels and to what is taken
constexpr double kStep_mm = 1.0;

// What a place costs, by eye: a label beside its line is better than one across a foreign line, one
// across a line is better than one along it.
constexpr double kCrossCost = 60.0, kAlongCost = 160.0, kTurnedCost = 14.0, kAcrossOwnCost = 8.0,
                 kOverhangCost = 30.0, kBesideCost = 70.0;

struct Place {
    MmBox box;
    bool turned = false;
    std::optional<Mm> leader;
    double cost = 0.0;
};

double lengthOf(const std::string& label) {
    return std::min(70.0, textWidth_em(label) * kPlanLetters_mm + 2.0 * kPad_mm);
}

MmBox about(Mm centre, double width, double height) {
    return {{centre.x - width / 2, centre.y - height / 2},
            {centre.x + width / 2, centre.y + height / 2}};
}

MmBox grown(const MmBox& box, double by) {
    return {{box.min.x - by, box.min.y - by}, {box.max.x + by, box.max.y + by}};
}

MmBox stretchBox(Mm a, Mm b, double width) {
    return grown(
        {{std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}},
        width / 2);
}

// What lies under a box of a line: crossing it, or along its longer side.
double underCost(const MmBox& box, const DrawnCable& line) {
    double cost = 0.0;
    const bool boxLevel = box.width() >= box.height();
    for (std::size_t i = 0; i + 1 < line.points.size(); ++i) {
        const Mm a = line.points[i], b = line.points[i + 1];
        if (!overlap(box, stretchBox(a, b, line.width_mm))) continue;
        cost += (a.y == b.y) == boxLevel ? kAlongCost : kCrossCost;
    }
    return cost;
}

struct Table {
    const std::vector<MmBox>& taken;
    std::vector<DrawnCable>& cables;
    std::vector<bool> placed;

    bool free(const MmBox& box, std::size_t self) const {
        const MmBox wide = grown(box, kGap_mm);
        if (box.min.x < kPlanField_mm.min.x || box.max.x > kPlanField_mm.max.x ||
            box.min.y < kPlanField_mm.min.y || box.max.y > kPlanField_mm.max.y)
            return false;
        for (const MmBox& each : taken)
            if (overlap(wide, each)) return false;
        for (std::size_t i = 0; i < cables.size(); ++i)
            if (i != self && placed[i] && overlap(wide, cables[i].label)) return false;
        return true;
    }

    double linesUnder(const MmBox& box, std::size_t self) const {
        double cost = 0.0;
        for (std::size_t i = 0; i < cables.size(); ++i)
            if (i != self) cost += underCost(box, cables[i]);
        return cost;
    }

    // A foreign leader is not to be covered either.
    double leadersUnder(const MmBox& box, std::size_t self) const {
        double cost = 0.0;
        for (std::size_t i = 0; i < cables.size(); ++i)
            if (i != self && placed[i] && cables[i].leader &&
                overlap(box, stretchBox(*cables[i].leader, cables[i].label.centre(), 0.5)))
                cost += kCrossCost;
        return cost;
    }
};

void consider(std::optional<Place>& best, const Place& place) {
    if (!best || place.cost < best->cost) best = place;
}

// Along one stretch, in steps from its middle outwards.
void alongStretch(
    const Table& table, std::size_t self, Mm a, Mm b, double length, std::optional<Place>& best) {
    const bool level = a.y == b.y;
    const double run = level ? std::fabs(b.x - a.x) : std::fabs(b.y - a.y);
    const int steps = static_cast<int>(std::floor(run / 2 / kStep_mm));
    for (const bool turned : {false, true}) {
        if (level && turned) continue;
        const double along = level || turned ? length : kHeight_mm;
        const double width = turned ? kHeight_mm : length, height = turned ? length : kHeight_mm;
        for (int i = -steps; i <= steps; ++i) {
            const double off = i * kStep_mm;
            const Mm centre{(a.x + b.x) / 2 + (level ? off : 0),
                            (a.y + b.y) / 2 + (level ? 0 : off)};
            Place place{about(centre, width, height), turned, std::nullopt, 0.0};
            if (!table.free(place.box, self)) continue;
            const double over = std::fabs(off) + along / 2 + 1.0 - run / 2;
            place.cost = (over > 0 ? kOverhangCost + over : 0.0) + std::fabs(off) * 0.1 -
                         std::min(run, 60.0) * 0.1 + (turned ? kTurnedCost : 0.0) +
                         (!level && !turned ? kAcrossOwnCost : 0.0) +
                         table.linesUnder(place.box, self) + table.leadersUnder(place.box, self);
            consider(best, place);
        }
    }
}

// Beside the line, with a stroke to the middle of its longest stretches.
void beside(const Table& table, std::size_t self, double length, std::optional<Place>& best) {
    const DrawnCable& cable = table.cables[self];
    for (std::size_t i = 0; i + 1 < cable.points.size(); ++i) {
        const Mm a = cable.points[i], b = cable.points[i + 1];
        const Mm foot{(a.x + b.x) / 2, (a.y + b.y) / 2};
        for (int dy = -24; dy <= 24; dy += 2)
            for (int dx = -30; dx <= 30; dx += 2) {
                const Mm centre{foot.x + dx, foot.y + dy};
                Place place{about(centre, length, kHeight_mm), false, foot, 0.0};
                if (place.box.contains(foot) || !table.free(place.box, self)) continue;
                const double away = std::sqrt(static_cast<double>(dx * dx + dy * dy));
                place.cost = kBesideCost + away;
                if (best && place.cost >= best->cost) continue;
                place.cost += table.linesUnder(place.box, self) +
                              underCost(place.box, cable) * 0.5 +
                              table.leadersUnder(place.box, self);
                if (best && place.cost >= best->cost) continue;
                // What the stroke crosses on its way.
                const MmBox stroke = stretchBox(foot, centre, 0.4);
                for (std::size_t j = 0; j < table.cables.size(); ++j)
                    if (j != self && underCost(stroke, table.cables[j]) > 0.0) place.cost += 8.0;
                consider(best, place);
            }
    }
}

// The last resort: the first free place of the field.
Place anywhere(const Table& table, std::size_t self, double length) {
    const DrawnCable& cable = table.cables[self];
    const Mm foot = cable.points[cable.points.size() / 2];
    std::optional<Place> best;
    for (double y = kPlanField_mm.min.y + kHeight_mm; y < kPlanField_mm.max.y - kHeight_mm;
         y += 3.0)
        for (double x = kPlanField_mm.min.x + length; x < kPlanField_mm.max.x - length; x += 3.0) {
            Place place{about({x, y}, length, kHeight_mm), false, foot, 0.0};
            if (!table.free(place.box, self)) continue;
            place.cost = std::fabs(x - foot.x) + std::fabs(y - foot.y);
            consider(best, place);
        }
    return best.value_or(Place{about(foot, length, kHeight_mm), false, std::nullopt, 0.0});
}

void put(Table& table, std::size_t self, const std::string& label) {
    DrawnCable& cable = table.cables[self];
    const double length = lengthOf(label);
    std::optional<Place> best;
    for (std::size_t i = 0; i + 1 < cable.points.size(); ++i)
        alongStretch(table, self, cable.points[i], cable.points[i + 1], length, best);
    if (!best || best->cost > kBesideCost) beside(table, self, length, best);
    if (!best) best = anywhere(table, self, length);
    cable.label = best->box;
    cable.turned = best->turned;
    cable.leader = best->leader;
    table.placed[self] = true;
}

double longest(const DrawnCable& cable) {
    double out = 0.0;
    for (std::size_t i = 0; i + 1 < cable.points.size(); ++i)
        out = std::max(out,
                       std::fabs(cable.points[i].x - cable.points[i + 1].x) +
                           std::fabs(cable.points[i].y - cable.points[i + 1].y));
    return out;
}

} // namespace

void placeLabels(const Plan& plan,
                 const std::vector<MmBox>& taken,
                 std::vector<DrawnCable>& cables) {
    Table table{taken, cables, std::vector<bool>(cables.size(), false)};
    std::vector<std::size_t> order(cables.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    // Those with the least room choose first.
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return longest(cables[a]) < longest(cables[b]);
    });
    for (int pass = 0; pass < 3; ++pass)
        for (const std::size_t i : order)
            put(table, i, plan.cables[cables[i].cable].label);
}

int covered(const std::vector<DrawnCable>& cables, std::size_t label) {
    int count = 0;
    for (std::size_t i = 0; i < cables.size(); ++i)
        if (i != label && underCost(cables[label].label, cables[i]) > 0.0) ++count;
    return count;
}

} // namespace loom::plan
