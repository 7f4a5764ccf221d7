// SPDX-License-Identifier: MIT
// What a learner (or a script) may ask for, as plain data with the time it was asked.
#pragma once

#include "bench/edit.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace loom::attempt {

// Time is counted in slices, so that a record has no rounding: t = slice * slice_s.
inline constexpr double slice_s = 0.01;

struct Undo {};

struct Redo {};

// Asked of the lesson; they change nothing on the bench but belong to the record.
struct AskCheck {};

struct AskHint {
    std::string check; // id of the check
};

// The second person's check sheet. A mark can be changed until the sheet is handed in.
enum class SheetMark { None, Right, Wrong };

struct MarkOff {
    std::string label; // of the cable on the plan
    SheetMark mark = SheetMark::Right;
};

struct HandInSheet {}; // from now on what was missed is shown

// Somebody looked closely: at a part by its ref (end -1), at a cable's end by its label.
struct LookAt {
    std::string name;
    int end = -1; // 0 or 1 for a cable
};

struct CallClear {}; // said aloud before the first start: hands off, wheels free

// Names the hidden fault: a part by its ref (end -1), or a cable by its label and the end, or -1
// for the cable as a whole.
struct NameFault {
    std::string name;
    int end = -1;
};

// The attempt was put away and opened again: its circuit starts cold and still. Written by resume()
// in record_file.h, never asked for, so that a replay starts cold at the same moment.
struct Reopened {};

using Command = std::variant<bench::Edit,
                             Undo,
                             Redo,
                             AskCheck,
                             AskHint,
                             MarkOff,
                             HandInSheet,
                             LookAt,
                             CallClear,
                             NameFault,
                             Reopened>;

// The greatest number of entries in a record and of bytes in a hint's id: a record then stays
// within the size that recordFromJson() reads.
inline constexpr std::size_t mostEntries = 60000;
inline constexpr std::size_t longestCheckId = 64;

struct Entry {
    std::int64_t slice = 0;
    Command command;
};

// One learner's attempt, enough to replay it: where it began and what was done when.
struct Record {
    std::string exercise;     // id, empty for the free bench
    std::string exerciseHash; // hex, of the exercise file's bytes
    std::uint64_t seed = 0;
    bench::Bench start;
    std::vector<Entry> entries; // WearPart and the like among them: what the circuit did
    std::int64_t slices = 0;    // how far time has run
};

} // namespace loom::attempt
