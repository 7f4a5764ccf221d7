// SPDX-License-Identifier: MIT
// The public face: keeps a step computed ahead of the caller's time, so that small slices cost only
// an interpolation, and goes back to the caller's time when something is changed by hand.
#include "circuit/circuit.h"

#include "circuit/diagnosis.h"
#include "circuit/readings.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kFirst_s = 1e-5;  // step after a jump
constexpr double kLocate_s = 2e-7; // events lie within this before the end of their step
constexpr double kBeyond_s = 2e-8; // aim this far behind a crossing, so that the step ends past it
constexpr int kLocateIterations = 8, kChainedJumps = 20;

// Keeps a circuit that would not settle from taking for ever: after so many trials within a window
// of time, fewer the larger the network, steps get no shorter than a least one until the window is
// over. No sound bench comes near: Pippin's busiest window takes some 300 of its 20,000.
class Pace {
public:
    void set(std::size_t unknowns) {
        most = std::min(std::max(static_cast<int>(2000000 / (unknowns + 20)), 1000), 20000);
    }

    double shortest_s(double time_s) {
        if (time_s >= windowEnds_s) {
            windowEnds_s = time_s + kWindow_s;
            trials = 0;
        }
        return ++trials > most ? kHurried_s : kShortest_s;
    }

private:
    static constexpr double kWindow_s = 0.01, kHurried_s = 1e-5;
    double windowEnds_s = -1.0;
    int trials = 0, most = 20000;
};

} // namespace

struct Circuit::Impl {
    std::unique_ptr<Network> net;
    std::unique_ptr<Stepper> stepper;
    std::vector<std::pair<Key, std::uint32_t>> byKey; // sorted; first element of a key

    double tolerance = 1.0; // of every error of a step, over the usual
    double now_s = 0.0;
    std::vector<double> y;       // state at jumped_s, valid while `jumped`
    std::vector<double> guess_V; // by branch, from before the jump
    double jumped_s = 0.0;
    bool jumped = true;   // models were changed: the stepper must restart from y
    bool pending = false; // stepper.step holds a step that begins at or before now_s
    double nextStep_s = kFirst_s;
    bool afterRestart = true;
    Pace pace;
    bool unsettled = false;
    Effort effort; // of this network, and in iterations and factorings of those before it

    bool shown = false; // what follows is valid for now_s
    Shown view;
    bool found = false;
    std::vector<Diagnosis> diagnoses;

    Impl(const Netlist& netlist, double scale) : tolerance(scale) {
        take(std::make_unique<Network>(netlist), 0.0);
    }

    // The network as it is from time_s on.
    void take(std::unique_ptr<Network> fresh, double time_s) {
        if (net) {
            effort.iterations += net->iterations;
            effort.factorings += net->factorings;
        }
        stepper.reset();
        net = std::move(fresh);
        stepper = std::make_unique<Stepper>(*net, tolerance);
        pace.set(net->joins.unknowns);
        y = net->states.value;
        guess_V.assign(net->branches.size(), 0.0);
        byKey.clear();
        for (std::uint32_t e = 0; e < net->where.size(); ++e)
            if (net->where[e].placed != Placed::Nowhere)
                byKey.emplace_back(net->netlist.elements[e].key, e);
        std::sort(byKey.begin(), byKey.end());
        jump(time_s);
    }

    // The same parts and what they carry, with the touches that have come about.
    void rebuild(double time_s) {
        const Solution carried = stepper->step.begin;
        auto next = std::make_unique<Network>(net->netlist, net->models.of<Cables>().touches);
        next->carryOver(*net, carried, time_s);
        take(std::move(next), time_s);
    }

    const Where* find(Key key) const {
        const auto at = std::lower_bound(byKey.begin(), byKey.end(), std::make_pair(key, 0u));
        return at == byKey.end() || at->first != key ? nullptr : &net->where[at->second];
    }

    std::uint32_t elementOf(Key key) const {
        return std::lower_bound(byKey.begin(), byKey.end(), std::make_pair(key, 0u))->second;
    }

    Part& specOf(Key key) { return net->netlist.elements[elementOf(key)].part; }

    void jump(double time_s) {
        jumped_s = time_s;
        jumped = true;
        pending = false;
        shown = found = false;
    }

    // From now on the numbers are approximate; diagnoses() has to say so.
    void doubt() {
        if (!unsettled) found = false;
        unsettled = true;
    }

    void restart(std::vector<Event>& events) {
        if (!jumped) return;
        ++effort.restarts;
        stepper->restart(jumped_s, y, guess_V);
        for (int chain = 0; chain < kChainedJumps; ++chain) {
            Step& s = stepper->step;
            if (!net->applyEvents(s.t0_s, s.begin.y, s.begin, events)) break;
            const double time_s = s.t0_s;
            y = s.begin.y;
            guess_V = s.begin.v;
            if (net->models.of<Cables>().outgrown) rebuild(time_s);
            stepper->restart(time_s, y, guess_V);
        }
        jumped = shown = found = false;
        if (!stepper->settled) doubt();
        nextStep_s = kFirst_s;
        afterRestart = true;
    }

    // One accepted step from step.begin, of at most h.
    double accept(double h) {
        for (;;) {
            const double error = stepper->attempt(h);
            const double shortest_s = pace.shortest_s(stepper->step.t0_s);
            const double wanted = stepper->nextStep(h, error, afterRestart);
            if (error >= 0.0 && error <= 1.0) {
                nextStep_s = wanted;
                return h;
            }
            ++effort.rejected;
            const double end = net->extinction(stepper->step);
            if (h <= 1.01 * shortest_s) {
                // Otherwise it is over within that time.
                if (error < 0.0 || shortest_s > kShortest_s) doubt();
                nextStep_s = 2.0 * shortest_s;
                return h;
            }
            h = std::max(std::min(wanted, end * h), shortest_s);
        }
    }

    // A step that ends where the first event in it lies.
    void lookAhead() {
        const double t0 = stepper->step.t0_s;
        double h = std::min(nextStep_s, kLongest_s);
        h = std::min(h, net->nextTimed_s() - t0);
        h = accept(std::max(h, kShortest_s));
        const double suggested = nextStep_s;
        for (int k = 0; k < kLocateIterations; ++k) {
            const double theta = net->firstCrossing(stepper->step);
            if (theta > 1.0 || (1.0 - theta) * h <= kLocate_s) break;
            ++effort.rejected;
            h = accept(std::max(theta * h + kBeyond_s, kShortest_s));
        }
        nextStep_s = std::max(suggested, kShortest_s);
        afterRestart = false;
        pending = true;
    }

    void commit(std::vector<Event>& events) {
        Step& s = stepper->step;
        ++effort.steps;
        const bool dies = net->extinction(s) < 1.0; // its rates are those before: begin anew
        const bool jumps = net->applyEvents(s.end_s(), s.end.y, s.end, events) || dies;
        stepper->commit();
        pending = shown = false;
        if (!jumps) return;
        y = s.begin.y;
        guess_V = s.begin.v;
        const double time_s = s.t0_s;
        jump(time_s);
        if (net->models.of<Cables>().outgrown) rebuild(time_s);
        restart(events);
    }

    void advance(double seconds, std::vector<Event>& events) {
        if (!(seconds > 0.0)) return;
        restart(events);
        const double target_s = now_s + seconds;
        while (pending || stepper->step.t0_s < target_s) {
            if (!pending) lookAhead();
            if (stepper->step.end_s() > target_s) break;
            commit(events);
        }
        now_s = target_s;
        shown = false;
    }

    // Makes now_s the beginning of a step, so that models can be changed there.
    void stopHere() {
        if (jumped) return;
        Step& s = stepper->step;
        if (pending && now_s > s.t0_s + kShortest_s) {
            const double error = stepper->attempt(now_s - s.t0_s);
            if (error < 0.0) doubt();
            stepper->commit();
        }
        pending = false;
        y = s.begin.y;
        guess_V = s.begin.v;
        jump(std::max(now_s, s.t0_s));
    }

    // Where now_s lies in the step at hand; 0 when there is none.
    double theta() const {
        const Step& s = stepper->step;
        return pending ? std::min(std::max((now_s - s.t0_s) / s.h_s, 0.0), 1.0) : 0.0;
    }

    const Shown& show() {
        if (shown) return view;
        if (jumped) stepper->restart(jumped_s, y, guess_V); // a look only: advance() restarts again
        view.fill(*net, stepper->step, theta());
        shown = true;
        return view;
    }
};

Circuit::Circuit(const Netlist& netlist, double tolerance)
    : impl(std::make_unique<Impl>(netlist, tolerance)) {}

Circuit::~Circuit() = default;
Circuit::Circuit(Circuit&&) noexcept = default;
Circuit& Circuit::operator=(Circuit&&) noexcept = default;

void Circuit::rewire(const Netlist& netlist) {
    impl->stopHere();
    Solution carried = impl->stepper->step.begin;
    carried.y = impl->y;
    const Network& old = *impl->net;
    auto next = std::make_unique<Network>(
        netlist, touchesKept(old.models.of<Cables>().touches, old.netlist, netlist));
    next->carryOver(old, carried, impl->now_s);
    impl->unsettled = false;
    impl->take(std::move(next), impl->now_s);
}

void Circuit::setContact(Key key, bool closed) {
    const Where* w = impl->find(key);
    if (w == nullptr || !w->isIn<Contacts>()) return;
    ContactPart& contact = impl->net->models.of<Contacts>().all[w->entry.index];
    if (contact.gap.closed() == closed) return;
    impl->stopHere();
    contact.move(closed, impl->stepper->step.begin.i[contact.branch], impl->now_s);
    std::get<Contact>(impl->specOf(key)).closed = closed;
    impl->shown = impl->found = false;
}

void Circuit::setJammed(Key key, bool jammed) {
    const Where* w = impl->find(key);
    if (w == nullptr || !w->isIn<Motors>()) return;
    MotorPart& m = impl->net->models.of<Motors>().all[w->entry.index];
    if (m.jammed == jammed) return;
    impl->stopHere();
    m.jammed = jammed;
    std::get<Motor>(impl->specOf(key)).jammed = jammed;
    if (jammed) {
        m.turning = 0;
        impl->y[m.speed] = 0.0;
    }
    impl->shown = impl->found = false;
}

void Circuit::advance(double seconds, std::vector<Event>& events) {
    impl->advance(seconds, events);
}

double Circuit::time_s() const {
    return impl->now_s;
}

Reading Circuit::reading(Key key) const {
    const Where* w = impl->find(key);
    if (w == nullptr) return {};
    return impl->show().reading(*impl->net, *w, impl->elementOf(key));
}

std::optional<double> Circuit::voltage_V(Node a, Node b) const {
    if (a >= impl->net->netlist.nodeCount || b >= impl->net->netlist.nodeCount) return {};
    return impl->show().voltage_V(*impl->net, a, b);
}

const std::vector<Diagnosis>& Circuit::diagnoses() const {
    if (!impl->found) {
        impl->show();
        impl->diagnoses = explain(*impl->net, impl->unsettled);
        impl->found = true;
    }
    return impl->diagnoses;
}

bool Circuit::quiet() const {
    if (impl->net->nextTimed_s() < 1e200) return false;
    if (impl->jumped) impl->show(); // looks what follows from the jump
    return nothingToSee(*impl->net, impl->stepper->step, impl->theta());
}

std::uint64_t Circuit::stateHash() const {
    const Step& s = impl->stepper->step;
    Hash hash;
    hash.add(impl->now_s);
    hash.add(impl->jumped ? impl->jumped_s : s.t0_s);
    hash.add(impl->jumped ? 0.0 : s.h_s);
    for (double value : impl->jumped ? impl->y : s.begin.y)
        hash.add(value);
    impl->net->models.each(HashOrder{}, [&](const auto& model) { model.addTo(hash); });
    return hash.value();
}

Effort Circuit::effort() const {
    Effort all = impl->effort;
    all.iterations += impl->net->iterations;
    all.factorings += impl->net->factorings;
    return all;
}

} // namespace loom::circuit
