// SPDX-License-Identifier: MIT
#include "screen/paper/plan_stroke.h"

#include "bench/catalogue.h"
#include "plan/print.h"
#include "screen/art/lettering.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

using attempt::SheetMark;

struct Stroke {
    const Pen& pen;
    const PlanScale& scale;
    const PlanPicture& picture;

    float mm(double length) const { return static_cast<float>(length) * scale.px_per_mm; }

    std::vector<ImVec2> path(const plan::DrawnCable& cable) const {
        std::vector<ImVec2> out;
        for (const plan::Mm at : cable.points)
            out.push_back(scale.px(at));
        return out;
    }

    Rect rect(const plan::MmBox& box) const { return {scale.px(box.min), scale.px(box.max)}; }

    // Letters of a size on the drawing, their capitals' middle at the point.
    void write(plan::Mm at, double em_mm, bool bold, ImU32 colour, const std::string& text) const {
        if (text.empty()) return;
        ImFont* font = pen.font(bold ? Face::Bold : Face::Body);
        const float size = mm(em_mm) * kLinePerEm;
        const ImVec2 wide = font->CalcTextSizeA(size, 1e9f, 0.0f, text.c_str());
        const ImVec2 middle = scale.px(at);
        // The capitals of Open Sans stand between 0.714 em over the baseline, which is 1.069 em
        // under the line's top (its head and hhea tables).
        const float top = middle.y - mm(em_mm) * (1.069f - 0.357f);
        art::putText(pen.list, font, size, {middle.x - wide.x * 0.5f, top}, colour, text);
    }
};

void line(const Stroke& stroke, const std::vector<ImVec2>& path, ImU32 colour, float wide) {
    // Square corners, filled where two stretches meet; antialiased thin lines come out even.
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const float half = wide * 0.5f;
        stroke.pen.list->AddRectFilled(
            {std::min(path[i].x, path[i + 1].x) - half, std::min(path[i].y, path[i + 1].y) - half},
            {std::max(path[i].x, path[i + 1].x) + half, std::max(path[i].y, path[i + 1].y) + half},
            colour,
            half * 0.6f);
    }
}

void dashed(const Stroke& stroke, const std::vector<ImVec2>& path, ImU32 colour, float wide) {
    const float dash = stroke.mm(2.2), gap = stroke.mm(1.4);
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const ImVec2 a = path[i], b = path[i + 1];
        const float length = std::fabs(b.x - a.x) + std::fabs(b.y - a.y);
        const ImVec2 step{(b.x - a.x) / length, (b.y - a.y) / length};
        for (float at = 0.0f; at < length; at += dash + gap) {
            const float to = std::min(length, at + dash);
            line(stroke,
                 {{a.x + step.x * at, a.y + step.y * at}, {a.x + step.x * to, a.y + step.y * to}},
                 colour,
                 wide);
        }
    }
}

// Under everything: the marker's stroke, and the ring of light about the chosen one.
void strokeHalo(const Stroke& stroke, const plan::DrawnCable& cable) {
    const RowLook& look = stroke.picture.looks[cable.cable];
    const auto path = stroke.path(cable);
    const float wide = stroke.mm(cable.width_mm);
    if (look.mark == SheetMark::Right) line(stroke, path, tone::kMarker, wide + stroke.mm(2.4));
    if (look.mark == SheetMark::Wrong || look.missed)
        dashed(stroke, path, art::fade(tone::kFault, 0.5f), wide + stroke.mm(2.0));
    if (stroke.picture.chosen == cable.cable)
        line(stroke, path, tone::kAttention, wide + stroke.mm(1.7));
}

// Laid ones with their body; the others thin and broken.
void strokeCable(const Stroke& stroke, const plan::DrawnCable& cable) {
    const plan::PlanCable& row = stroke.picture.plan.cables[cable.cable];
    const auto path = stroke.path(cable);
    const ImU32 body = art::sleeveTone(row.sleeve).body;
    const float wide = std::max(1.4f, stroke.mm(cable.width_mm));
    const bool laid = stroke.picture.looks[cable.cable].laid == Laid::Joined;
    if (stroke.picture.chosen == cable.cable)
        line(stroke, path, tone::kPaper, wide + stroke.mm(0.7));
    if (laid) {
        line(stroke, path, tone::kTubeEdge, wide + stroke.mm(0.45));
        line(stroke, path, body, wide);
        return;
    }
    const float thin = std::max(1.2f, wide * 0.62f);
    dashed(stroke, path, tone::kMarkLine, thin + std::max(1.0f, stroke.mm(0.35)));
    dashed(stroke, path, body, thin);
}

void strokeFrame(const Stroke& stroke) {
    const Pen& pen = stroke.pen;
    const plan::PlanDrawing& drawing = stroke.picture.drawing;
    const Rect frame = stroke.rect(drawing.frame);
    pen.list->AddRect(
        frame.min, frame.max, tone::kFrameLine, stroke.mm(6.0), 0, std::max(1.2f, stroke.mm(0.6)));
    for (const plan::MmBox& wheel : drawing.wheels) {
        const Rect at = stroke.rect(wheel);
        pen.list->AddRectFilled(at.min, at.max, tone::kPaperLine, stroke.mm(1.4));
        pen.list->AddRect(at.min, at.max, tone::kFrameLine, stroke.mm(1.4), 0, 1.2f);
    }
    stroke.write(
        drawing.frontAt, plan::kPlanLegends_mm, false, tone::kInkSoft, words("plan/front"));
    if (drawing.wheels.empty()) return;
    const int from = pen.list->VtxBuffer.Size;
    const std::string axle = words("plan/axle");
    plan::Mm at = drawing.axleAt; // a longer word stands higher, clear of the wheel
    const double half_mm = 0.5 * plan::textWidth_em(axle) * plan::kPlanLegends_mm;
    at.y = std::min(at.y, drawing.wheels.front().min.y - half_mm);
    stroke.write(at, plan::kPlanLegends_mm, false, tone::kInkSoft, axle);
    turnDrawn(pen.list, from, stroke.scale.px(at), -1.5707963f);
}

void strokeParts(const Stroke& stroke) {
    const Pen& pen = stroke.pen;
    const plan::PlanDrawing& drawing = stroke.picture.drawing;
    const plan::Plan& plan = stroke.picture.plan;
    const float thin = std::max(1.0f, stroke.mm(0.4));
    for (const plan::DrawnPart& part : drawing.parts) {
        const Rect at = stroke.rect(part.box);
        pen.list->AddRectFilled(at.min, at.max, tone::kPlanPart, stroke.mm(1.8));
        pen.list->AddRect(at.min, at.max, tone::kInk, stroke.mm(1.8), 0, thin);
        const plan::PlanPart& row = plan.parts[part.part];
        stroke.write(part.refAt, plan::kPlanLetters_mm, true, tone::kInk, row.ref);
        if (!part.wordsAt) continue;
        const std::string said = plan::underRef(row, words::printed());
        if (plan::textWidth_em(said) * plan::kPlanLegends_mm <= part.clear_mm)
            stroke.write(*part.wordsAt, plan::kPlanLegends_mm, false, tone::kInkSoft, said);
    }
    for (const plan::DrawnWay& way : drawing.ways) {
        const Rect at = stroke.rect(way.box);
        const bool walked = stroke.picture.way == way.number - 1;
        if (walked) pen.list->AddRectFilled(at.min, at.max, tone::kPaperWarm);
        pen.list->AddRect(at.min,
                          at.max,
                          walked ? tone::kAttention : tone::kInk,
                          0.0f,
                          0,
                          walked ? thin * 2.5f : thin);
        stroke.write(
            way.box.centre(), plan::kPlanLegends_mm, true, tone::kInk, std::to_string(way.number));
    }
    for (const plan::DrawnTerminal& terminal : drawing.terminals) {
        const Rect at = stroke.rect(terminal.mark);
        pen.list->AddRectFilled(at.min, at.max, tone::kPaper, stroke.mm(0.6));
        pen.list->AddRect(at.min, at.max, tone::kInk, stroke.mm(0.6), 0, thin);
        if (bench::isA(plan.parts[terminal.part].kind, bench::PartClass::Block)) continue;
        const std::string legend = terminal.legend == "-" ? "\u2212" : terminal.legend;
        stroke.write(terminal.legendAt, plan::kPlanLegends_mm, false, tone::kInkSoft, legend);
    }
}

// A round mark at each end of the chosen cable.
void ringEnds(const Stroke& stroke, const plan::DrawnCable& cable) {
    for (const plan::Mm at : {cable.points.front(), cable.points.back()}) {
        const ImVec2 centre = stroke.scale.px(at);
        const float radius = std::max(stroke.mm(3.0), stroke.pen.px(8.0f));
        stroke.pen.list->AddCircle(centre, radius, tone::kAttention, 0, stroke.pen.px(2.6f));
    }
}

void strokeLabel(const Stroke& stroke, const plan::DrawnCable& cable) {
    const Pen& pen = stroke.pen;
    const RowLook& look = stroke.picture.looks[cable.cable];
    const bool chosen = stroke.picture.chosen == cable.cable;
    const bool wrong = look.mark == SheetMark::Wrong || look.missed;
    if (cable.leader) {
        const ImVec2 from = stroke.scale.px(*cable.leader);
        pen.list->AddLine(from,
                          stroke.scale.px(cable.label.centre()),
                          tone::kInkSoft,
                          std::max(1.0f, stroke.mm(0.3)));
        pen.list->AddCircleFilled(from, std::max(2.0f, stroke.mm(0.7)), tone::kInkSoft);
    }
    const Rect at = stroke.rect(cable.label);
    const float round = stroke.mm(1.2);
    pen.list->AddRectFilled(at.min, at.max, tone::label, round);
    pen.list->AddRect(at.min,
                      at.max,
                      chosen  ? tone::kAttention
                      : wrong ? tone::kFault
                              : tone::kLabelLine,
                      round,
                      0,
                      chosen || wrong ? stroke.mm(0.8) : std::max(1.0f, stroke.mm(0.35)));
    const int from = pen.list->VtxBuffer.Size;
    stroke.write(cable.label.centre(),
                 plan::kPlanLetters_mm,
                 true,
                 tone::kInk,
                 stroke.picture.plan.cables[cable.cable].label);
    if (cable.turned) turnDrawn(pen.list, from, at.centre(), -1.5707963f);
    // Tick or cross at the label's corner: the marker's colour says it a second time only.
    if (look.mark == SheetMark::None && !look.missed) return;
    const ImVec2 corner{at.max.x, at.min.y};
    pen.list->AddCircleFilled(corner, stroke.mm(2.3), tone::kPaper);
    drawMark(pen.list, corner, stroke.mm(2.1), wrong ? Mark::Wrong : Mark::Done);
}

} // namespace

void strokePlan(const Pen& pen, const PlanScale& scale, const PlanPicture& picture) {
    const Stroke stroke{pen, scale, picture};
    strokeFrame(stroke);
    for (const plan::DrawnCable& cable : picture.drawing.cables)
        strokeHalo(stroke, cable);
    for (const plan::DrawnCable& cable : picture.drawing.cables)
        if (picture.chosen != cable.cable) strokeCable(stroke, cable);
    for (const plan::DrawnCable& cable : picture.drawing.cables)
        if (picture.chosen == cable.cable) strokeCable(stroke, cable);
    strokeParts(stroke);
    for (const plan::DrawnCable& cable : picture.drawing.cables)
        if (picture.chosen == cable.cable) ringEnds(stroke, cable);
    for (const plan::DrawnCable& cable : picture.drawing.cables)
        strokeLabel(stroke, cable);
}

} // namespace loom::screen
