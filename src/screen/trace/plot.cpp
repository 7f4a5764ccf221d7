// SPDX-License-Identifier: MIT
#include "screen/trace/plot.h"

#include "attempt/trace_axis.h"
#include "screen/kit/tones.h"
#include "screen/sentences.h"
#include "screen/trace/words.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loom::screen {

namespace {

constexpr float kScaleWide = 54.0f, kCrossWide = 40.0f, kTimeHigh = 26.0f, kWordsHigh = 30.0f,
                kTickApart = 22.0f;

// Told apart by their fields; the colours only help the eye.
constexpr ImU32 kColours[] = {tone::kFault, art::rgb(0x2b5f9e), tone::kDone, tone::kLink};

std::int64_t sliceAt(double time_s) {
    return static_cast<std::int64_t>(std::floor(std::max(0.0, time_s) / attempt::kSlice_s + 1e-6));
}

Rect curveOf(const Pen& pen, const TracePlot& plot, std::size_t i) {
    const Rect& field = plot.fields[i];
    return {{plot.curves.min.x, field.min.y + pen.px(kWordsHigh)},
            {plot.curves.max.x, field.max.y - pen.px(6.0f)}};
}

attempt::Axis scaleOf(const Pen& pen,
                      const std::vector<attempt::TracePoint>& points,
                      const attempt::TraceLabel& label,
                      const Rect& curve) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const attempt::TracePoint& point : points) {
        if (std::isnan(point.least)) continue;
        low = std::min(low, label.shown(point.least));
        high = std::max(high, label.shown(point.greatest));
    }
    const int steps = std::clamp(static_cast<int>(curve.height() / pen.px(kTickApart)), 2, 5);
    return attempt::roundAxis(low, high, steps, label.leastSpan);
}

void drawScale(const Pen& pen, const attempt::Axis& axis, const Rect& curve) {
    const float apart = curve.height() / static_cast<float>(std::max(1, axis.ticks() - 1));
    const int last = axis.ticks() - 1;
    for (int t = 0; t <= last; ++t) {
        const float y = curve.max.y - curve.height() * static_cast<float>(axis.share(axis.tick(t)));
        pen.list->AddLine({curve.min.x, y}, {curve.max.x, y}, tone::kPaperLine, 1.0f);
        const bool room = apart >= pen.px(kTickApart) - 4.0f;
        if (room || t == 0 || t == last)
            pen.right(Face::Body,
                      {curve.min.x - pen.px(6.0f), y},
                      tone::kInkSoft,
                      attempt::tickText(axis, t, true));
    }
}

void drawCurve(const Pen& pen,
               const TracePlot& plot,
               const std::vector<attempt::TracePoint>& points,
               const attempt::Axis& axis,
               const attempt::TraceLabel& label,
               const Rect& curve,
               ImU32 colour) {
    std::vector<ImVec2> line;
    const auto draw = [&] {
        if (line.size() > 1)
            pen.list->AddPolyline(
                line.data(), static_cast<int>(line.size()), colour, 0, pen.px(2.2f));
        line.clear();
    };
    const auto y = [&](double si) {
        return curve.max.y - curve.height() * static_cast<float>(axis.share(label.shown(si)));
    };
    for (const attempt::TracePoint& point : points) {
        if (std::isnan(point.least)) {
            draw();
            continue;
        }
        const double middle =
            (static_cast<double>(point.slice) + 0.5 * static_cast<double>(point.slices - 1)) *
            attempt::kSlice_s;
        line.push_back({plot.x(middle), y(point.least)});
        if (y(point.least) - y(point.greatest) > 0.5f)
            line.push_back({plot.x(middle), y(point.greatest)});
    }
    draw();
}

void drawDashed(const Pen& pen, float x, float y0, float y1, ImU32 colour, float thick) {
    for (float y = y0; y < y1; y += pen.px(7.0f))
        pen.list->AddLine({x, y}, {x, std::min(y + pen.px(4.0f), y1)}, colour, thick);
}

void drawMarks(const Pen& pen, const TracePlot& plot, const attempt::Attempt& attempt) {
    for (const attempt::BenchEvent& h : attempt.events()) {
        if (h.time_s < plot.from_s || h.time_s > plot.to_s) continue;
        const ImU32 colour = isOrdinary(h) ? tone::kInkSoft : tone::kFault;
        const float x = plot.x(h.time_s), top = plot.curves.min.y;
        drawDashed(pen, x, top, plot.curves.max.y, colour, pen.px(1.4f));
        // A flag at its foot, so that a mark is found also where curves are steep.
        const float foot = plot.curves.max.y, r = pen.px(5.0f);
        pen.list->AddTriangleFilled(
            {x - r, foot + r}, {x + r, foot + r}, {x, foot - r * 0.6f}, colour);
    }
}

void drawTimes(const Pen& pen, const TracePlot& plot) {
    const attempt::Axis axis = attempt::roundAxis(plot.from_s, plot.to_s, 6);
    const float y = plot.curves.max.y + pen.px(kTimeHigh * 0.5f + 3.0f);
    const std::string unit = "s";
    pen.right(Face::Body, {plot.curves.max.x + pen.px(20.0f), y}, tone::kInkSoft, unit);
    for (int t = 0; t < axis.ticks(); ++t) {
        const float x = plot.x(axis.tick(t));
        const std::string text = attempt::tickText(axis, t, true);
        const float half = 0.5f * pen.width(Face::Body, text);
        if (x < plot.curves.min.x - 1.0f || x + half > plot.curves.max.x + pen.px(6.0f)) continue;
        const bool covered =
            plot.cursor_s && std::fabs(plot.x(*plot.cursor_s) - x) < half + pen.px(38.0f);
        if (covered) continue; // by the cursor's own time
        pen.list->AddLine(
            {x, plot.curves.max.y}, {x, plot.curves.max.y + pen.px(4.0f)}, tone::kInkSoft, 1.0f);
        pen.centred(Face::Body, {x, y}, tone::kInkSoft, text);
    }
}

void drawCursor(const Pen& pen, const TracePlot& plot) {
    if (!plot.cursor_s || *plot.cursor_s < plot.from_s || *plot.cursor_s > plot.to_s) return;
    const float x = plot.x(*plot.cursor_s);
    pen.list->AddLine({x, plot.curves.min.y}, {x, plot.curves.max.y}, tone::kInk, pen.px(1.6f));
    char text[32];
    std::snprintf(text, sizeof text, "%.2f s", *plot.cursor_s);
    const float half = 0.5f * pen.width(Face::Bold, text) + pen.px(6.0f);
    const float middle = std::clamp(
        x, plot.curves.min.x - pen.px(20.0f) + half, plot.curves.max.x - half + pen.px(20.0f));
    const float y = plot.curves.max.y + pen.px(kTimeHigh * 0.5f + 3.0f);
    pen.list->AddRectFilled({middle - half, y - pen.px(11.0f)},
                            {middle + half, y + pen.px(11.0f)},
                            tone::kInk,
                            pen.px(5.0f));
    pen.centred(Face::Bold, {middle, y}, tone::kPaper, text);
}

void drawField(const Pen& pen,
               const TracePlot& plot,
               const attempt::Attempt& attempt,
               const attempt::Trace& trace,
               std::size_t i) {
    const Rect curve = curveOf(pen, plot, i);
    const attempt::TraceLabel label = traceLabel(attempt.bench(), trace.quantity(i));
    const auto points = trace.points(i,
                                     sliceAt(plot.from_s),
                                     sliceAt(plot.to_s),
                                     static_cast<std::size_t>(std::max(8.0f, curve.width())));
    const attempt::Axis axis = scaleOf(pen, points, label, curve);
    const ImU32 colour = kColours[i % std::size(kColours)];
    drawScale(pen, axis, curve);
    pen.list->PushClipRect(
        {curve.min.x, curve.min.y - 3.0f}, {curve.max.x, curve.max.y + 3.0f}, true);
    drawCurve(pen, plot, points, axis, label, curve, colour);
    pen.list->PopClipRect();
    const std::string value = readingAt(trace, i, label, plot.cursor_s.value_or(plot.to_s));
    const float y = plot.fields[i].min.y + pen.px(10.0f);
    const float left = plot.curves.min.x - pen.px(kScaleWide - 8.0f);
    const float room = curve.max.x - left - pen.width(Face::Bold, value) - pen.px(14.0f);
    pen.left(Face::Bold, {left, y}, colour, pen.cut(Face::Bold, label.name, room));
    pen.right(Face::Bold, {curve.max.x, y}, tone::kInk, value);
}

} // namespace

TracePlot layPlot(const Pen& pen, const Rect& area, const TraceUi& ui, std::size_t fields) {
    TracePlot plot;
    plot.curves = {{area.min.x + pen.px(kScaleWide), area.min.y},
                   {area.max.x - pen.px(kCrossWide), area.max.y - pen.px(kTimeHigh)}};
    const std::size_t count = std::max<std::size_t>(1, fields);
    const float high = plot.curves.height() / static_cast<float>(count);
    for (std::size_t i = 0; i < count; ++i)
        plot.fields.push_back(rectAt(
            area.min.x, plot.curves.min.y + high * static_cast<float>(i), area.width(), high));
    plot.to_s = ui.end_s;
    plot.from_s = ui.end_s - ui.span_s;
    plot.cursor_s = ui.cursor_s;
    return plot;
}

void drawPlot(const Pen& pen,
              const TracePlot& plot,
              const attempt::Attempt& attempt,
              const attempt::Trace& trace) {
    for (std::size_t i = 0; i < trace.size(); ++i)
        drawField(pen, plot, attempt, trace, i);
    drawMarks(pen, plot, attempt);
    drawTimes(pen, plot);
    drawCursor(pen, plot);
}

std::string readingAt(const attempt::Trace& trace,
                      std::size_t i,
                      const attempt::TraceLabel& label,
                      double time_s) {
    const std::int64_t last = trace.lastSlice().value_or(0);
    // Of the slice in which the time lies: at a fuse's event, what made it open.
    const auto slice = static_cast<std::int64_t>(std::ceil(time_s / attempt::kSlice_s - 1e-6));
    const auto value = trace.at(i, std::min(last, slice));
    return value ? traceAmount(label, *value) : words("amount/none");
}

} // namespace loom::screen
