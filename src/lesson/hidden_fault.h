// SPDX-License-Identifier: MIT
// Faults that an exercise can hide on its bench, as data. Start with startOf(): the bench a learner
// gets; isNamed() says whether they named what was altered.
#pragma once

#include "bench/bench.h"
#include "bench/phrase.h"
#include "plan/spot.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace loom::lesson {

struct Exercise;

// The cable with this label that is joined here at the start, and that end of it.
struct AlteredEnd {
    std::string label;
    plan::Spot at;
};

struct FuseOpen {
    std::string ref;
};

struct CableGone { // every cable with this label
    std::string label;
};

struct EndMoved {
    AlteredEnd end;
    plan::Spot to;
};

// What is not given is as it should be.
struct EndUnmade {
    AlteredEnd end;
    std::optional<double> strip_m, pushed_m;
    bool twisted = true, pressed = true;
    std::optional<double> torque_Nm; // of the screw or nut that holds it
};

struct ContactWelded { // relay
    std::string ref;
};

struct TurnedRound { // what is joined to its first two terminals changes places
    std::string ref;
};

struct Flat { // battery
    std::string ref;
    double charge = 0.05;
};

using Alteration =
    std::variant<FuseOpen, CableGone, EndMoved, EndUnmade, ContactWelded, TurnedRound, Flat>;

struct HiddenFault {
    std::string id;
    bench::Phrase title; // for the teacher only
    std::vector<Alteration> alterations;
};

// The fault of this attempt: seed n hides the n-th, modulo their number. nullptr: none is hidden.
const HiddenFault* faultOf(const Exercise& exercise, std::uint64_t seed);

// The bench an attempt with this seed begins with.
bench::Bench startOf(const Exercise& exercise, std::uint64_t seed);

// The sound start with this fault in it. Nothing when it cannot be put in there.
std::optional<bench::Bench> withFault(const bench::Bench& start, const HiddenFault& fault);

// Whether a part (end -1), a cable (-1) or a cable's end is one that the fault alters.
bool isNamed(const HiddenFault& fault, const bench::Bench& start, const std::string& name, int end);

} // namespace loom::lesson
