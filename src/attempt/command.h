// SPDX-License-Identifier: MIT
// What a learner (or a script) may ask for, as plain data with the time it was asked.
#pragma once

#include "bench/edit.h"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace loom::attempt {

// Time is counted in slices, so that a record has no rounding: t = slice * kSlice_s.
inline constexpr double kSlice_s = 0.01;

struct Undo {
    static constexpr bench::EditRow kRow{"undo"};

    template <class Visit> static void fields(Visit&&) {}
};

struct Redo {
    static constexpr bench::EditRow kRow{"redo"};

    template <class Visit> static void fields(Visit&&) {}
};

// Asked of the lesson; they change nothing on the bench but belong to the record.
struct AskCheck {
    static constexpr bench::EditRow kRow{"ask-check"};

    template <class Visit> static void fields(Visit&&) {}
};

struct AskHint {
    static constexpr bench::EditRow kRow{"ask-hint"};

    std::string check; // id of the check

    template <class Visit> static void fields(Visit&& visit) {
        visit("check", &AskHint::check, bench::field::ShortText{});
    }
};

// The second person's check sheet. A mark can be changed until the sheet is handed in.
enum class SheetMark { None, Right, Wrong };

// In the order of SheetMark, in a record and in scripts.
inline constexpr const char* kSheetMarkWords[] = {"none", "right", "wrong"};

struct MarkOff {
    static constexpr bench::EditRow kRow{"mark-off"};

    std::string label; // of the cable on the plan
    SheetMark mark = SheetMark::Right;

    template <class Visit> static void fields(Visit&& visit) {
        visit("label", &MarkOff::label, bench::field::Name{});
        visit("mark", &MarkOff::mark);
    }
};

// From now on what was missed is shown.
struct HandInSheet {
    static constexpr bench::EditRow kRow{"hand-in-sheet"};

    template <class Visit> static void fields(Visit&&) {}
};

// Somebody looked closely: at a part by its ref (end -1), at a cable's end by its label.
struct LookAt {
    static constexpr bench::EditRow kRow{"look-at"};

    std::string name;
    int end = -1; // 0 or 1 for a cable

    template <class Visit> static void fields(Visit&& visit) {
        visit("name", &LookAt::name, bench::field::Name{});
        visit("end", &LookAt::end, bench::field::EndOrNone{});
    }
};

// Said aloud before the first start: hands off, wheels free.
struct CallClear {
    static constexpr bench::EditRow kRow{"call-clear"};

    template <class Visit> static void fields(Visit&&) {}
};

// Names the hidden fault: a part by its ref (end -1), or a cable by its label and the end, or -1
// for the cable as a whole.
struct NameFault {
    static constexpr bench::EditRow kRow{"name-fault"};

    std::string name;
    int end = -1;

    template <class Visit> static void fields(Visit&& visit) {
        visit("name", &NameFault::name, bench::field::Name{});
        visit("end", &NameFault::end, bench::field::EndOrNone{});
    }
};

// The attempt was put away and opened again: its circuit starts cold and still. Written by resume()
// in record_file.h, never asked for, so that a replay starts cold at the same moment.
struct Reopened {
    static constexpr bench::EditRow kRow{"reopened"};

    template <class Visit> static void fields(Visit&&) {}
};

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
inline constexpr std::size_t kMostEntries = 60000;
inline constexpr std::size_t kLongestCheckId = 64;

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
    // Of a record that was read: the first entry that does not agree with the chain of hashes in the
    // file (record_file.h); their number: what comes after them does not.
    std::optional<std::size_t> altered;
    bool chained = true; // false: from a file of an earlier version, which had no chain
};

} // namespace loom::attempt
