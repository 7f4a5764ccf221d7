// SPDX-License-Identifier: MIT
// An exercise as plain data: what to achieve, what lies in the tray, how it is checked. Read with
// exerciseFromJson(); judged by judge() in verdict.h. The file format: lessons/exercise.schema.json.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"

#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace loom::lesson {

// A terminal by name, so that it can be spoken of before its part is on the bench.
struct Spot {
    std::string ref, terminal;  // "K1", "normally open"
};

// Positions to set before looking: "S4" -> "on", "Q1" -> "on", "F2" -> "open" (blade taken out).
using Positions = std::map<std::string, std::string>;

enum class Quantity {
    Voltage_V, Current_A, Power_W, Speed_rad_s, PulledIn, Brightness, CableTemp_K
};

// Each row looks at one thing and has its own sentence for when it is not so. Rows of a check are
// looked at in order; the first that fails speaks.
struct Present { std::vector<std::string> refs; };          // on the bench
struct Joined { Spot a, b; };                               // by cables alone
struct Apart { Spot a, b; };                                // not joined by cables alone
struct Behaves {                                            // with fresh parts, after a while
    Positions set;
    double after_s = 0.5;
    Positions thenSet;        // e.g. the button let go
    double thenAfter_s = 0.0; // 0: there is no second step
    std::string of;           // ref
    Quantity quantity = Quantity::Power_W;
    double least = 0.0, most = 0.0;
};
struct Survives {                                           // a fuse opens before any cable suffers
    Positions set;
    Spot a, b;                // shorted here
    double for_s = 30.0;
};
struct Order {                                              // over the record, undone steps left out
    enum class Rule { LinkLast, IsolatorOffWhileJoining } rule = Rule::LinkLast;
};

struct Row {
    std::variant<Present, Joined, Apart, Behaves, Survives, Order> look;
    std::string say;   // what is wrong, without giving the answer; {found} is the value with unit
};

struct Check {
    std::string id, title;
    int marks = 1;
    std::vector<Row> rows;
    std::string hint;  // stronger, on request
};

struct Exercise {
    std::string id, title;
    std::vector<std::string> job;       // what to achieve, a sentence a line
    std::vector<std::string> cautions;  // shown where the danger is
    bench::Bench start;                 // board, kit and what already lies there
    std::vector<Check> checks;
    std::string hash;                   // hex, of the file's bytes
};

bench::Outcome<Exercise> exerciseFromJson(std::string_view text);

}  // namespace loom::lesson
