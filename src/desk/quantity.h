// SPDX-License-Identifier: MIT
// What `--read` asks for: "M1.speed", "P-06.temperature", "S1.lamp.current" or a voltage between
// two terminals, "X1/1-X1/10". Start with quantityFrom(), then sample it as often as wanted.
#pragma once

#include "attempt/attempt.h"
#include "bench/catalogue.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::desk {

struct Measure {
    const char* word; // "speed"
    const char* unit; // "rad/s"; empty for a share or a yes (1) or no (0)
    bool (*fits)(bench::ElementClass is);
    bool ofCables;
    double (*read)(const circuit::Reading& reading);
};

// Everything that can be read of a part or a cable, for the help as well.
const std::vector<Measure>& measures();

// Names are looked up at each sample: the part may be laid, or taken off, while time runs.
struct Quantity {
    std::string asked; // as typed
    std::string unit;
    // One of the three:
    bool meter = false; // what the hand meter shows
    const Measure* measure = nullptr;
    std::string name;    // of the part or cable
    std::string element; // "lamp"; empty: the first
    // or a voltage of the first terminal against the second:
    std::string firstRef, firstWord, secondRef, secondWord;
};

// How it is written: refused when the words make no quantity whatever lies on the bench.
bench::Outcome<Quantity> quantityFrom(const std::string& text);

// What it is read of lies on the bench.
bool isThere(const Quantity& quantity, const bench::Bench& bench);

// Its value now; nothing while its part is away or when no metal path joins the terminals. Refused
// when the thing is there and has no such quantity.
bench::Outcome<std::optional<double>> sample(const Quantity& quantity,
                                             const attempt::Attempt& attempt);

} // namespace loom::desk
