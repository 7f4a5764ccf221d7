// SPDX-License-Identifier: MIT
// A refusal is a value: why, where, what was expected and what was found. src/words makes a sentence
// from it in the learner's language, for the screen and for the command.
#pragma once

#include "bench/phrase.h"

#include <utility>
#include <variant>

namespace loom::bench {

enum class Why {
    UnknownPart,     // no such part (or a stale id)
    UnknownCable,    // no such cable
    UnknownTerminal, // the part has no such terminal
    NotInTray,       // the slot is unknown, or its part is already out
    WrongEnd,        // this kind of end does not fit this kind of terminal
    TerminalFull,    // it already holds all it takes
    SameTerminal,    // both ends of a cable on one terminal
    BladeBlocks,     // a blade is wanted and none is there, or the other way round
    NoSuchPosition,  // a control was asked for a position it does not have
    KeyNotIn,        // the isolator cannot turn without its key
    ScrewClosed,     // nothing goes into a clamp whose screw was not opened first
    ScrewBroken,     // the screw or stud was turned too far; only a new one helps
    NotJoined,       // an end that lies loose cannot be pushed in or tugged at
    NotStripped,     // strands that are not bare can be neither twisted nor pressed
    UnknownTie,      // no such tie
    MeterAway,       // the meter hangs on the wall
    OutOfRange,      // a number outside its range
    NotANumber,      // NaN or infinite, or text where a number belongs
    TooMany,         // more parts, cables or bytes than a bench takes
    NothingToUndo,
    NothingToRedo,
    NotJson,      // file: not readable as JSON; place gives line and column
    WrongFormat,  // file: not one of ours
    LaterVersion, // file: written by a later version
    Missing,      // file: a member is missing
    WrongType,    // file: a member has another type
    Duplicate,    // file: an id or reference occurs twice
    UnknownWord,  // file: a word outside its list
    Altered       // attempt: it does not agree with its own chain or with its exercise
};

struct Refusal {
    Why why = Why::UnknownPart;
    Phrase place;    // "K1 normally open", or a JSON pointer such as /cables/3/ends/0/at
    Phrase expected; // a range: "0 < metres <= 20", or what there might have been
    Phrase found;
};

// Either a value or a refusal.
template <class T> class Outcome {
public:
    Outcome(T value) : content(std::move(value)) {}

    Outcome(Refusal refusal) : content(std::move(refusal)) {}

    explicit operator bool() const { return content.index() == 0; }

    const T& value() const { return std::get<0>(content); }

    T& value() { return std::get<0>(content); }

    const Refusal& refusal() const { return std::get<1>(content); }

private:
    std::variant<T, Refusal> content;
};

} // namespace loom::bench
