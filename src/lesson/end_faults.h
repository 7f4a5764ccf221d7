// SPDX-License-Identifier: MIT
// What is wrong with an end: faultAt() for one end, faultsOf() for all of them.
#pragma once

#include "bench/ends.h"
#include "bench/phrase.h"

#include <string>
#include <vector>

namespace loom::lesson {

// "P-20 at X1/4: the screw is on the sleeve", by the first fault of an end; empty: made well.
bench::Phrase faultAt(const bench::Bench& bench, const bench::Cable& cable, int end);

// Of every joined end that is not made well, of the cables with these labels (empty: all), in the
// order of the cables.
std::vector<bench::Phrase> faultsOf(const bench::Bench& bench,
                                    const std::vector<std::string>& labels);

} // namespace loom::lesson
