// SPDX-License-Identifier: MIT
#include "circuit/readings.h"

#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kFewDigits = 1e-6;

void mix(const std::vector<double>& begin,
         const std::vector<double>& middle,
         const std::vector<double>& end,
         const Parabola& p,
         std::vector<double>& out) {
    out.resize(begin.size());
    for (std::size_t k = 0; k < out.size(); ++k)
        out[k] = p.begin * begin[k] + p.middle * middle[k] + p.end * end[k];
}

} // namespace

void Shown::fill(Network& net, const Step& s, double theta) {
    if (theta <= 0.0) {
        v = s.begin.v;
        i = s.begin.i;
        volts = s.begin.volts_V;
        y = s.begin.y;
    } else {
        const Parabola p(theta);
        mix(s.begin.v, s.middle.v, s.end.v, p, v);
        mix(s.begin.i, s.middle.i, s.end.i, p, i);
        mix(s.begin.volts_V, s.middle.volts_V, s.end.volts_V, p, volts);
        y.resize(s.begin.y.size());
        for (std::uint32_t k = 0; k < y.size(); ++k)
            y[k] = s.state(k, theta);
    }
    net.balance(i);
    // What only resists gets its voltage from its current: across little resistance the difference of
    // two node voltages has lost its digits.
    const Branches& br = net.branches;
    for (std::uint32_t k = 0; k < v.size(); ++k) {
        const double between_V = std::fabs(volts[br.a[k]]) + std::fabs(volts[br.b[k]]);
        if (std::fabs(v[k]) < kFewDigits * between_V && net.onlyResists(k)) v[k] = i[k] / br.g[k];
    }
    net.recoverIdealCurrents(i, idealCurrent_A);
    island = net.islands();
}

Reading Shown::reading(const Network& net, const Where& w, std::uint32_t element) const {
    Reading r;
    r.temp_K = net.netlist.ambient_K;
    if (w.placed == Placed::Tree) {
        const auto* source = std::get_if<VoltageSource>(&net.netlist.elements[element].part);
        r.voltage_V = source == nullptr ? 0.0 : source->emf_V;
        r.current_A = idealCurrent_A[w.entry.index];
    } else {
        r.voltage_V = v[w.entry.branch];
        r.current_A = i[w.entry.branch];
    }
    r.power_W = r.voltage_V * r.current_A;
    if (w.placed != Placed::Model) return r;
    const View view{net.models, y.data(), i.data()};
    net.models.at(w.model, [&](const auto& model) { model.read(view, w.entry.index, r); });
    return r;
}

std::optional<double> Shown::voltage_V(const Network& net, Node a, Node b) const {
    if (island[a] != island[b]) return {};
    const Joins& j = net.joins;
    return (volts[j.unknown[a]] - volts[j.unknown[b]]) + (j.offset_V[a] - j.offset_V[b]);
}

bool nothingToSee(const Network& net, const Step& s, double theta) {
    constexpr double kNothing_A = 1e-3;
    const bool atBegin = theta <= 0.0;
    for (std::uint32_t k = 0; k < net.branches.size(); ++k)
        if (!(std::fabs(atBegin ? s.begin.i[k] : s.current(k, theta)) < kNothing_A)) return false;
    const Activity now{s, theta, net.netlist.ambient_K};
    bool active = false;
    net.models.each([&](const auto& model) { active = active || model.active(now); });
    return !active;
}

} // namespace loom::circuit
