// SPDX-License-Identifier: MIT
// What happens at an instant. firstCrossing() finds where within a step the first of it lies;
// happen() changes the models at the end of a step, when it has been reached, and says what it was.
#pragma once

#include "circuit/event.h"
#include "circuit/stepper.h"

namespace loom::circuit {

// Share of the step, 0..1, at which the earliest watched quantity crosses its limit; above 1 for none.
double firstCrossing(const Network& net, const Step& step);

// When a spark or an arc that conducts at the beginning of the step has stopped before its end: the
// share of the step just short of where its current comes to nothing; otherwise 1. A step across
// that point cannot be accurate.
double extinction(const Network& net, const Step& step);

// The next time at which something happens by itself (an armature arriving).
double nextAppointment_s(const Network& net);

// Applies everything due at time_s, given states y (may be changed) and branch values there. Appends
// events. True when a model changed so that the stepper must restart.
bool happen(Network& net,
            double time_s,
            std::vector<double>& y,
            const Point& at,
            std::vector<Event>& events);

// Opens or closes a contact at time_s; current_A is what it carried. True when that is a change.
bool moveContact(ContactPart& contact, bool closed, double current_A, double time_s);

} // namespace loom::circuit
