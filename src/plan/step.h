// SPDX-License-Identifier: MIT
// The steps of powering up and putting away, in the order in which they are to be done, with their
// words. What counts as done: procedure.h.
#pragma once

namespace loom::plan {

// Common practice, no source.
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

inline constexpr int kStepCount = static_cast<int>(Step::BatteriesOut) + 1;

// In files.
inline constexpr const char* kStepWords[kStepCount] = {"isolator off",
                                                       "batteries",
                                                       "battery ends",
                                                       "series link",
                                                       "axle clear",
                                                       "cross-check",
                                                       "key on",
                                                       "rocker on",
                                                       "lamp seen",
                                                       "call",
                                                       "run",
                                                       "off",
                                                       "key hung",
                                                       "batteries out"};

} // namespace loom::plan
