// SPDX-License-Identifier: MIT
// Everything that can be done to a bench, as plain data, and apply(), the only way in.
#pragma once

#include "bench/fields.h"
#include "bench/limits.h"

#include <string>
#include <variant>

namespace loom::bench {

// Whose doing an edit is. Only a hand's is a step that can be undone.
enum class By {
    Hand,
    Meter,   // taking, setting and probing with the hand meter
    Contact, // what the yard found; recorded, and taken up again in a replay
    Circuit  // what lasts of what the circuit did: recorded, never asked for, left out of a replay
};

// What is known of each edit besides its fields.
struct EditRow {
    const char* word; // in a record
    By by = By::Hand;
    bool takesId = false; // hands out the bench's next id
};

// Takes the part of a kit slot out of the tray; it gets the next id.
struct LayPart {
    static constexpr EditRow kRow{"lay-part", By::Hand, true};

    std::string ref;
    Point at_m;
    int quarterTurns = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("ref", &LayPart::ref, field::ShortText{});
        visit("at", &LayPart::at_m);
        visit("turns", &LayPart::quarterTurns, field::Turns{});
    }
};

struct MovePart {
    static constexpr EditRow kRow{"move-part"};

    PartId part;
    Point at_m;

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &MovePart::part);
        visit("at", &MovePart::at_m);
    }
};

struct TurnPart {
    static constexpr EditRow kRow{"turn-part"};

    PartId part;
    int quarterTurns = 0; // absolute, 0..3

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &TurnPart::part);
        visit("turns", &TurnPart::quarterTurns, field::Turns{});
    }
};

// Back to the tray. Ends joined to it come off and lie where they were.
struct RemovePart {
    static constexpr EditRow kRow{"remove-part"};

    PartId part;

    template <class Visit> static void fields(Visit&& visit) { visit("part", &RemovePart::part); }
};

// Cuts a cable from a reel, makes its ends to suit and joins both; ends made by hand are of the
// kind that suits, with nothing done to them yet, and meet screws as JoinEnd says. An empty label gets the next
// free "W-1", "W-2", …; length 0 means what the distance on the board asks for.
// Refused with NotInTray when the kit has no reel of this size and colour.
struct MakeCable {
    static constexpr EditRow kRow{"make-cable", By::Hand, true};

    TerminalRef from, to;
    double area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;
    double length_m = 0.0;
    std::string label{};

    template <class Visit> static void fields(Visit&& visit) {
        visit("from", &MakeCable::from);
        visit("to", &MakeCable::to);
        visit("mm2", &MakeCable::area_m2, field::SquareMillimetres{});
        visit("sleeve", &MakeCable::sleeve);
        visit("length", &MakeCable::length_m, field::Within{0.0, kLengthMost_m});
        visit("label", &MakeCable::label, field::NameOrEmpty{});
    }
};

// Takes a ready-made cable out of the tray, both ends loose.
struct TakeCable {
    static constexpr EditRow kRow{"take-cable", By::Hand, true};

    std::string label;
    Point first_m, second_m;

    template <class Visit> static void fields(Visit&& visit) {
        visit("label", &TakeCable::label, field::NameOrEmpty{});
        visit("first", &TakeCable::first_m);
        visit("second", &TakeCable::second_m);
    }
};

// Off the bench: a ready-made one goes back to its slot in the tray.
struct RemoveCable {
    static constexpr EditRow kRow{"remove-cable"};

    CableId cable;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &RemoveCable::cable);
    }
};

// Joins an end (loose, or joined elsewhere) to a terminal. An end made by hand stays as it was made
// so far, with nothing pushed in: a clamp's screw must be open (ScrewClosed), a stud's nut is taken
// off by itself and waits to be tightened. Any other end is made well, and its screw with it.
struct JoinEnd {
    static constexpr EditRow kRow{"join-end"};

    CableId cable;
    int end = 0;
    TerminalRef to;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &JoinEnd::cable);
        visit("end", &JoinEnd::end, field::EndNumber{});
        visit("to", &JoinEnd::to);
    }
};

// Takes an end off, or moves a loose one.
struct FreeEnd {
    static constexpr EditRow kRow{"free-end"};

    CableId cable;
    int end = 0;
    Point at_m;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &FreeEnd::cable);
        visit("end", &FreeEnd::end, field::EndNumber{});
        visit("at", &FreeEnd::at_m);
    }
};

// Makes a reel cable anew, in place: another size, colour, length or label. A ready-made one is
// refused with NotInTray. An empty label keeps the old one.
struct ChangeCable {
    static constexpr EditRow kRow{"change-cable"};

    CableId cable;
    double area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;
    double length_m = 0.5;
    std::string label{};

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &ChangeCable::cable);
        visit("mm2", &ChangeCable::area_m2, field::SquareMillimetres{});
        visit("sleeve", &ChangeCable::sleeve);
        visit("length", &ChangeCable::length_m, field::Within{0.0, kLengthMost_m});
        visit("label", &ChangeCable::label, field::NameOrEmpty{});
    }
};

// Fits a fuse of this rating in place of what is there (0: takes it out). The new one is sound.
// BladeBlocks for a part that takes no fuse, NotInTray for a rating not at hand.
struct FitFuse {
    static constexpr EditRow kRow{"fit-fuse"};

    PartId part;
    double rating_A = 0.0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &FitFuse::part);
        visit("rating", &FitFuse::rating_A, field::Within{0.0, 500.0});
    }
};

// Sets a control; see Part::position.
struct Operate {
    static constexpr EditRow kRow{"operate"};

    PartId part;
    int position = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &Operate::part);
        visit("position", &Operate::position, field::PositionOf{&Operate::part});
    }
};

struct WearPart {
    static constexpr EditRow kRow{"wear-part", By::Circuit};

    PartId part;
    Condition condition = Condition::Open;

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &WearPart::part);
        visit("condition", &WearPart::condition);
    }
};

struct WearCable {
    static constexpr EditRow kRow{"wear-cable", By::Circuit};

    CableId cable;
    CableCondition condition = CableCondition::Softened;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &WearCable::cable);
        visit("condition", &WearCable::condition);
    }
};

// Steps of making an end by hand; each takes the end as it is now (one made well counts as made
// with the right figures). OutOfRange outside 0..0.03 m.
struct StripEnd {
    static constexpr EditRow kRow{"strip-end"};

    CableId cable;
    int end = 0;
    double strip_m = 0.0; // from now on; a fitting is cut off, and with less than before the twist

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &StripEnd::cable);
        visit("end", &StripEnd::end, field::EndNumber{});
        visit("strip", &StripEnd::strip_m, field::Millimetres{});
    }
};

// NotStripped while no strand is bare.
struct TwistEnd {
    static constexpr EditRow kRow{"twist-end"};

    CableId cable;
    int end = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &TwistEnd::cable);
        visit("end", &TwistEnd::end, field::EndNumber{});
    }
};

// Chooses a fitting and presses it on: NotStripped while no strand is bare. Bare takes the fitting
// off. A joined end takes only what its terminal takes (WrongEnd, TerminalFull). The fitted end of a
// ready-made cable stays as it is (WrongEnd), for StripEnd too.
struct PressEnd {
    static constexpr EditRow kRow{"press-end"};

    CableId cable;
    int end = 0;
    EndKind kind = EndKind::Bare;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &PressEnd::cable);
        visit("end", &PressEnd::end, field::EndNumber{});
        visit("kind", &PressEnd::kind);
    }
};

// NotJoined for a loose end, WrongEnd for a ring, ScrewClosed while the clamp's screw is not open.
struct PushEnd {
    static constexpr EditRow kRow{"push-end"};

    CableId cable;
    int end = 0;
    double pushed_m = 0.0; // into its clamp or onto its tab

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &PushEnd::cable);
        visit("end", &PushEnd::end, field::EndNumber{});
        visit("pushed", &PushEnd::pushed_m, field::Millimetres{});
    }
};

// The screw of a clamp or the nut of a stud, with the driver or the spanner. WrongEnd for a tab,
// ScrewBroken for one that is broken, OutOfRange outside 0..50 N m.
struct TurnScrew {
    static constexpr EditRow kRow{"turn-screw"};

    TerminalRef at;
    double torque_Nm = 0.0; // 0: opens it; beyond what it bears: breaks it

    template <class Visit> static void fields(Visit&& visit) {
        visit("screw", &TurnScrew::at);
        visit("torque", &TurnScrew::torque_Nm);
    }
};

// A new screw or stud, tightened well.
struct MendScrew {
    static constexpr EditRow kRow{"mend-screw"};

    TerminalRef at;

    template <class Visit> static void fields(Visit&& visit) { visit("screw", &MendScrew::at); }
};

// Pulls at a joined end by hand. One that does not hold comes off and lies just beside; one that
// holds is CableEnd::tugged. NotJoined for a loose end.
struct TugEnd {
    static constexpr EditRow kRow{"tug-end"};

    CableId cable;
    int end = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &TugEnd::cable);
        visit("end", &TugEnd::end, field::EndNumber{});
    }
};

// Everything of an end, and of the screw on it, as it should be: the quick way.
struct MakeEndWell {
    static constexpr EditRow kRow{"make-end-well"};

    CableId cable;
    int end = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &MakeEndWell::cable);
        visit("end", &MakeEndWell::end, field::EndNumber{});
    }
};

// Ties a cable to the frame, or to another where both pass.
struct TieCable {
    static constexpr EditRow kRow{"tie-cable", By::Hand, true};

    CableId cable;
    double along = 0.5;
    CableId other; // none: to the frame
    double otherAlong = 0.5;
    Point at_m;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &TieCable::cable);
        visit("along", &TieCable::along);
        visit("other", &TieCable::other, field::IfAny{});
        visit("otherAlong", &TieCable::otherAlong, field::With{&TieCable::other});
        visit("at", &TieCable::at_m);
    }
};

struct CutTie {
    static constexpr EditRow kRow{"cut-tie"};

    std::uint32_t tie = 0;

    template <class Visit> static void fields(Visit&& visit) { visit("tie", &CutTie::tie); }
};

// The meter off its hook (or somewhere else on the board), and back: probes come off, range off, and
// whoever keeps the meters fits a fresh fuse. The others are refused with MeterAway while it hangs.
struct PlaceMeter {
    static constexpr EditRow kRow{"place-meter", By::Meter};

    Point at_m;

    template <class Visit> static void fields(Visit&& visit) { visit("at", &PlaceMeter::at_m); }
};

struct HangMeter {
    static constexpr EditRow kRow{"hang-meter", By::Meter};

    template <class Visit> static void fields(Visit&&) {}
};

struct SetMeter {
    static constexpr EditRow kRow{"set-meter", By::Meter};

    MeterRange range = MeterRange::Off;

    template <class Visit> static void fields(Visit&& visit) { visit("range", &SetMeter::range); }
};

struct Probe {
    static constexpr EditRow kRow{"probe", By::Meter};

    int which = 0; // 0 red, 1 black
    ProbeTip to;

    template <class Visit> static void fields(Visit&& visit) {
        visit("which", &Probe::which, field::Either{});
        visit("terminal", &Probe::to); // or "cable" and "end", or nothing
    }
};

struct FitMeterFuse {
    static constexpr EditRow kRow{"fit-meter-fuse", By::Meter};

    template <class Visit> static void fields(Visit&&) {}
}; // a fresh one

struct ObstructAxle {
    static constexpr EditRow kRow{"obstruct-axle", By::Contact};

    PartId motor;
    bool obstructed = false;
    CableId by; // what lies against it; none: another part, or nothing

    template <class Visit> static void fields(Visit&& visit) {
        visit("part", &ObstructAxle::motor);
        visit("obstructed", &ObstructAxle::obstructed);
        visit("by", &ObstructAxle::by, field::IfAny{});
    }
};

// The meter's fuse melted.
struct WearMeter {
    static constexpr EditRow kRow{"wear-meter", By::Circuit};

    template <class Visit> static void fields(Visit&&) {}
};

// The strand that stood out at this end burnt off: the end counts as twisted from now on.
struct WearEnd {
    static constexpr EditRow kRow{"wear-end", By::Circuit};

    CableId cable;
    int end = 0;

    template <class Visit> static void fields(Visit&& visit) {
        visit("cable", &WearEnd::cable);
        visit("end", &WearEnd::end, field::EndNumber{});
    }
};

using Edit = std::variant<LayPart,
                          MovePart,
                          TurnPart,
                          RemovePart,
                          MakeCable,
                          TakeCable,
                          RemoveCable,
                          JoinEnd,
                          FreeEnd,
                          ChangeCable,
                          FitFuse,
                          Operate,
                          WearPart,
                          WearCable,
                          StripEnd,
                          TwistEnd,
                          PressEnd,
                          PushEnd,
                          TurnScrew,
                          MendScrew,
                          TugEnd,
                          MakeEndWell,
                          TieCable,
                          CutTie,
                          PlaceMeter,
                          HangMeter,
                          SetMeter,
                          Probe,
                          FitMeterFuse,
                          ObstructAxle,
                          WearMeter,
                          WearEnd>;

const EditRow& rowOf(const Edit& edit);

// The bench after the edit, or why not. Pure: the bench given is untouched.
Outcome<Bench> apply(const Bench& bench, const Edit& edit);

// Whether an end of this kind could be joined here now, and if not, why: what the terminal shows
// before the drop. `moving` is the cable end in the hand (its own place does not count), or none.
struct Held {
    CableId cable; // none: a new cable from a reel, whose end will be made to suit
    int end = 0;
    EndKind kind = EndKind::Bare; // not looked at for a new cable
};

std::optional<Refusal> whyNotJoin(const Bench& bench, const Held& held, TerminalRef to);

// The end MakeCable makes for a terminal as it is now; the terminal must exist. On a tab: the usual
// end while it is empty, a spade on top of piggyback spades, and a piggyback spade under a plain
// spade, so that wiring from reels never gets stuck at a tab.
EndKind endMadeFor(const Bench& bench, TerminalRef to, double area_m2);

// The fuses that FitFuse may put into this part, ascending: the kit's blades or the strips, and the
// one it came with. Empty for a part that takes no fuse.
std::vector<double> ratingsAtHand(const Bench& bench, PartId part);

} // namespace loom::bench
