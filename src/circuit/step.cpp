// SPDX-License-Identifier: MIT
#include "circuit/step.h"

namespace loom::circuit {

double Step::state(std::uint32_t k, double theta) const {
    const double s = 1.0 - theta;
    const double y0 = begin.y[k], y1 = end.y[k];
    return s * s * (1.0 + 2.0 * theta) * y0 + theta * theta * (3.0 - 2.0 * theta) * y1 +
           h_s * theta * s * (s * begin.f[k] - theta * end.f[k]);
}

Parabola::Parabola(double theta)
    : begin((theta - kMiddle) * (theta - 1.0) / kMiddle),
      middle(theta * (theta - 1.0) / (kMiddle * (kMiddle - 1.0))),
      end(theta * (theta - kMiddle) / (1.0 - kMiddle)) {}

double Step::current(std::uint32_t k, double theta) const {
    const Parabola p(theta);
    return p.begin * begin.i[k] + p.middle * middle.i[k] + p.end * end.i[k];
}

} // namespace loom::circuit
