// SPDX-License-Identifier: MIT
// What happens in a circuit at an instant: one row a kind says its word, what its two numbers are,
// and how grave it is. Plain data: sentences are made elsewhere, under the key "event/<word>".
#pragma once

#include "circuit/netlist.h"

#include <cstddef>
#include <iterator>

namespace loom::circuit {

// In the order of kEventRows, which says what each is.
enum class EventKind {
    FuseMelted,
    PulledIn,
    DroppedOut,
    CoilKicked,
    ContactWelded,
    SleeveSoftened,
    SleeveSmoking,
    SleeveBurning,
    CableParted,
    JointHot,
    LampFailed,
    BatteryAbused,
    BatteryFlat,
    BatteryCharged,
    MotorStarted,
    MotorStopped,
    MotorStalled,
    BatteryGassing,
    CableTouched,
    BreakerTripped
};

// What a number of an event is counted in; Share: 0..1.
enum class Unit { None, Ampere, Volt, Kelvin, Second, Share };

enum class Weight {
    Ordinary, // what parts are meant to do
    Notice,   // wrong or dangerous, but it leaves no mark by itself
    Fault     // something is broken or has opened by it and stays so
};

// What it leaves behind, in growing order for a cable.
enum class Lasting { Nothing, Opened, Welded, Softened, Charred, Parted };

struct EventRow {
    EventKind kind;
    const char* word;
    Unit first, second; // of Event::first and Event::second
    Weight weight;
    Lasting lasting = Lasting::Nothing;
};

constexpr EventRow
fault(EventKind kind, const char* word, Unit first, Unit second, Lasting lasting) {
    return {kind, word, first, second, Weight::Fault, lasting};
}

constexpr EventRow kEventRows[] = {
    // The current at that instant; how long ago it last carried less than its rating.
    fault(EventKind::FuseMelted, "fuse-melted", Unit::Ampere, Unit::Second, Lasting::Opened),
    // A relay: the voltage at its coil; the contacts have changed over.
    {EventKind::PulledIn, "pulled-in", Unit::Volt, Unit::None, Weight::Ordinary},
    {EventKind::DroppedOut, "dropped-out", Unit::Volt, Unit::None, Weight::Ordinary},
    // The highest voltage across a coil that was let go without a path for its current.
    {EventKind::CoilKicked, "coil-kicked", Unit::Volt, Unit::None, Weight::Notice},
    // The current it closed on or broke.
    fault(EventKind::ContactWelded, "contact-welded", Unit::Ampere, Unit::None, Lasting::Welded),
    // The current in the cable; the temperature of its conductor.
    fault(EventKind::SleeveSoftened,
          "sleeve-softened",
          Unit::Ampere,
          Unit::Kelvin,
          Lasting::Softened),
    fault(EventKind::SleeveSmoking, "sleeve-smoking", Unit::Ampere, Unit::Kelvin, Lasting::Charred),
    fault(EventKind::SleeveBurning, "sleeve-burning", Unit::Ampere, Unit::Kelvin, Lasting::Charred),
    fault(EventKind::CableParted, "cable-parted", Unit::Ampere, Unit::Kelvin, Lasting::Parted),
    // The current through a loose end; its temperature.
    {EventKind::JointHot, "joint-hot", Unit::Ampere, Unit::Kelvin, Weight::Notice},
    // The voltage across it.
    fault(EventKind::LampFailed, "lamp-failed", Unit::Volt, Unit::None, Lasting::Opened),
    // The current delivered, beyond its greatest discharge.
    {EventKind::BatteryAbused, "battery-abused", Unit::Ampere, Unit::None, Weight::Notice},
    // The state of charge.
    {EventKind::BatteryFlat, "battery-flat", Unit::Share, Unit::None, Weight::Notice},
    // The current that another drives into it.
    {EventKind::BatteryCharged, "battery-charged", Unit::Ampere, Unit::None, Weight::Notice},
    // Its speed leaves zero, reaches zero, stays zero while it is driven: the current.
    {EventKind::MotorStarted, "motor-started", Unit::Ampere, Unit::None, Weight::Ordinary},
    {EventKind::MotorStopped, "motor-stopped", Unit::Ampere, Unit::None, Weight::Ordinary},
    {EventKind::MotorStalled, "motor-stalled", Unit::Ampere, Unit::None, Weight::Notice},
    // The current driven into it; the voltage at its terminals.
    {EventKind::BatteryGassing, "battery-gassing", Unit::Ampere, Unit::Volt, Weight::Notice},
    // The copper of a burnt cable has come to lie on its neighbour's: the current in the cable.
    {EventKind::CableTouched, "cable-touched", Unit::Ampere, Unit::None, Weight::Notice},
    // As with a fuse.
    fault(
        EventKind::BreakerTripped, "breaker-tripped", Unit::Ampere, Unit::Second, Lasting::Opened),
};

constexpr bool eventRowsInOrder() {
    for (std::size_t k = 0; k < std::size(kEventRows); ++k)
        if (kEventRows[k].kind != static_cast<EventKind>(k)) return false;
    return true;
}

static_assert(eventRowsInOrder(), "a row of kEventRows is missing or out of order");

constexpr const EventRow& rowOf(EventKind kind) {
    return kEventRows[static_cast<std::size_t>(kind)];
}

// A fuse or a breaker has opened.
constexpr bool opensByCurrent(EventKind kind) {
    const EventRow& row = rowOf(kind);
    return row.lasting == Lasting::Opened && row.first == Unit::Ampere;
}

struct Event {
    double time_s = 0.0;
    EventKind kind = EventKind::FuseMelted;
    Key element = 0;
    double first = 0.0, second = 0.0; // what they are: rowOf(kind)
};

} // namespace loom::circuit
