// SPDX-License-Identifier: MIT
// The close-up in which a cable's end is made: its terminal cut open, the end drawn large, one tile
// a step, a dial for tightness. Open it with openCloseup(); drawCloseup() does the rest each frame,
// and opens it by itself when an end that is made by hand has just been joined.
#pragma once

#include "screen/art/picture.h"
#include "screen/kit/view.h"

#include <optional>
#include <set>
#include <string>
#include <tuple>

namespace loom::screen {

struct BenchUi;

// What it is about: a cable's end, or a terminal that nothing is joined to.
struct CloseupOf {
    bench::CableId cable; // none: the terminal alone
    int end = 0;
    std::optional<bench::TerminalRef> terminal; // where the end is, or was when it came off
};

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

void openCloseup(CloseupUi& ui, const CloseupOf& of);
// The end on this terminal, the next one if it shows one of them already; the bare terminal else.
void openCloseupAt(CloseupUi& ui, const bench::Bench& bench, bench::TerminalRef terminal);
void closeCloseup(CloseupUi& ui);

// Draw after the card. Does nothing while it is shut but watch for ends to be made.
// Returns whether something is held that moves by itself.
bool drawCloseup(const View& view,
                 Items& items,
                 BenchUi& bench,
                 art::PictureStore& pictures,
                 ImDrawList* list,
                 Intents& out);

} // namespace loom::screen
