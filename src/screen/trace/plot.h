// SPDX-License-Identifier: MIT
// The fields of the trace: one a quantity, above one another, over one scale of time.
#pragma once

#include "attempt/trace_export.h"
#include "screen/kit/pen.h"
#include "screen/trace/state.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::screen {

// Where everything lies, for one frame.
struct TracePlot {
    std::vector<Rect> fields; // whole: a line of words, under it the curve
    Rect curves;              // from the left end of the time scale to its right, all fields
    double from_s = 0.0, to_s = 1.0;
    std::optional<double> cursor_s;

    double timeAt(float x) const {
        return from_s + (to_s - from_s) * static_cast<double>((x - curves.min.x) / curves.width());
    }

    float x(double time_s) const {
        return curves.min.x +
               curves.width() * static_cast<float>((time_s - from_s) / (to_s - from_s));
    }
};

TracePlot layPlot(const Pen& pen, const Rect& area, const TraceUi& ui, std::size_t fields);
void drawPlot(const Pen& pen,
              const TracePlot& plot,
              const attempt::Attempt& attempt,
              const attempt::Trace& trace);
// "41.2 A", or that there is nothing.
std::string readingAt(const attempt::Trace& trace,
                      std::size_t i,
                      const attempt::TraceLabel& label,
                      double time_s);

} // namespace loom::screen
