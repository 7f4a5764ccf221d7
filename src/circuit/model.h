// SPDX-License-Identifier: MIT
// What a kind of element can do in a network. Each kind is a struct derived from Model<its element of
// the netlist, what it keeps of one>; it has valid() and, unless it is ideal, add(), and of the rest
// what differs from the defaults here, which do nothing. The list of all kinds is models.h: the
// network, the stepper and the rest go through it and know no kind by name.
//
// To add a kind: its element in netlist.h, its model in a file of its own, its line in models.h.
#pragma once

#include "circuit/builder.h"
#include "circuit/events.h"
#include "circuit/hash.h"
#include "circuit/reading.h"
#include "circuit/stage.h"

#include <cmath>
#include <optional>

namespace loom::circuit {

class Models;

// When the builder places the elements of a kind. Branches whose conductance and current never change
// come first.
enum class Placing {
    Ideal,    // as an ideal join (joins.h) only
    Constant, // branches that never change
    InRun,    // before the others, so that their branches follow one another
    Moving    // in the order of the netlist
};

// What an element takes over when the network around it is changed.
struct Carry {
    const Models& from;     // the older network's
    const Solution& then;   // its states and currents at now_s
    Models& to;             // the newer network's
    std::vector<double>& y; // its states
    double now_s = 0.0;
    std::uint32_t was = 0, is = 0; // index among its kind, in the older and in the newer

    void copy(std::uint32_t older, std::uint32_t newer, std::uint32_t count = 1) const {
        for (std::uint32_t k = 0; k < count; ++k)
            y[newer + k] = then.y[older + k];
    }
};

// What is shown at one time.
struct View {
    const Models& models;
    const double *y, *i; // by state, by branch
};

// Whether anything can be seen to change at theta of a step.
struct Activity {
    const Step& step;
    double theta = 0.0, ambient_K = 293.15;

    double state(std::uint32_t k) const {
        return theta <= 0.0 ? step.begin.y[k] : step.state(k, theta);
    }

    bool warm(std::uint32_t k) const {
        constexpr double kNothing_K = 0.5;
        return !(std::fabs(state(k) - ambient_K) < kNothing_K);
    }

    // A current or a voltage about to build up, though next to nothing yet, as right after a contact
    // closed on a coil.
    bool builds(std::uint32_t k) const {
        constexpr double kNothing_per_s = 0.1; // A/s, V/s
        if (!(std::fabs(step.begin.f[k]) < kNothing_per_s)) return true;
        return theta > 0.0 && !(std::fabs(step.end.f[k]) < kNothing_per_s);
    }
};

template <class ElementOfNetlist, class Part> struct Model {
    using Spec = ElementOfNetlist;

    std::vector<Part> all;

    // Of an element by itself.
    // bool valid(const Spec&): its values make sense. It is an open circuit otherwise.
    static std::vector<Node> nodes(const Spec& spec) { return {spec.a, spec.b}; }

    static constexpr Placing kPlacing = Placing::Moving;

    // When it is an ideal join: the voltage of its first node against its second.
    static std::optional<double> ideal_V(const Spec&) { return {}; }

    // A current or a voltage comes from it.
    static bool feeds(const Spec&) { return false; }

    // A fresh one was put in the place of a spent one of the same key.
    static bool replaced(const Spec&, const Spec&) { return false; }

    // Building. Entry add(const Spec&, Key, Builder&); then, once all that is constant is there, what
    // the kind adds of its own; once all of a run are there; once all elements are there, states
    // that need no error control.
    void addConstant(Builder&) {}

    void endRun(Builder&) {}

    void addUncontrolled(Builder&) {}

    // A stage of a step (stage.h). restart() forgets what was solved before and stamps exactly from
    // states y; branch voltages v are where to begin to look. Temperatures come after the branches
    // agree.
    void restart(const double*, const double*) {}

    void stamp(Stage&) {}

    void updateBranches(Stage&) {}

    void updateTemperatures(Stage&, const Models&) {}

    // Takes back the error of a step of h_s from states y at its end (Creeping, stage.h).
    void correct(double, const StepRates&, double*) {}

    // Which branches are plain conductances now, by branch.
    void markSilent(std::vector<char>&) const {}

    // How many conduct across an opening or an insulation.
    int sparks() const { return 0; }

    // Events: see events.h. apply() says whether the network jumped; nextTimed_s() is when something
    // happens by itself.
    void findExtinction(Extinction&) const {}

    void findCrossings(Crossings&) const {}

    bool applyEvents(Instant&) { return false; }

    double nextTimed_s() const { return 1e300; }

    // Between networks, and outward.
    void carryOver(const Carry&) {}

    void addTo(Hash&) const {} // what it remembers beside its states

    void read(const View&, std::uint32_t, Reading&) const {}

    bool active(const Activity&) const { return false; }

    void contradicting(std::vector<Key>&) const {} // whose law cannot be met
};

// A kind whose elements open by a gap (gap.h): `gap` and `branch` are members of Part.
template <class ElementOfNetlist, class Part> struct GapModel : Model<ElementOfNetlist, Part> {
    int sparks() const {
        int count = 0;
        for (const Part& p : this->all)
            count += p.gap.side != 0;
        return count;
    }

    void findExtinction(Extinction& first) const {
        for (const Part& p : this->all)
            first.gap(p.gap, p.branch);
    }

    void addTo(Hash& hash) const {
        for (const Part& p : this->all)
            p.gap.addTo(hash);
    }
};

} // namespace loom::circuit
