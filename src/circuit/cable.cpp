// SPDX-License-Identifier: MIT
#include "circuit/cable.h"

#include "circuit/models.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

// For a stage of weight a, with rises t, s over ambient and base rises t0, s0:
//   (Cc + a Gi) t - a Gi s = Cc t0 + a P,   -a Gi t + (Cs + a (Gi + Go)) s = Cs s0,
// solved for  t = fromConductor t0 + fromSleeve s0 + fromHeat i^2 (R over cold R),
//             s = sleeveStays s0 + sleeveFollows t.
void prepare(Cables& c, double a) {
    if (c.preparedFor_s == a) return;
    c.preparedFor_s = a;
    for (std::size_t k = 0; k < c.size(); ++k) {
        const CableValues& v = c.all[k];
        const double m12 = a * v.inner_W_per_K, m11 = v.heatConductor_J_per_K + m12;
        const double m22 = v.heatSleeve_J_per_K + m12 + a * v.outer_W_per_K;
        const double perDet = 1.0 / (m11 * m22 - m12 * m12), perM22 = 1.0 / m22;
        c.fromConductor[k] = m22 * perDet * v.heatConductor_J_per_K;
        c.fromSleeve[k] = m12 * perDet * v.heatSleeve_J_per_K;
        c.fromHeat_K_per_A2[k] = m22 * perDet * a * v.copper_ohm;
        c.sleeveStays[k] = v.heatSleeve_J_per_K * perM22;
        c.sleeveFollows[k] = m12 * perM22;
    }
}

double wornEnds_ohm(const Cables& c, std::size_t cable, const double* y) {
    double r = 0.0;
    for (const EndPart& e : c.ends)
        if (e.cable == cable) r += e.resistance(y);
    return r;
}

// Stamps cable k for the temperatures and ends of y.
void restamp(Cables& c, std::size_t k, const double* y, double worn_ohm) {
    const double copper = c.all[k].copper_ohm * copperFactor(y[c.conductor(k)]);
    c.stampedAt_K[k] = y[c.conductor(k)];
    c.stamped_ohm[k] = copper + c.all[k].soundEnds_ohm + worn_ohm;
    c.stamped_S[k] = 1.0 / c.stamped_ohm[k];
}

double greatest(const double* x, std::size_t n) {
    double worst[4] = {0.0, 0.0, 0.0, 0.0}; // four chains, which run side by side
    std::size_t k = 0;
    for (; k + 4 <= n; k += 4)
        for (std::size_t m = 0; m < 4; ++m)
            worst[m] = x[k + m] > worst[m] ? x[k + m] : worst[m];
    for (; k < n; ++k)
        worst[0] = x[k] > worst[0] ? x[k] : worst[0];
    for (std::size_t m = 1; m < 4; ++m)
        worst[0] = worst[m] > worst[0] ? worst[m] : worst[0];
    return worst[0];
}

// A cable whose ends wear is stamped anew at every stage; there are few.
void stampWorn(Cables& c, Stage& s) {
    for (const EndPart& e : c.ends) {
        restamp(c, e.cable, s.y, wornEnds_ohm(c, e.cable, s.y));
        s.g[c.branch(e.cable)] = c.stamped_S[e.cable];
    }
}

void stampMoved(Cables& c, Stage& s) {
    const std::size_t n = c.size();
    const double* const __restrict t = s.y + c.firstConductor;
    const double* const __restrict at = c.stampedAt_K.data();
    double* const __restrict off = c.off_K.data();
    for (std::size_t k = 0; k < n; ++k)
        off[k] = std::fabs(t[k] - at[k]);
    const double most_K = s.staleRelative / kCopperPerK;
    if (greatest(off, n) <= most_K) return;
    for (std::size_t k = 0; k < n; ++k) {
        if (!(off[k] > most_K)) continue;
        restamp(c, k, s.y, 0.0);
        s.g[c.branch(k)] = c.stamped_S[k];
    }
}

void heatEnds(const Cables& c, Stage& s) {
    constexpr double kHeat_J_per_K = 12.0, kLoss_W_per_K = 0.15, kWear_J = 400.0;
    for (const EndPart& e : c.ends) {
        const double before_ohm = e.resistance(s.y);
        const double i = s.i[c.branch(e.cable)], p = i * i * before_ohm;
        const double a = s.a_s / kHeat_J_per_K;
        const double rise =
            (s.base[e.temperature] - s.ambient_K + a * p) / (1.0 + a * kLoss_W_per_K);
        s.y[e.temperature] = s.ambient_K + rise;
        s.f[e.temperature] = (p - kLoss_W_per_K * rise) / kHeat_J_per_K;
        s.f[e.wear] = e.loose ? p / kWear_J : 0.0;
        s.y[e.wear] = s.base[e.wear] + s.a_s * s.f[e.wear];
        const double stamped_ohm = c.stamped_ohm[e.cable];
        s.compare(stamped_ohm + e.resistance(s.y) - before_ohm, stamped_ohm);
    }
}

// Arrays come in as parameters where only there the compiler takes it from us that they lie apart.
struct Surroundings {
    double perA_s, ambient_K, factor; // 1/s; the last: copperFactor of the ambient
};

// off_K: how far the temperatures found are from those expected, which y holds before.
void heatConductors(std::size_t n,
                    const Surroundings& at,
                    const double* __restrict current_A,
                    const double* __restrict fromConductor,
                    const double* __restrict fromSleeve,
                    const double* __restrict fromHeat_K_per_A2,
                    const double* __restrict base,
                    const double* __restrict sleeveBase,
                    double* __restrict y,
                    double* __restrict f,
                    double* __restrict off_K) {
    const double ambient = at.ambient_K, factor = at.factor, perA = at.perA_s;
    for (std::size_t k = 0; k < n; ++k) {
        const double t0 = base[k] - ambient, s0 = sleeveBase[k] - ambient;
        const double still = fromConductor[k] * t0 + fromSleeve[k] * s0;
        // Heats by the resistance at the temperature found, not the one stamped: two rounds.
        const double cold_K = fromHeat_K_per_A2[k] * (current_A[k] * current_A[k]);
        const double almost = still + cold_K * (factor + kCopperPerK * (y[k] - ambient));
        const double t = still + cold_K * (factor + kCopperPerK * almost);
        off_K[k] = std::fabs(ambient + t - y[k]);
        y[k] = ambient + t;
        f[k] = (t - t0) * perA;
    }
}

void heatSleeves(std::size_t n,
                 const Surroundings& at,
                 const double* __restrict stays,
                 const double* __restrict follows,
                 const double* __restrict base,
                 const double* __restrict conductor,
                 double* __restrict y,
                 double* __restrict f) {
    const double ambient = at.ambient_K, perA = at.perA_s;
    for (std::size_t k = 0; k < n; ++k) {
        const double s0 = base[k] - ambient;
        const double rise = stays[k] * s0 + follows[k] * (conductor[k] - ambient);
        y[k] = ambient + rise;
        f[k] = (rise - s0) * perA;
    }
}

// Both heat equations of every cable.
void heatAll(Cables& c, Stage& s) {
    const std::uint32_t t = c.firstConductor, sl = c.firstSleeve;
    const double factor = 1.0 + kCopperPerK * (s.ambient_K - kReference_K);
    const Surroundings at{1.0 / s.a_s, s.ambient_K, factor};
    heatConductors(c.size(),
                   at,
                   s.i + c.firstBranch,
                   c.fromConductor.data(),
                   c.fromSleeve.data(),
                   c.fromHeat_K_per_A2.data(),
                   s.base + t,
                   s.base + sl,
                   s.y + t,
                   s.f + t,
                   c.off_K.data());
    heatSleeves(c.size(),
                at,
                c.sleeveStays.data(),
                c.sleeveFollows.data(),
                s.base + sl,
                s.y + t,
                s.y + sl,
                s.f + sl);
}

// A parted cable only cools: what its arc gives out is left out.
void coolParted(Cables& c, std::size_t k, Stage& s) {
    const double t0 = s.base[c.conductor(k)] - s.ambient_K;
    const double s0 = s.base[c.sleeve(k)] - s.ambient_K;
    const double t = c.fromConductor[k] * t0 + c.fromSleeve[k] * s0;
    const double sl = c.sleeveStays[k] * s0 + c.sleeveFollows[k] * t;
    s.y[c.conductor(k)] = s.ambient_K + t;
    s.y[c.sleeve(k)] = s.ambient_K + sl;
    s.f[c.conductor(k)] = (t - t0) / s.a_s;
    s.f[c.sleeve(k)] = (sl - s0) / s.a_s;
    c.off_K[k] = 0.0;
}

// Takes back the error of a run of states that begins at first, as correctedShare() says.
void correctRun(const StepRates& rates,
                std::uint32_t first,
                const std::vector<double>& shares,
                double* states) {
    const double* const __restrict f0 = rates.begin + first;
    const double* const __restrict f1 = rates.middle + first;
    const double* const __restrict f2 = rates.end + first;
    const double* const __restrict share = shares.data();
    double* const __restrict y = states + first;
    const double w0 = rates.perBegin_s, w1 = rates.perMiddle_s, w2 = rates.perEnd_s;
    const std::size_t n = shares.size();
    for (std::size_t k = 0; k < n; ++k)
        y[k] += (w0 * f0[k] + w1 * f1[k] + w2 * f2[k]) * share[k];
}

void prepareShares(Cables& c, double h) {
    if (c.sharedFor_s == h) return;
    c.sharedFor_s = h;
    for (std::size_t k = 0; k < c.size(); ++k) {
        c.share1[k] = 1.0 / (1.0 + c.holds1_per_s2[k] * (h * h));
        c.share2[k] = 1.0 / (1.0 + c.holds2_per_s2[k] * (h * h));
    }
}

// kHolds times the square of the rate at which a temperature forgets.
double holds_per_s2(double loss_W_per_K, double heat_J_per_K) {
    const double rate_per_s = loss_W_per_K / heat_J_per_K;
    return kHolds * rate_per_s * rate_per_s;
}

EventKind sleeveEvent(SleeveState s) {
    return s == SleeveState::Softened  ? EventKind::SleeveSoftened
           : s == SleeveState::Smoking ? EventKind::SleeveSmoking
                                       : EventKind::SleeveBurning;
}

void reportEnd(EndPart& e, Key cable, double i, Instant& now) {
    const double t = now.y[e.temperature];
    if (!e.hotReported && t >= kEndHot_K) {
        e.hotReported = true;
        now.add(EventKind::JointHot, cable, i, t);
    }
    if (e.hotReported && t < kEndHot_K - 20.0) e.hotReported = false;
}

// Cable k burns: its copper comes to lie on its neighbour's.
bool touchNeighbour(Cables& c, std::size_t k, double current_A, Instant& now) {
    if (c.neighbour[k] < 0) return false;
    const auto other = static_cast<std::size_t>(c.neighbour[k]);
    c.touches.push_back(
        {c.key[k], c.key[other], current_A >= 0.0, now.at.i[c.branch(other)] >= 0.0});
    c.outgrown = true;
    now.add(EventKind::CableTouched, c.key[k], current_A);
    return true;
}

// Cable k has reached the temperature of its next event.
bool applyHeat(Cables& c, std::size_t k, Instant& now) {
    const double i = now.at.i[c.branch(k)], t = now.y[c.conductor(k)];
    bool touched = false;
    while (c.state[k] != SleeveState::Burning && t >= c.nextEvent_K[k]) {
        c.setState(k, static_cast<SleeveState>(static_cast<int>(c.state[k]) + 1));
        now.add(sleeveEvent(c.state[k]), c.key[k], i, t);
        if (c.state[k] == SleeveState::Burning) touched = touchNeighbour(c, k, i, now);
    }
    if (t < kCopperMelts_K || !c.parted[k].closed()) return touched;
    now.add(EventKind::CableParted, c.key[k], i, t);
    openGap(c.parted[k], i, now.time_s);
    c.part(k);
    return true;
}

} // namespace

bool Cables::valid(const Cable& spec) {
    return within(spec.length_m, 1e-4, 1e5) && within(spec.area_m2, 1e-9, 0.1) &&
           within(spec.sleeveLimit_K, 1.0, 1e4) && validOhms(spec.endA.resistance_ohm) &&
           validOhms(spec.endB.resistance_ohm);
}

Entry Cables::add(const Cable& spec, Key ofCable, Builder& b) {
    const CableValues v = cableValues(spec);
    const std::uint32_t at = b.branch(spec.a, spec.b);
    if (all.empty()) firstBranch = at;
    all.push_back(v);
    key.push_back(ofCable);
    touchesKey.push_back(spec.neighbour);
    holds1_per_s2.push_back(holds_per_s2(v.inner_W_per_K, v.heatConductor_J_per_K));
    holds2_per_s2.push_back(holds_per_s2(v.inner_W_per_K + v.outer_W_per_K, v.heatSleeve_J_per_K));
    state.push_back(SleeveState::Sound);
    nextEvent_K.push_back(0.0);
    parted.emplace_back();
    neighbour.push_back(-1);
    for (std::vector<double>* each : {&stamped_ohm,
                                      &stamped_S,
                                      &stampedAt_K,
                                      &off_K,
                                      &fromConductor,
                                      &fromSleeve,
                                      &fromHeat_K_per_A2,
                                      &sleeveStays,
                                      &sleeveFollows,
                                      &share1,
                                      &share2})
        each->push_back(0.0);
    const std::uint32_t k = lastIndex(all);
    setState(k, SleeveState::Sound);
    for (const Joint* made : {&spec.endA, &spec.endB})
        if (ownModel(*made)) ends.push_back({k, made->resistance_ohm, made->loose});
    if (spec.parted) {
        parted[k].phase = GapPhase::Open;
        part(k);
    }
    return {k, at};
}

void Cables::addConstant(Builder& b) {
    std::vector<Touch> kept;
    for (const Touch& t : touches) {
        const Cable *one = b.find<Cable>(t.cable), *other = b.find<Cable>(t.neighbour);
        if (one == nullptr || other == nullptr || one->neighbour != t.neighbour) continue;
        b.branch(t.atB ? one->b : one->a, t.neighbourAtB ? other->b : other->a, 1.0 / kTouch_ohm);
        kept.push_back(t);
    }
    touches = std::move(kept);
}

void Cables::endRun(Builder& b) {
    firstConductor = b.temperatures(size());
    for (EndPart& e : ends) {
        e.temperature = b.temperatures(1);
        e.wear = b.states.add(0.0, 1e-5, 1e-5);
    }
    for (std::size_t k = 0; k < size(); ++k)
        for (std::size_t other = 0; touchesKey[k] != 0 && other < size(); ++other)
            if (other != k && key[other] == touchesKey[k])
                neighbour[k] = static_cast<std::int32_t>(other);
}

// A sleeve follows its conductor, more smoothly: it needs no control of its own.
void Cables::addUncontrolled(Builder& b) {
    firstSleeve = b.temperatures(size());
}

void Cables::part(std::size_t k) {
    apart.push_back(static_cast<std::uint32_t>(k));
    setState(k, state[k]);
}

void Cables::setState(std::size_t k, SleeveState now) {
    state[k] = now;
    const double never_K = 1e30;
    if (now == SleeveState::Burning)
        nextEvent_K[k] = parted[k].closed() ? kCopperMelts_K : never_K;
    else
        nextEvent_K[k] = sleeveThreshold_K(all[k].limit_K, static_cast<SleeveState>(int(now) + 1));
}

void Cables::restart(const double* y, const double*) {
    Cables& c = *this;
    for (Gap& gap : parted)
        gap.side = 0;
    for (std::size_t k = 0; k < c.size(); ++k)
        restamp(c, k, y, 0.0);
    for (const EndPart& e : c.ends)
        restamp(c, e.cable, y, wornEnds_ohm(c, e.cable, y));
    c.fresh = true;
}

void Cables::stamp(Stage& s) {
    Cables& c = *this;
    if (c.fresh)
        std::copy(c.stamped_S.begin(), c.stamped_S.end(), s.g + c.firstBranch);
    else if (s.first)
        stampMoved(c, s);
    if (s.first) stampWorn(c, s);
    c.fresh = false;
    for (const std::uint32_t k : c.apart)
        stampGap(c.parted[k], c.branch(k), s);
}

void Cables::updateBranches(Stage& s) {
    Cables& c = *this;
    const double* const __restrict g = s.g + c.firstBranch;
    const double* const __restrict v = s.v + c.firstBranch;
    double* const __restrict i = s.i + c.firstBranch;
    const std::size_t n = c.size();
    for (std::size_t k = 0; k < n; ++k)
        i[k] = g[k] * v[k];
    for (const std::uint32_t k : c.apart)
        updateGap(c.parted[k], c.branch(k), s);
}

void Cables::updateTemperatures(Stage& s, const Models&) {
    Cables& c = *this;
    prepare(c, s.a_s);
    heatAll(c, s);
    for (const std::uint32_t k : c.apart)
        coolParted(c, k, s);
    const double drift = greatest(c.off_K.data(), c.size()) * kCopperPerK / s.driftRelative;
    if (!(drift <= s.drift)) s.drift = drift;
    heatEnds(c, s);
}

void Cables::correct(double h, const StepRates& rates, double* y) {
    prepareShares(*this, h);
    correctRun(rates, firstConductor, share1, y);
    correctRun(rates, firstSleeve, share2, y);
}

void Cables::markSilent(std::vector<char>& silent) const {
    for (std::size_t k = 0; k < size(); ++k)
        silent[branch(k)] = parted[k].closed();
}

int Cables::sparks() const {
    int count = 0;
    for (const std::uint32_t k : apart)
        count += parted[k].side != 0;
    return count;
}

void Cables::findExtinction(Extinction& first) const {
    for (const std::uint32_t k : apart)
        first.gap(parted[k], branch(k));
}

void Cables::findCrossings(Crossings& first) const {
    const double *const t = first.step.end.y.data() + firstConductor, *const next_K =
                                                                          nextEvent_K.data();
    for (std::size_t k = 0, n = size(); k < n; ++k)
        if (t[k] >= next_K[k]) first.rise(conductor(k), next_K[k]);
    for (const EndPart& e : ends)
        if (!e.hotReported) first.rise(e.temperature, kEndHot_K);
    for (const std::uint32_t k : apart)
        first.arc(parted[k], branch(k));
}

bool Cables::applyEvents(Instant& now) {
    bool jumped = false;
    const double* const t = now.y.data() + firstConductor;
    for (std::size_t k = 0; k < size(); ++k)
        if (t[k] >= nextEvent_K[k]) jumped = applyHeat(*this, k, now) || jumped;
    for (const std::uint32_t k : apart)
        jumped = now.endArc(parted[k], branch(k)) || jumped;
    for (EndPart& e : ends)
        reportEnd(e, key[e.cable], now.at.i[branch(e.cable)], now);
    return jumped;
}

void Cables::carryOver(const Carry& c) {
    const Cables& from = c.from.of<Cables>();
    c.copy(from.conductor(c.was), conductor(c.is));
    c.copy(from.sleeve(c.was), sleeve(c.is));
    setState(c.is, from.state[c.was]);
    if (!from.parted[c.was].closed()) {
        if (parted[c.is].closed()) part(c.is);
        parted[c.is] = from.parted[c.was];
    }
    // The ends with models of their own, matched in order.
    std::size_t end = 0;
    for (EndPart& e : ends) {
        if (e.cable != c.is) continue;
        while (end < from.ends.size() && from.ends[end].cable != c.was)
            ++end;
        if (end == from.ends.size()) return;
        c.copy(from.ends[end].temperature, e.temperature, 2);
        e.hotReported = from.ends[end++].hotReported;
    }
}

void Cables::addTo(Hash& hash) const {
    for (std::size_t k = 0; k < size(); ++k) {
        parted[k].addTo(hash);
        hash.add(static_cast<std::uint64_t>(state[k]));
    }
    for (const Touch& t : touches) {
        hash.add(static_cast<std::uint64_t>(t.cable));
        hash.add(static_cast<std::uint64_t>(t.neighbour));
    }
}

void Cables::read(const View& view, std::uint32_t index, Reading& r) const {
    r.temp_K = view.y[conductor(index)];
    r.open = !parted[index].closed();
}

bool Cables::active(const Activity& now) const {
    for (std::size_t k = 0; k < size(); ++k)
        if (now.warm(conductor(k)) || now.warm(sleeve(k))) return true;
    for (const EndPart& e : ends)
        if (now.warm(e.temperature)) return true;
    return false;
}

std::vector<Touch>
touchesKept(const std::vector<Touch>& touches, const Netlist& was, const Netlist& now) {
    const auto cableOf = [](const Netlist& in, Key key) -> const Cable* {
        for (const Element& e : in.elements)
            if (e.key == key) return std::get_if<Cable>(&e.part);
        return nullptr;
    };
    std::vector<Touch> kept;
    for (const Touch& t : touches) {
        bool lasts = true;
        for (const Key key : {t.cable, t.neighbour}) {
            const Cable *older = cableOf(was, key), *newer = cableOf(now, key);
            lasts =
                lasts && older != nullptr && newer != nullptr && !(older->parted && !newer->parted);
        }
        if (lasts) kept.push_back(t);
    }
    return kept;
}

} // namespace loom::circuit
