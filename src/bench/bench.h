// SPDX-License-Identifier: MIT
// The learner's document as plain values: parts lying on the board, cables between their
// terminals, and the kit that waits in the tray. Changed only through apply() in edit.h. What
// fields(visit) is for: fields.h.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loom::bench {

// Ids are handed out once a document and never reused, so a stale one is noticed. 0 is none.
struct PartId {
    std::uint32_t number = 0;

    friend bool operator==(PartId l, PartId r) { return l.number == r.number; }

    friend bool operator!=(PartId l, PartId r) { return l.number != r.number; }

    friend bool operator<(PartId l, PartId r) { return l.number < r.number; }

    explicit operator bool() const { return number != 0; }

    template <class Visit> static void fields(Visit&& visit) { visit(&PartId::number); }
};

struct CableId {
    std::uint32_t number = 0;

    friend bool operator==(CableId l, CableId r) { return l.number == r.number; }

    friend bool operator!=(CableId l, CableId r) { return l.number != r.number; }

    friend bool operator<(CableId l, CableId r) { return l.number < r.number; }

    explicit operator bool() const { return number != 0; }

    template <class Visit> static void fields(Visit&& visit) { visit(&CableId::number); }
};

// On the board: metres from its top left corner, x right, y down (towards the learner).
struct Point {
    double x_m = 0.0, y_m = 0.0;

    template <class Visit> static void fields(Visit&& visit) { visit(&Point::x_m, &Point::y_m); }
};

// What each kind is, is said by its row in catalogue.cpp.
enum class PartKind {
    Battery,
    Isolator,
    StripFuse,
    BladeHolder,
    Block, // ten-way connector block
    Relay,
    Rocker, // illuminated
    PushButton,
    Selector, // forward - off - reverse
    Toggle,   // plain on-off switch
    Headlamp,
    Horn,
    Resistor,
    Diode,
    Motor,
    Breaker // circuit breaker, reset by hand
};

// What a part is to the other rooms, which ask for this and not for the kind.
enum class PartClass {
    Battery, // carries a charge, is strapped down
    Isolator,
    Fuse, // a holder; its rating is the fuse in it
    Breaker,
    Block,
    Relay,
    LampSwitch, // a switch with a live lamp: elements 0 contact, 1 lamp
    Button,
    Switch,
    Lamp,
    Horn,
    Resistor,
    Diode,
    Motor // has an axle that can be obstructed
};

enum class Condition {
    Sound,
    Open,  // fuse melted, filament gone, winding burnt
    Welded // relay: the normally-open contact no longer opens
};

// What the hand sets. One number a part; catalogue.h says which positions a kind has.
//   Isolator 0 key out, 1 key in and off, 2 on;  Rocker, Toggle, PushButton 0 off, 1 on
//   Selector 0 reverse, 1 off, 2 forward;  Breaker 0 tripped, 1 set;  Battery 0 standing free, 1 strapped down;  others always 0
struct Part {
    PartId id;
    PartKind kind{};
    std::string ref;      // as on the plan: "K1"; unique on a bench
    Point at_m;           // its centre
    int quarterTurns = 0; // 0..3, clockwise
    double rating = 0.0; // fuse: A, 0 = none fitted; breaker: A; resistor: ohm; headlamp: V, 0 = 24
    int position = 0;
    Condition condition = Condition::Sound;
    double charge = 1.0;     // battery, 0..1, when it was laid on the bench
    bool obstructed = false; // motor: something lies against the axle, which cannot turn

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Part::id,
              &Part::kind,
              &Part::ref,
              &Part::at_m,
              &Part::quarterTurns,
              &Part::rating,
              &Part::position,
              &Part::condition,
              &Part::charge,
              &Part::obstructed);
    }
};

struct TerminalRef {
    PartId part;
    std::uint8_t terminal = 0; // index into the kind's terminals in the catalogue

    friend bool operator==(TerminalRef l, TerminalRef r) {
        return l.part == r.part && l.terminal == r.terminal;
    }

    friend bool operator!=(TerminalRef l, TerminalRef r) { return !(l == r); }

    template <class Visit> static void fields(Visit&& visit) {
        visit(&TerminalRef::part, &TerminalRef::terminal);
    }
};

enum class EndKind { Bare, Ferrule, RingM6, RingM8, Spade, Piggyback };

// How an end was made by hand, step by step. What follows from it (contact resistance, whether it
// holds, what it touches) is said by stateOf() in ends.h.
struct EndMake {
    double strip_m = 0.0; // sleeve taken off from the end, 0..0.03; 0: not stripped yet
    bool twisted = false; // the strands lie together
    bool pressed =
        false; // the ferrule, ring or spade is pressed on; nothing to press on a bare end
    double pushed_m =
        0.0; // clamp and tab: how far in from the mouth, 0..0.03; a ring lies on its stud

    template <class Visit> static void fields(Visit&& visit) {
        visit(&EndMake::strip_m, &EndMake::twisted, &EndMake::pressed, &EndMake::pushed_m);
    }
};

struct CableEnd {
    EndKind kind = EndKind::Bare;
    std::optional<TerminalRef> at; // joined here
    Point loose_m;                 // where it lies when it is not joined
    std::optional<EndMake> make{}; // nothing: made well
    bool tugged = false; // pulled at since anything was done to it or its screw, and it held

    template <class Visit> static void fields(Visit&& visit) {
        visit(
            &CableEnd::kind, &CableEnd::at, &CableEnd::loose_m, &CableEnd::make, &CableEnd::tugged);
    }
};

// The screw of a clamp or the nut of a stud that is not as it should be. One that is not in
// Bench::screws is tightened well.
struct Screw {
    TerminalRef at;
    double torque_Nm = 0.0; // 0: open
    bool broken = false;    // turned too far: it holds nothing any more

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Screw::at, &Screw::torque_Nm, &Screw::broken);
    }
};

// A cable tied to the frame, or to another cable.
struct Tie {
    std::uint32_t id = 0; // its own among parts, cables and ties
    CableId cable;
    double along = 0.5; // where on the cable, 0 at its first end .. 1
    CableId other;      // none: to the frame
    double otherAlong = 0.5;
    Point at_m; // where on the board

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Tie::id, &Tie::cable, &Tie::along, &Tie::other, &Tie::otherAlong, &Tie::at_m);
    }
};

// The hand meter while it is off its hook.
enum class MeterRange { Off, Volts, Ohms, Tone, Amperes };

// What a probe touches: a terminal's metal, or the metal of a cable end (which may not touch its
// terminal); neither: it lies on the board.
struct ProbeTip {
    std::optional<TerminalRef> terminal;
    CableId cable; // with `end`; none: no cable end
    int end = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit(&ProbeTip::terminal, &ProbeTip::cable, &ProbeTip::end);
    }
};

struct Meter {
    Point at_m;
    MeterRange range = MeterRange::Off;
    std::array<ProbeTip, 2> probes; // red, black
    bool fuseOpen = false;          // its own fuse, of the ampere range

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Meter::at_m, &Meter::range, &Meter::probes, &Meter::fuseOpen);
    }
};

enum class Sleeve { Black, Red, White, Grey, Orange, Violet, Green, Yellow, Blue, Brown };

enum class CableCondition { Sound, Softened, Charred, Parted };

struct Cable {
    CableId id;
    std::string label;     // in the white sleeve: "P-06"; need not be unique
    double length_m = 0.5; // 0 < length <= 20
    double area_m2 = 1e-6; // 0.5e-6 .. 25e-6, in whole hundredths of a mm2: see limits.h
    Sleeve sleeve = Sleeve::Red;
    std::array<CableEnd, 2> ends;
    CableCondition condition = CableCondition::Sound;

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Cable::id,
              &Cable::label,
              &Cable::length_m,
              &Cable::area_m2,
              &Cable::sleeve,
              &Cable::condition,
              &Cable::ends);
    }
};

// The tray: a shadow board. A slot is empty while a part with its ref (a cable with its label)
// is on the bench; removing the part fills it again, with a fresh one.
struct PartSlot {
    PartKind kind{};
    std::string ref;
    double rating = 0.0;
    double charge = 1.0;

    template <class Visit> static void fields(Visit&& visit) {
        visit(&PartSlot::kind, &PartSlot::ref, &PartSlot::rating, &PartSlot::charge);
    }
};

struct CableSlot {
    std::string label;
    double length_m = 0.5, area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;
    std::array<EndKind, 2> ends{EndKind::Bare, EndKind::Bare};

    template <class Visit> static void fields(Visit&& visit) {
        visit(&CableSlot::label,
              &CableSlot::length_m,
              &CableSlot::area_m2,
              &CableSlot::sleeve,
              &CableSlot::ends);
    }
};

struct Reel {
    double area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Reel::area_m2, &Reel::sleeve);
    }
};

struct Kit {
    std::vector<PartSlot> parts;
    std::vector<double> blades_A; // ratings at hand, as many of each as wanted
    std::vector<CableSlot> readyMade;
    std::vector<Reel> reels; // cables are cut from these; empty: only ready-made ones
    // Labels of the cables whose ends are made by hand, "*" all of them; the ends of every other
    // cable are made well in one move.
    std::vector<std::string> handmade;

    template <class Visit> static void fields(Visit&& visit) {
        visit(&Kit::parts, &Kit::blades_A, &Kit::readyMade, &Kit::reels, &Kit::handmade);
    }
};

struct Bench {
    Point board_m{1.06, 0.7075}; // width and height
    Kit kit;
    std::vector<Part> parts;    // in the order laid: later ones lie on top
    std::vector<Cable> cables;  // in the order made
    std::vector<Screw> screws;  // those that are not tightened well
    std::vector<Tie> ties;      // in the order made
    std::optional<Meter> meter; // nothing: it hangs on the wall
    std::uint32_t lastId = 0;
};

// Look-ups; nullptr for an unknown id or ref.
const Part* findPart(const Bench& bench, PartId id);
const Part* findPart(const Bench& bench, const std::string& ref);
const Cable* findCable(const Bench& bench, CableId id);
const Tie* findTie(const Bench& bench, std::uint32_t id);
// The slot's part or cable is out on the bench. The slot is one of bench.kit itself, not a copy:
// where slots share a label, their order tells which is empty.
bool isOut(const Bench& bench, const PartSlot& slot);
bool isOut(const Bench& bench, const CableSlot& slot);

// Ends joined to a terminal, as {cable, 0 or 1}, in the order of the cables.
struct EndRef {
    CableId cable;
    int end = 0;
};

std::vector<EndRef> endsAt(const Bench& bench, TerminalRef terminal);
// Lays the meter's probes down where what they touched is no longer there.
void dropLostProbes(Bench& bench);
// Where a terminal is on the board. The part must exist.
Point terminalAt(const Bench& bench, TerminalRef terminal);
// Where an end is: at its terminal or lying loose.
Point endAt(const Bench& bench, const CableEnd& end);

} // namespace loom::bench
