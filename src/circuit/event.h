// SPDX-License-Identifier: MIT
// What happens in a circuit at an instant. Plain data: the screen makes the sentence.
#pragma once

#include "circuit/netlist.h"

namespace loom::circuit {

enum class EventKind {
    FuseMelted,    // value: A at that instant; second: s since it last carried less than its rating
    PulledIn,      // value: V at the coil; contacts have transferred
    DroppedOut,    // value: V at the coil
    CoilKicked,    // value: highest V across the coil after release without a path
    ContactWelded, // value: A it closed on or broke
    SleeveSoftened, // value: A in the cable; second: K
    SleeveSmoking,  // value: A; second: K
    SleeveBurning,  // value: A; second: K
    CableParted,    // value: A; second: K
    JointHot,       // value: A; second: K, a loose stud
    LampFailed,     // value: V across it
    BatteryAbused,  // value: A delivered beyond its greatest discharge
    BatteryFlat,    // value: state of charge
    BatteryCharged, // value: A driven into it by another
    MotorStarted,   // value: A; speed leaves zero
    MotorStopped,   // value: A
    MotorStalled,   // value: A; held at zero speed while driven
    BatteryGassing, // value: A driven into it; second: V at its terminals
    CableTouched    // value: A; the copper of a burnt cable has come to lie on its neighbour's
};

struct Event {
    double time_s = 0.0;
    EventKind kind = EventKind::FuseMelted;
    Key element = 0;
    double value = 0.0, second = 0.0;
};

} // namespace loom::circuit
