// SPDX-License-Identifier: MIT
#include "circuit/stepper.h"

#include "circuit/portable_math.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kGamma = kMiddle;
constexpr double kD = kGamma / 2.0;
constexpr double kW = 0.35355339059327376220; // sqrt 2 / 4
constexpr double kE0 = (1.0 - kW) / 3.0 - kW, kE1 = 1.0 / 3.0, kE2 = kD / 3.0 - kD;

constexpr int kRestartSteps = 10;

// The next step is kAim times the one whose error would be 1. Between these errors that is up to a
// fifth longer, which is not worth a new factor.
constexpr double kAim = 0.9, kKept = kAim * kAim * kAim, kLengthened = kKept / (1.2 * 1.2 * 1.2);

} // namespace

Stepper::Stepper(Network& network, double toleranceOverUsual)
    : net(network), tolerance(toleranceOverUsual), base(net.states.value) {
    net.tolerance = tolerance;
    step.begin = step.middle = step.end = net.emptySolution();
}

void Stepper::restart(double time_s, const std::vector<double>& y, const std::vector<double>& v) {
    step.t0_s = time_s;
    step.h_s = 0.0;
    std::copy(y.begin(), y.end(), step.begin.y.begin());
    settled = true;
    net.modelsChanged();
    net.forgetGuesses(y.data(), v.data());
    int sparks = -1; // a spark that ends meanwhile asks for one more
    for (int k = 0; k < kRestartSteps && (k < 2 || net.sparks() != sparks); ++k) {
        sparks = net.sparks();
        std::copy(step.begin.y.begin(), step.begin.y.end(), base.begin());
        step.t0_s += kShortest_s;
        settled =
            net.stage(kShortest_s, step.t0_s, base.data(), step.begin, true).agreed && settled;
    }
}

double Stepper::attempt(double h) {
    step.h_s = h;
    const Solution& b = step.begin;
    Solution &m = step.middle, &e = step.end;
    // Only what is controlled is expected anywhere: the others follow.
    const std::size_t n = base.size(), expected = net.states.controlled;
    const double* const __restrict y0 = b.y.data(), * const __restrict f0 = b.f.data();
    double* const __restrict from = base.data(), * const __restrict y1 = m.y.data();
    for (std::size_t k = 0; k < expected; ++k) {
        from[k] = y0[k] + (h * kD) * f0[k];
        y1[k] = y0[k] + (h * kGamma) * f0[k];
    }
    for (std::size_t k = expected; k < n; ++k)
        from[k] = y0[k] + (h * kD) * f0[k];
    const Network::Agreement first = net.stage(kD * h, step.t0_s + kGamma * h, base.data(), m);
    settled = first.agreed;
    if (!settled) return -1.0;
    const double* const __restrict f1 = m.f.data();
    double* const __restrict y2 = e.y.data();
    for (std::size_t k = 0; k < expected; ++k) {
        from[k] = y0[k] + (h * kW) * (f0[k] + f1[k]);
        y2[k] = y0[k] + h * (f0[k] + (f1[k] - f0[k]) * (0.5 / kGamma));
    }
    for (std::size_t k = expected; k < n; ++k)
        from[k] = y0[k] + (h * kW) * (f0[k] + f1[k]);
    const Network::Agreement second = net.stage(kD * h, step.t0_s + h, base.data(), e);
    settled = second.agreed;
    if (!settled) return -1.0;
    const double error = errorNorm();
    correct();
    return std::max({error / tolerance, first.drift, second.drift});
}

void Stepper::correct() {
    const double h = step.h_s;
    const StepRates rates{
        step.begin.f.data(), step.middle.f.data(), step.end.f.data(), kE0 * h, kE1 * h, kE2 * h};
    double* const y = step.end.y.data();
    for (const Creeping& c : net.states.creeping)
        y[c.state] += rates.error(c.state) * correctedShare(h, c.rate_per_s);
    net.models.each([&](auto& model) { model.correct(h, rates, y); });
}

double Stepper::errorNorm() const {
    const std::size_t n = net.states.controlled;
    const double* const __restrict f0 = step.begin.f.data();
    const double* const __restrict f1 = step.middle.f.data();
    const double* const __restrict f2 = step.end.f.data();
    const double* const __restrict y = step.end.y.data();
    const double* const __restrict absolute = net.states.absolute.data();
    const double* const __restrict relative = net.states.relative.data();
    double worst = 0.0;
    for (std::size_t k = 0; k < n; ++k) {
        const double error = std::fabs(kE0 * f0[k] + kE1 * f1[k] + kE2 * f2[k]);
        const double allowed = absolute[k] + relative[k] * std::fabs(y[k]);
        if (!(error <= worst * allowed)) worst = error / allowed;
    }
    return worst * step.h_s;
}

void Stepper::commit() {
    step.t0_s = step.end_s();
    step.h_s = 0.0;
    std::swap(step.begin, step.end);
}

double Stepper::nextStep(double h, double error, bool afterRestart) const {
    if (error < 0.0) return 0.25 * h;
    const double greatest = afterRestart ? 10.0 : 5.0;
    if (error < kKept && error > kLengthened) return h; // same step, same factor
    const double factor = error > 1e-6 ? kAim * portableExp(-portableLog(error) / 3.0) : greatest;
    return std::min(std::max(factor, 0.2), greatest) * h;
}

} // namespace loom::circuit
