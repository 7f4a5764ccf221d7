// SPDX-License-Identifier: MIT
// The order of powering up, and of putting away after the test. Start with a Procedure at the
// attempt's beginning and tell it each command and each slice; steps() says what was done and
// what came at the wrong moment. Nothing is stopped: the bench lets everything happen.
#pragma once

#include "attempt/attempt.h"

#include <string>
#include <vector>

namespace loom::lesson {

// In the order in which they are to be done. Common practice, no source.
enum class Step {
    IsolatorOff, // every isolator off, its key out and on its hook
    Batteries,   // lifted in and strapped, no cable on their terminals yet
    BatteryEnds, // the negative and the positive end of the supply
    SeriesLink,  // last of all cables
    AxleClear,   // on its stand, nothing against it
    CrossCheck,  // the sheet handed in with every cable marked
    KeyOn,       // key from its hook, isolator on
    RockerOn,    // the rocker on
    LampSeen,    // the live lamp lit and looked at
    Call,        // "Clear!" called
    Run,         // the button held
    Off,         // afterwards: rocker off, isolator off
    KeyHung,     // key out and on its hook
    BatteriesOut // link off first; batteries disconnected and lifted out
};

inline constexpr int stepCount = static_cast<int>(Step::BatteriesOut) + 1;

struct StepSeen {
    Step step = Step::IsolatorOff;
    bool done = false;
    bool early = false;     // done before one that should have come first
    Step before{};          // that one
    std::int64_t slice = 0; // when
};

class Procedure {
public:
    // Which steps count: without a rocker on the bench and in its kit there is no RockerOn.
    explicit Procedure(const attempt::Attempt& attempt);

    // After each command that was done, and after each advance.
    void look(const attempt::Attempt& attempt, const attempt::Command* command);

    const std::vector<StepSeen>& steps() const { return seen; } // those that count, in order

private:
    std::vector<StepSeen> seen;
};

} // namespace loom::lesson
