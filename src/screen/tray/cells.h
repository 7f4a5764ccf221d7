// SPDX-License-Identifier: MIT
// What hangs in the tray, as cells in groups: worked out from the kit and from what is out on the
// bench. Nothing is drawn here.
#pragma once

#include "screen/board/state.h"

#include <string>
#include <vector>

namespace loom::screen {

enum class Group { Parts, Fuses, Cables, Reels };

struct Cell {
    Group group = Group::Parts;
    std::string name;          // of the item: "tray/K1", "tray/blade/7.5"
    std::string caption;       // written with it; empty for what carries its own number
    std::string first, second; // said of it: what it is, what there is to know
    bool out = false;          // nothing left to take
    std::size_t left = 0;      // how many can still be taken; counted for parts and cables only
    Hand hand;                 // what taking it puts into the hand; nothing for reels
    bench::PartId where;       // when it is out: the first one on the bench

    bench::PartSlot part;                      // Parts
    double rating_A = 0.0;                     // Fuses
    bool strip = false;                        // Fuses: bolt-down
    bench::Sleeve sleeve = bench::Sleeve::Red; // Cables, Reels
    double area_m2 = 0.0;
    std::size_t reel = 0; // Reels: index in the kit
};

// In the order of the groups; a kind of part with several in the kit is one cell.
std::vector<Cell> trayCells(const bench::Bench& bench);

} // namespace loom::screen
