// SPDX-License-Identifier: MIT
#include "circuit/stepper.h"

#include "circuit/portable_math.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kGamma = 0.58578643762690495120; // 2 - sqrt 2
constexpr double kD = kGamma / 2.0;
constexpr double kW = 0.35355339059327376220; // sqrt 2 / 4
constexpr double kE0 = (1.0 - kW) / 3.0 - kW, kE1 = 1.0 / 3.0, kE2 = kD / 3.0 - kD;

void size(Point& p, std::size_t states, std::size_t branches, std::size_t unknowns) {
    p.volts.assign(unknowns, 0.0);
    p.y.assign(states, 0.0);
    p.f.assign(states, 0.0);
    p.v.assign(branches, 0.0);
    p.i.assign(branches, 0.0);
}

} // namespace

double Step::state(std::uint32_t k, double theta) const {
    const double s = 1.0 - theta;
    const double y0 = begin.y[k], y1 = end.y[k];
    return s * s * (1.0 + 2.0 * theta) * y0 + theta * theta * (3.0 - 2.0 * theta) * y1 +
           h_s * theta * s * (s * begin.f[k] - theta * end.f[k]);
}

Parabola::Parabola(double theta)
    : begin((theta - kGamma) * (theta - 1.0) / kGamma),
      middle(theta * (theta - 1.0) / (kGamma * (kGamma - 1.0))),
      end(theta * (theta - kGamma) / (1.0 - kGamma)) {}

double Step::current(std::uint32_t k, double theta) const {
    const Parabola p(theta);
    return p.begin * begin.i[k] + p.middle * middle.i[k] + p.end * end.i[k];
}

Stepper::Stepper(Network& network) : net(network) {
    const std::size_t states = net.states.value.size(), branches = net.branches.size(),
                      unknowns = net.joins.unknowns;
    size(step.begin, states, branches, unknowns);
    size(step.middle, states, branches, unknowns);
    size(step.end, states, branches, unknowns);
    base.assign(states, 0.0);
}

bool Stepper::solve(double a_s, double time_s, Point& p) {
    const bool agreed = net.stage(a_s, time_s, base.data(), p.y.data(), p.f.data());
    std::copy(net.branches.v.begin(), net.branches.v.end(), p.v.begin());
    std::copy(net.branches.i.begin(), net.branches.i.end(), p.i.begin());
    std::copy(net.volts_V.begin(), net.volts_V.end(), p.volts.begin());
    return agreed;
}

void Stepper::restart(double time_s, const std::vector<double>& y) {
    step.t0_s = time_s;
    step.h_s = 0.0;
    std::copy(y.begin(), y.end(), step.begin.y.begin());
    settled = true;
    net.forgetGuesses();
    for (int k = 0; k < 2; ++k) {
        base = step.begin.y;
        step.t0_s += kShortest_s;
        settled = solve(kShortest_s, step.t0_s, step.begin) && settled;
    }
}

double Stepper::attempt(double h) {
    step.h_s = h;
    const Point& b = step.begin;
    Point &m = step.middle, &e = step.end;
    const std::size_t n = base.size();
    for (std::size_t k = 0; k < n; ++k) {
        base[k] = b.y[k] + h * kD * b.f[k];
        m.y[k] = b.y[k] + h * kGamma * b.f[k];
    }
    settled = solve(kD * h, step.t0_s + kGamma * h, m);
    if (!settled) return -1.0;
    for (std::size_t k = 0; k < n; ++k) {
        base[k] = b.y[k] + h * kW * (b.f[k] + m.f[k]);
        e.y[k] = b.y[k] + h * (b.f[k] + (m.f[k] - b.f[k]) * (0.5 / kGamma));
    }
    settled = solve(kD * h, step.t0_s + h, e);
    return settled ? errorNorm() : -1.0;
}

double Stepper::errorNorm() const {
    const States& s = net.states;
    double worst = 0.0;
    for (std::size_t k = 0; k < base.size(); ++k) {
        if (s.absolute[k] == 0.0) continue;
        const double error = step.h_s * std::fabs(kE0 * step.begin.f[k] + kE1 * step.middle.f[k] +
                                                  kE2 * step.end.f[k]);
        const double ratio = error / (s.absolute[k] + s.relative[k] * std::fabs(step.end.y[k]));
        if (!(ratio <= worst)) worst = ratio;
    }
    return worst;
}

void Stepper::commit() {
    step.t0_s = step.end_s();
    step.h_s = 0.0;
    std::swap(step.begin, step.end);
}

double Stepper::nextStep(double h, double error, bool afterRestart) const {
    if (error < 0.0) return 0.25 * h;
    const double greatest = afterRestart ? 10.0 : 5.0;
    double factor = error > 1e-6 ? 0.9 * portableExp(-portableLog(error) / 3.0) : greatest;
    factor = std::min(std::max(factor, 0.2), greatest);
    if (factor > 1.0 && factor < 1.2) factor = 1.0; // same step, same factor
    return factor * h;
}

} // namespace loom::circuit
