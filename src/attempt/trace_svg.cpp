// SPDX-License-Identifier: MIT
#include "attempt/trace_axis.h"
#include "attempt/trace_export.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

namespace loom::attempt {

namespace {

// All lengths in the drawing's own units; a page of A4 lying is about 1000 wide.
constexpr double kWidth = 1000.0, kLeft = 90.0, kRight = 30.0, kFieldHigh = 150.0, kFieldGap = 54.0,
                 kTop = 60.0, kMarkLine = 24.0;
constexpr std::size_t kPointsAcross = 900;
constexpr const char* kDashes[] = {"none", "9 5", "2.5 4", "12 4 2.5 4"};

std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else
            out += c;
    }
    return out;
}

std::string coordinate(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f", value);
    return text;
}

std::string line(double x1, double y1, double x2, double y2, const char* style) {
    return "<line x1=\"" + coordinate(x1) + "\" y1=\"" + coordinate(y1) + "\" x2=\"" +
           coordinate(x2) + "\" y2=\"" + coordinate(y2) + "\" " + style + "/>\n";
}

std::string
write(double x, double y, const char* anchor, const char* style, const std::string& text) {
    return "<text x=\"" + coordinate(x) + "\" y=\"" + coordinate(y) + "\" text-anchor=\"" + anchor +
           "\" " + style + ">" + escaped(text) + "</text>\n";
}

constexpr const char* kGrid = "stroke=\"#bbb\" stroke-width=\"0.8\"";
constexpr const char* kEdge = "stroke=\"#000\" stroke-width=\"1.2\"";
constexpr const char* kMarkStroke = "stroke=\"#000\" stroke-width=\"1\" stroke-dasharray=\"4 3\"";

struct Drawing {
    const Trace& trace;
    const TraceSheet& sheet;
    Axis time;
    std::vector<const TraceMark*> marks; // in the window
    std::string out;

    double x(double time_s) const { return kLeft + time.share(time_s) * (kWidth - kLeft - kRight); }

    void field(std::size_t i, double y0);
    void curve(const std::vector<TracePoint>& points, const Axis& axis, double y0, std::size_t i);
    void timeScale(double y);
    void markLines(double y0, double y1);
    void markList(double y);
};

Axis scaleOf(const std::vector<TracePoint>& points, const TraceLabel& label) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const TracePoint& point : points) {
        if (std::isnan(point.least)) continue;
        low = std::min(low, label.shown(point.least));
        high = std::max(high, label.shown(point.greatest));
    }
    return roundAxis(low, high, 5, label.leastSpan);
}

void Drawing::curve(const std::vector<TracePoint>& points,
                    const Axis& axis,
                    double y0,
                    std::size_t i) {
    const TraceLabel& label = sheet.labels[i];
    const auto y = [&](double si) { return y0 + (1.0 - axis.share(label.shown(si))) * kFieldHigh; };
    std::string path;
    bool down = false;
    const auto to = [&](double at_x, double si) {
        path += (down ? " L" : " M") + coordinate(at_x) + " " + coordinate(y(si));
        down = true;
    };
    for (const TracePoint& point : points) {
        if (std::isnan(point.least)) {
            down = false;
            continue;
        }
        const double middle =
            static_cast<double>(point.slice) +
            0.5 * static_cast<double>(std::max<std::int64_t>(0, point.slices - 1));
        to(x(middle * kSlice_s), point.least);
        if (point.greatest != point.least) to(x(middle * kSlice_s), point.greatest);
    }
    if (path.empty()) return;
    out += "<path d=\"" + path.substr(1) +
           "\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.8\" stroke-linejoin=\"round\" "
           "stroke-dasharray=\"" +
           kDashes[i % std::size(kDashes)] + "\"/>\n";
}

void Drawing::field(std::size_t i, double y0) {
    const TraceLabel& label = sheet.labels[i];
    const auto points = trace.points(i, sheet.from, sheet.to, kPointsAcross);
    const Axis axis = scaleOf(points, label);
    const double y1 = y0 + kFieldHigh, x1 = kWidth - kRight;
    for (int t = 0; t < axis.ticks(); ++t) {
        const double y = y1 - axis.share(axis.tick(t)) * kFieldHigh;
        out += line(kLeft, y, x1, y, kGrid);
        out += write(kLeft - 8.0, y + 5.0, "end", "font-size=\"14\"", tickText(axis, t, true));
    }
    out += line(kLeft, y0, kLeft, y1, kEdge) + line(kLeft, y1, x1, y1, kEdge);
    // The legend: a piece of the line itself, then its name and unit.
    out += "<line x1=\"" + coordinate(kLeft) + "\" y1=\"" + coordinate(y0 - 17.0) + "\" x2=\"" +
           coordinate(kLeft + 60.0) + "\" y2=\"" + coordinate(y0 - 17.0) +
           "\" stroke=\"#000\" stroke-width=\"1.8\" stroke-dasharray=\"" +
           kDashes[i % std::size(kDashes)] + "\"/>\n";
    out += write(kLeft + 70.0,
                 y0 - 12.0,
                 "start",
                 "font-size=\"16\" font-weight=\"600\"",
                 label.name + " (" + label.unit + ")");
    curve(points, axis, y0, i);
}

void Drawing::timeScale(double y) {
    for (int t = 0; t < time.ticks(); ++t) {
        const double at = x(time.tick(t));
        out += line(at, y, at, y + 6.0, kEdge);
        out += write(at, y + 22.0, "middle", "font-size=\"14\"", tickText(time, t, true));
    }
    out += write(kWidth - kRight, y + 42.0, "end", "font-size=\"14\"", sheet.time + " (s)");
}

void Drawing::markLines(double y0, double y1) {
    for (std::size_t m = 0; m < marks.size(); ++m) {
        const double at = x(marks[m]->time_s);
        out += line(at, y0, at, y1, kMarkStroke);
        out += write(at, y0 - 4.0, "middle", "font-size=\"13\"", std::to_string(m + 1));
    }
}

void Drawing::markList(double y) {
    for (std::size_t m = 0; m < marks.size(); ++m) {
        char time_text[32];
        std::snprintf(time_text, sizeof time_text, "%.3f s", marks[m]->time_s);
        out += write(kLeft,
                     y + kMarkLine * static_cast<double>(m),
                     "start",
                     "font-size=\"15\"",
                     std::to_string(m + 1) + "  " + time_text + "  " + marks[m]->words);
    }
}

} // namespace

std::string traceSvg(const Trace& trace, const TraceSheet& sheet) {
    Drawing d{trace,
              sheet,
              roundAxis(static_cast<double>(sheet.from) * kSlice_s,
                        static_cast<double>(sheet.to) * kSlice_s,
                        10),
              {},
              {}};
    for (const TraceMark& mark : sheet.marks)
        if (mark.slice >= sheet.from && mark.slice <= sheet.to) d.marks.push_back(&mark);
    const std::size_t fields = std::min(trace.size(), sheet.labels.size());
    const double first = kTop + kFieldGap, pitch = kFieldHigh + kFieldGap;
    const double foot =
        fields ? first + pitch * static_cast<double>(fields - 1) + kFieldHigh : first;
    const double high = foot + 70.0 + kMarkLine * static_cast<double>(d.marks.size());
    d.out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" viewBox=\"0 0 " +
            coordinate(kWidth) + " " + coordinate(high) +
            "\" font-family=\"'Open Sans', sans-serif\">\n<rect width=\"" + coordinate(kWidth) +
            "\" height=\"" + coordinate(high) + "\" fill=\"#fff\"/>\n";
    d.out += write(kLeft, 36.0, "start", "font-size=\"21\" font-weight=\"600\"", sheet.title);
    d.markLines(first - kFieldGap + 22.0, foot);
    for (std::size_t i = 0; i < fields; ++i)
        d.field(i, first + pitch * static_cast<double>(i));
    d.timeScale(foot);
    d.markList(foot + 64.0);
    return d.out + "</svg>\n";
}

} // namespace loom::attempt
