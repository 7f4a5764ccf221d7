// SPDX-License-Identifier: MIT
// An exercise as plain data: what to achieve, what lies in the tray, how it is checked. Read with
// exerciseFromJson(); judged by judge() in verdict.h. The file format: lessons/exercise.schema.json.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"
#include "lesson/hidden_fault.h"
#include "plan/plan.h"
#include "plan/spot.h"
#include "plan/step.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace loom::lesson {

// In one language or several.
using Text = bench::Phrase;

// Positions to set before looking, by the catalogue's words: "S4" -> "on"; a fuse may be "open"
// (blade or strip taken out). A control that is not named is at rest, an isolator with its key out.
using Positions = std::map<std::string, std::string>;

enum class Quantity {
    Voltage_V,   // across a part, or of one spot against another; without a path 0
    Current_A,   // through a part; a relay's is its coil's
    Power_W,     // taken up by a part; a battery's is what it delivers
    Speed_rad_s, // of a motor, forward positive
    PulledIn,    // 1 or 0: a relay's armature
    Brightness,  // of a lamp, light over rated light
    CableTemp_K  // of the hottest cable on the bench
};

// What counts as a way from one spot to another.
enum class Through {
    Cables,  // cables and common metal
    Closed,  // also closed contacts and whole fuses
    Anything // also every part that conducts at all
};

// Each row looks at one thing and has its own sentence for when it is not so. Rows of a check are
// looked at in order; the first that fails speaks.

// These parts are on the bench. found: the refs that are not.
struct Present {
    std::vector<std::string> refs;
};

// Each of these parts has two cables at least that are joined at both ends. found: the refs of those
// that have not.
struct Wired {
    std::vector<std::string> refs;
};

// An earlier check of this exercise has passed, without which this one says nothing.
struct Passed {
    std::string check; // id
};

struct Joined {
    plan::Spot a, b;
    Through through = Through::Cables;
    Positions set;
};

// Not joined. Spots of a part that is not on the bench are apart.
struct Apart {
    plan::Spot a, b;
    Through through = Through::Cables;
    Positions set;
};

// After a while, found: the value. A part that is not on the bench never passes.
struct Behaves {
    Positions set;
    bool asItIs = false; // with the parts as they are; otherwise with fresh ones
    double after_s = 0.5;
    Positions thenSet;        // e.g. the button let go
    double thenAfter_s = 0.0; // 0: there is no second step
    std::string of;           // ref; empty for Voltage_V of a against b and for CableTemp_K
    plan::Spot a, b;
    Quantity quantity = Quantity::Power_W;
    double least = 0.0, most = 0.0; // both allowed
};

// Nothing fails: no fuse opens, no sleeve softens, no contact welds, no lamp goes.
// found: the part or cable, its value and when.
struct Unharmed {
    Positions set;
    bool asItIs = false; // with the parts as they are; otherwise with fresh ones
    double for_s = 5.0;
};

// A fault of each of these resistances between two spots: a fuse opens before any cable passes the
// limit of its sleeve (or the fault draws too little to matter). found: cable, temperature, when.
struct Survives {
    Positions set;
    plan::Spot a, b;
    std::vector<double> fault_ohm{1e-3};
    double for_s = 30.0; // each
};

// A cable that need not be guarded by a fuse, by what it joins (a hole of a block for its way, either
// terminal of a part that looks the same both ways) and how thick it is at least.
struct NamedCable {
    plan::Spot a, b;
    double least_m2 = 0.0;
};

// What is asked of a bench by sweepFaults() in fault_sweep.h.
struct Protection {
    // On the common return, in which no fuse stands: a battery's pole or what is joined to it. A part
    // that is not there: the pole with the most cables.
    plan::Spot common;
    std::vector<NamedCable> unprotected; // may lie before the first fuse
    // A cable of the common return, joined at both ends, need not bear that something live touches
    // its far end: the fuse of the whole is too slow for the return of a small load.
    bool thinReturns = false;
};

// Whatever fails, a fuse opens before a cable passes its limit: every fault that fault_sweep.h tries,
// on the bench as it stood at the last power-up and as it stands. found: the cable, the fault, what
// it does.
struct Protected {
    Protection asked;
};

// With the isolator off, in every position of the other controls, nothing is joined to the pole of a
// battery that is not the common one but these parts, the isolator and batteries; and the isolator's
// other side is not. found: the first place that is.
struct Isolated {
    plan::Spot common;
    std::vector<std::string> before; // refs of the parts that come before the isolator
};

// What the job asks to be driven or shown: there was a time in this attempt when the controls stood so
// for so long, and with the bench as it was then (its parts as they were) the quantity came out so at
// the end of that time. With `then`: those positions followed at once, for so long, and the end of
// that counts. found: nothing.
struct Done {
    Positions set;
    double for_s = 0.5;
    Positions thenSet;
    double thenFor_s = 0.0; // 0: there is no second part
    std::string of;
    Quantity quantity = Quantity::Speed_rad_s;
    double least = 0.0, most = 0.0; // both allowed
};

// Over the record, for the ends that are still joined as they were joined then; ends that were in
// place at the start count as joined before. So an end joined too early can be taken off and joined
// again. Common practice, no source.
struct Order {
    enum class Rule {
        BatteryLast,             // the last cable joined goes to a battery
        LinkLast,                // the last cable joined completes the link between two batteries
        IsolatorOffWhileJoining, // every isolator on the bench was off at each joining
        KeyOutWhileJoining,      // and its key was out
        DeadWhileWorking         // no end was put on or taken off what was live: see order.h
    } rule = Rule::LinkLast;
    plan::Spot common{}; // for DeadWhileWorking: the battery pole that is the common return
};

// The bench is as the plan has it; of these labels only, empty: all, and no extra cable. found: the
// first difference, without what the plan expects.
struct FollowsPlan {
    std::vector<std::string> labels;
};

// Every joined end is made well, by bench::stateOf(); of these labels only, empty: all. found:
// "P-20 at X1/4: the screw is on the sleeve". A label that is not joined anywhere passes.
struct WellMade {
    std::vector<std::string> labels;
};

// These steps of powering up and putting away were done, each after those before it; `least` of
// them will do. found: what came early and before which, or what has not been done.
struct InOrder {
    std::vector<plan::Step> steps; // empty: all that count, see procedure.h
    int least = 0;                 // 0: all
};

// The second person's cross-check. found: the cable concerned, with what is wrong with it.
struct CrossChecked {
    bool everyCable = true;   // marked
    bool bothEnds = true;     // looked at, of every cable
    bool noneMissed = true;   // marked right but wrong
    bool noFalseAlarm = true; // marked wrong but right
};

// The hidden fault was named, after readings that only it explains: see evidence.h. found: what was
// named wrongly last, what the readings leave open, or how many measurements it took.
struct Found {
    int mostMeasurements = 0; // 0: any number
    int mostNamings = 3;
    bool shown = true; // by readings
};

// Nothing on the bench is worn or empty: no fuse open or missing, no contact welded, no sleeve
// softened, every battery charged at least so far. found: the first that is not.
struct Sound {
    double leastCharge = 0.5;
};

struct Row {
    std::variant<Present,
                 Wired,
                 Passed,
                 Joined,
                 Apart,
                 Behaves,
                 Unharmed,
                 Survives,
                 Protected,
                 Isolated,
                 Done,
                 Order,
                 FollowsPlan,
                 WellMade,
                 InOrder,
                 CrossChecked,
                 Found,
                 Sound>
        look;
    Text say; // what is wrong, without giving the answer; {found} is the value with unit
};

struct Check {
    std::string id;
    Text title;
    int marks = 1;
    std::vector<Row> rows;
    Text hint; // stronger, on request
};

struct Exercise {
    std::string id;
    Text title;
    std::vector<Text> job;           // what to achieve, a sentence a line
    std::vector<Text> cautions;      // shown where the danger is
    bench::Bench start;              // board, kit and what already lies there
    std::optional<plan::Plan> plan;  // the wiring plan, where there is one to follow
    std::vector<HiddenFault> faults; // one of which is put into the start: see hidden_fault.h
    std::vector<Check> checks;
    std::vector<std::string> solution; // worked, line by line, as a script of the command; or empty
    std::string hash; // 16 hex digits, of the file's bytes
};

inline constexpr int kExerciseVersion = 1;
inline constexpr std::size_t kGreatestExercise_bytes = 1u << 20;
// All the simulated time one check may ask for: judging stays a matter of a second.
inline constexpr double kGreatestCheck_s = 240.0;

// Refuses what it does not know, with the place as a JSON pointer. Every part, terminal and
// position named by a check must be one that the start or its kit has.
bench::Outcome<Exercise> exerciseFromJson(std::string_view text);

} // namespace loom::lesson
