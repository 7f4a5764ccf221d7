// SPDX-License-Identifier: MIT
// What the close-up remembers from frame to frame: which end it shows, what is under the hand there,
// what it said last.
#pragma once

#include "screen/board/wish.h"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <tuple>

namespace loom::screen {

// Steps of making an end; which of them there are depends on its kind.
enum class MakingStep { Strip, Twist, Press, Push, PutOver, Tighten, Tug };

// A value that is being dragged, held or stepped by keys and not asked for yet.
struct UnderHand {
    MakingStep step = MakingStep::Strip;
    double value = 0.0; // m, or N m
    bool byKey = false;
};

struct CloseupUi {
    CloseupOf of;
    bool open = false;
    bool justOpened = false; // by this frame's press, which must not close it again
    std::optional<UnderHand> hand;
    double grabbed = 0.0; // the value when a drag began
    float grabAngle_rad = 0.0f, turned_rad = 0.0f;
    double heldSince_s = -1.0; // the Tighten tile
    bool pulling = false;      // the cable is held by its end: a drag away is a tug
    std::string said;          // what the last step did
    std::string ifOff;         // what to say when the tug takes it off; empty: no tug under way
    int way = -1;              // in which the panel lies (see closeup.cpp); -1: not settled yet
    // Ends that were joined when last looked: cable, end, part, terminal.
    std::set<std::tuple<std::uint32_t, int, std::uint32_t, int>> joined;
    std::uint64_t revision = ~0ull; // of the attempt then
    std::string exercise;           // and its exercise
};

} // namespace loom::screen
