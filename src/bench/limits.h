// SPDX-License-Identifier: MIT
// The ranges every bench keeps to, however it came about: by an edit or from a file. Each check
// gives the refusal, or nothing when all is well.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"

#include <cstddef>
#include <optional>
#include <string>

namespace loom::bench {

inline constexpr std::size_t kPartsMost = 400;
inline constexpr std::size_t kCablesMost = 800;
inline constexpr std::size_t kNameMost_chars = 24; // labels and references, in characters
inline constexpr double kLengthMost_m = 20.0;
inline constexpr double kAreaLeast_m2 = 0.5e-6, kAreaMost_m2 = 25e-6;
inline constexpr double kMakeMost_m = 0.03; // stripped from or pushed in, of an end
inline constexpr double kTorqueMost_Nm = 50.0;
inline constexpr std::size_t kTiesMost = 800, kScrewsMost = 8000;
inline constexpr double kBoardLeast_m = 0.2, kBoardMost_m = 10.0;

// NotANumber unless finite, OutOfRange unless low <= value <= high.
std::optional<Refusal> whyNotWithin(const Phrase& place, double value, double low, double high);
// A cable's length: 0 < length_m <= 20.
std::optional<Refusal> whyNotLength(const Phrase& place, double length_m);
// A conductor's cross-section: 0.5 to 25 mm2.
std::optional<Refusal> whyNotArea(const Phrase& place, double area_m2);
// A label or reference: 1 to 24 characters of well-formed UTF-8, none of them a control character.
std::optional<Refusal> whyNotName(const Phrase& place, const std::string& name);
// A part's rating, as its row says; 0 for a kind without one.
std::optional<Refusal> whyNotRating(const Phrase& place, PartKind kind, double rating);

// The nearest cross-section in whole hundredths of a mm2. Cross-sections are kept so, because then
// the mm2 of a file and the m2 of the bench name each other exactly.
double wholeArea_m2(double area_m2);
double area_m2FromMm2(double area_mm2);
double area_mm2FromM2(double area_m2);

} // namespace loom::bench
