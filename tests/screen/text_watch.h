// SPDX-License-Identifier: MIT
// What is written on a Stage and what is wrong with it. From every text that the screen puts on its
// draw list, and from the triangles there, faults() tells:
//   plain    a word out of brackets, in the pseudo-language: it did not come through src/words
//   broken   a word cut between letters, since its column is too narrow
//   lost     a text shortened with "…" that no item under it tells whole
//   off      beyond the screen
//   clipped  cut at an edge towards which nothing scrolls
//   out      beyond the box it is in: the ground under it changes
//   over     across another text, with no ground of its own between them
#pragma once

#include "screen/stage.h"

#include <set>
#include <string>
#include <vector>

namespace loom::test {

class TextWatch {
public:
    TextWatch();
    ~TextWatch();

    void clear(); // before the frame
    // Of the frame drawn since. Names: refs, labels and legends, which no language changes.
    std::vector<std::string> faults(const Stage& stage, const std::set<std::string>& names) const;
    // How many texts the frame has.
    std::size_t count() const;
};

// The first word of a text that is neither in brackets nor a number, a unit, a sign or a name;
// empty when there is none.
std::string plainWord(const std::string& text, const std::set<std::string>& names);
// Refs, labels and legends of an exercise or a bench.
void addNames(const bench::Bench& bench, std::set<std::string>& names);
std::set<std::string> catalogueNames();

} // namespace loom::test
