// SPDX-License-Identifier: MIT
#include "plan/drawing.h"

#include "bench/catalogue.h"
#include "plan/boxes.h"
#include "plan/labels.h"

#include <algorithm>
#include <cmath>

namespace loom::plan {
namespace {

constexpr std::size_t kNotDrawn = static_cast<std::size_t>(-1);
constexpr double kLegendRoom_mm = 4.6; // of a box, taken by legends along a side

double legendWidth(const std::string& legend) {
    return textWidth_em(legend) * kPlanLegends_mm + 1.0;
}

DrawnTerminal
drawTerminal(const PlacedPart& placed, const PlacedTerminal& terminal, const PlanPart& part) {
    const bench::TerminalSpec& spec = bench::spec(part.kind).terminals[terminal.terminal];
    DrawnTerminal out{placed.part, spec.word, spec.legend, terminal.side, {}, {}};
    const std::size_t last = terminal.ends.empty() ? 0 : terminal.ends.size() - 1;
    const Mm a = mmOf(terminusOf(placed, terminal, 0).at);
    const Mm b = mmOf(terminusOf(placed, terminal, last).at);
    const double half = 1.4;
    out.mark = {{a.x - half, a.y - half}, {b.x + half, b.y + half}};
    const Mm middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    const double in = 4.0, sideways = 1.8 + legendWidth(out.legend) / 2;
    switch (terminal.side) {
    case Side::Top:
        out.legendAt = {middle.x, middle.y + in};
        break;
    case Side::Bottom:
        out.legendAt = {middle.x, middle.y - in};
        break;
    case Side::Left:
        out.legendAt = {middle.x + sideways, middle.y};
        break;
    case Side::Right:
        out.legendAt = {middle.x - sideways, middle.y};
        break;
    }
    return out;
}

// What is left of a box inside its marks and legends.
MmBox innerOf(const PlacedPart& placed, const PlanPart& part) {
    MmBox inner = boxOf(placed);
    const bench::PartSpec& spec = bench::spec(part.kind);
    double left = 1.0, right = 1.0, top = 1.0, bottom = 1.0;
    for (const PlacedTerminal& terminal : placed.terminals) {
        const std::string legend = spec.terminals[terminal.terminal].legend;
        const bool empty = legend.empty();
        switch (terminal.side) {
        case Side::Top:
            top = std::max(top, empty ? 1.6 : 1.6 + kLegendRoom_mm);
            break;
        case Side::Bottom:
            bottom = std::max(bottom, empty ? 1.6 : 1.6 + kLegendRoom_mm);
            break;
        case Side::Left:
            left = std::max(left, 2.0 + (empty ? 0.0 : legendWidth(legend)));
            break;
        case Side::Right:
            right = std::max(right, 2.0 + (empty ? 0.0 : legendWidth(legend)));
            break;
        }
    }
    inner.min = {inner.min.x + left, inner.min.y + top};
    inner.max = {inner.max.x - right, inner.max.y - bottom};
    return inner;
}

DrawnPart drawPart(const PlacedPart& placed, const PlanPart& part) {
    DrawnPart out{placed.part, boxOf(placed), {}, std::nullopt, 0.0};
    if (placed.block) {
        const bool lying = placed.across >= placed.down;
        const Mm corner = mmOf({placed.x, placed.y});
        out.clear_mm = lying ? corner.x - kPitch_mm / 2 - out.box.min.x : out.box.width();
        out.refAt = lying ? Mm{out.box.min.x + out.clear_mm / 2, out.box.centre().y}
                          : Mm{out.box.centre().x, out.box.min.y + kPitch_mm};
        return out;
    }
    const MmBox inner = innerOf(placed, part);
    out.refAt = inner.centre();
    out.clear_mm = inner.width();
    if (inner.height() >= 9.4) {
        out.wordsAt = Mm{out.refAt.x, out.refAt.y + 3.0};
        out.refAt.y -= 2.7;
    }
    return out;
}

void drawWays(const PlacedPart& placed, const PlanPart& part, PlanDrawing& out) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    const bool lying = placed.across >= placed.down;
    const MmBox box = boxOf(placed);
    int ways = 0;
    for (const bench::TerminalSpec& terminal : spec.terminals)
        ways = std::max(ways, terminal.node + 1);
    std::vector<int> first(ways, 0), last(ways, -1);
    for (const PlacedTerminal& terminal : placed.terminals) {
        const int way = spec.terminals[terminal.terminal].node;
        const int from = terminal.first, to = terminal.first + terminal.width - 1;
        if (last[way] < 0) first[way] = from;
        first[way] = std::min(first[way], from);
        last[way] = std::max(last[way], to);
    }
    // From the middle between one way's ends and the next's.
    for (int way = 0; way < ways; ++way) {
        const double before = way == 0 ? -0.5 : (last[way - 1] + first[way]) / 2.0;
        const double after = way + 1 == ways ? (lying ? placed.across : placed.down) + 0.5
                                             : (last[way] + first[way + 1]) / 2.0;
        const Mm origin = mmOf({placed.x, placed.y});
        MmBox each = box;
        (lying ? each.min.x : each.min.y) = (lying ? origin.x : origin.y) + before * kPitch_mm;
        (lying ? each.max.x : each.max.y) = (lying ? origin.x : origin.y) + after * kPitch_mm;
        out.ways.push_back({placed.part, way + 1, each});
    }
}

void blockBox(Lanes& lanes, const MmBox& box) {
    for (int y = 0; y < kGridRows; ++y)
        for (int x = 0; x < kGridColumns; ++x) {
            const Mm at = mmOf({x, y});
            if (box.contains(at)) lanes.block({x, y});
            const MmBox near{{box.min.x - kPitch_mm, box.min.y - kPitch_mm},
                             {box.max.x + kPitch_mm, box.max.y + kPitch_mm}};
            if (near.contains(at)) lanes.discourage({x, y}, 9);
        }
}

std::vector<DrawnCable>
linesOf(const Lanes& lanes, const Plan& plan, const std::vector<std::size_t>& rows) {
    std::vector<DrawnCable> out;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        DrawnCable cable;
        cable.cable = rows[i];
        cable.width_mm = 0.55 + 0.36 * std::sqrt(plan.cables[rows[i]].area_m2 * 1e6);
        for (const Node node : lanes.corners(i))
            cable.points.push_back(mmOf(node));
        out.push_back(std::move(cable));
    }
    return out;
}

int coveredIn(const std::vector<DrawnCable>& cables) {
    int sum = 0;
    for (std::size_t i = 0; i < cables.size(); ++i)
        sum += covered(cables, i) + (cables[i].leader ? 1 : 0);
    return sum;
}

// Of cables on one terminal it does not matter which stands left.
bool untangle(Lanes& lanes,
              const std::vector<PlacedPart>& parts,
              const std::vector<std::size_t>& lineOf) {
    bool better = false;
    for (const PlacedPart& part : parts)
        for (const PlacedTerminal& terminal : part.terminals)
            for (std::size_t i = 0; i < terminal.ends.size(); ++i)
                for (std::size_t j = i + 1; j < terminal.ends.size(); ++j) {
                    const PlanEnd a = terminal.ends[i], b = terminal.ends[j];
                    if (lineOf[a.cable] == kNotDrawn || lineOf[b.cable] == kNotDrawn) continue;
                    better =
                        lanes.exchange(lineOf[a.cable], a.end, lineOf[b.cable], b.end) || better;
                }
    return better;
}

// Lines that run under foreign labels look for another way; the best of a few rounds stands.
void route(const Plan& plan,
           const std::vector<PlacedPart>& parts,
           const std::vector<MmBox>& taken,
           PlanDrawing& out) {
    Lanes lanes(kGridColumns, kGridRows);
    for (const PlacedPart& part : parts)
        blockBox(lanes, boxOf(part));
    std::vector<std::size_t> rows, lineOf(plan.cables.size(), kNotDrawn);
    for (std::size_t i = 0; i < plan.cables.size(); ++i) {
        const auto from = terminusOf(parts, {i, 0}), to = terminusOf(parts, {i, 1});
        if (!from || !to) continue;
        lanes.add({*from, *to});
        lineOf[i] = rows.size();
        rows.push_back(i);
    }
    const bool large = rows.size() > 80;
    lanes.find(large ? 1 : 3);
    for (int round = 0; round < (large ? 0 : 3) && untangle(lanes, parts, lineOf); ++round)
        lanes.find(2);
    out.cables = linesOf(lanes, plan, rows);
    placeLabels(plan, taken, out.cables);
    for (int round = 0; round < (large ? 0 : 4) && coveredIn(out.cables) > 0; ++round) {
        Lanes changed = lanes;
        for (const DrawnCable& cable : out.cables)
            for (int y = 0; y < kGridRows; ++y)
                for (int x = 0; x < kGridColumns; ++x)
                    if (cable.label.contains(mmOf({x, y}))) changed.discourage({x, y}, 25);
        changed.find(2);
        std::vector<DrawnCable> lines = linesOf(changed, plan, rows);
        placeLabels(plan, taken, lines);
        const bool better = coveredIn(lines) < coveredIn(out.cables);
        lanes = changed;
        if (better) out.cables = std::move(lines);
    }
}

double distance(Mm p, Mm a, Mm b) {
    const double x = std::clamp(p.x, std::min(a.x, b.x), std::max(a.x, b.x)) - p.x;
    const double y = std::clamp(p.y, std::min(a.y, b.y), std::max(a.y, b.y)) - p.y;
    return std::sqrt(x * x + y * y);
}

void drawAxle(const Plan& plan, PlanDrawing& out) {
    for (const DrawnPart& part : out.parts) {
        if (!bench::isA(plan.parts[part.part].kind, bench::PartClass::Motor)) continue;
        const double y = part.box.centre().y, high = 9.0, wide = 5.0;
        out.wheels = {{{out.frame.min.x - wide, y - high}, {out.frame.min.x, y + high}},
                      {{out.frame.max.x, y - high}, {out.frame.max.x + wide, y + high}}};
        out.axleAt = {out.frame.max.x + 3.2, y - high - 7.0};
        return;
    }
}

} // namespace

bool overlap(const MmBox& a, const MmBox& b) {
    return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

double textWidth_em(const std::string& text) {
    // Open Sans Semibold, rounded up by classes of letters.
    double width = 0.0;
    for (const char c : text) {
        const unsigned char byte = static_cast<unsigned char>(c);
        if ((byte & 0xC0u) == 0x80u) continue; // the rest of a longer code point
        if (byte >= 0x80u || c == 'W' || c == 'M' || c == 'm' || c == 'w')
            width += 0.94;
        else if (c >= 'A' && c <= 'Z')
            width += 0.68;
        else if (c >= '0' && c <= '9')
            width += 0.58;
        else if (c >= 'a' && c <= 'z')
            width += 0.6;
        else
            width += 0.36;
    }
    return width;
}

PlanDrawing drawPlan(const Plan& plan) {
    PlanDrawing out;
    out.frame = {mmOf({0, 0}), mmOf({kGridColumns - 1, kGridRows - 1})};
    out.frontAt = {out.frame.centre().x, out.frame.min.y - 3.4};
    const std::vector<PlacedPart> parts = placeParts(plan);
    std::vector<MmBox> taken;
    for (const PlacedPart& placed : parts) {
        const PlanPart& part = plan.parts[placed.part];
        out.parts.push_back(drawPart(placed, part));
        taken.push_back(out.parts.back().box);
        if (placed.block) drawWays(placed, part, out);
        for (const PlacedTerminal& terminal : placed.terminals) {
            out.terminals.push_back(drawTerminal(placed, terminal, part));
            taken.push_back(out.terminals.back().mark);
        }
    }
    drawAxle(plan, out);
    taken.push_back(
        {{out.frontAt.x - 9.0, out.frontAt.y - 3.0}, {out.frontAt.x + 9.0, out.frame.min.y}});
    for (const MmBox& wheel : out.wheels)
        taken.push_back({{wheel.min.x, wheel.min.y - 14.0}, wheel.max});
    route(plan, parts, taken, out);
    return out;
}

std::optional<std::size_t> cableAt(const PlanDrawing& drawing, Mm at, double reach_mm) {
    for (const DrawnCable& cable : drawing.cables)
        if (cable.label.contains(at)) return cable.cable;
    std::optional<std::size_t> found;
    double nearest = reach_mm;
    for (const DrawnCable& cable : drawing.cables)
        for (std::size_t i = 0; i + 1 < cable.points.size(); ++i) {
            const double away = std::max(
                0.0, distance(at, cable.points[i], cable.points[i + 1]) - cable.width_mm / 2);
            if (away >= nearest) continue;
            nearest = away;
            found = cable.cable;
        }
    return found;
}

} // namespace loom::plan
