// SPDX-License-Identifier: MIT
// Everything that can be done to a bench, as plain data, and apply(), the only way in.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"

#include <string>
#include <variant>

namespace loom::bench {

// Takes the part of a kit slot out of the tray; it gets the next id.
struct LayPart {
    std::string ref;
    Point at_m;
    int quarterTurns = 0;
};

struct MovePart {
    PartId part;
    Point at_m;
};

struct TurnPart {
    PartId part;
    int quarterTurns = 0; // absolute, 0..3
};

// Back to the tray. Ends joined to it come off and lie where they were.
struct RemovePart {
    PartId part;
};

// Cuts a cable from a reel, makes its ends to suit and joins both; ends made by hand are of the
// kind that suits, with nothing done to them yet, and meet screws as JoinEnd says. An empty label gets the next
// free "W-1", "W-2", …; length 0 means what the distance on the board asks for.
// Refused with NotInTray when the kit has no reel of this size and colour.
struct MakeCable {
    TerminalRef from, to;
    double area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;
    double length_m = 0.0;
    std::string label{};
};

// Takes a ready-made cable out of the tray, both ends loose.
struct TakeCable {
    std::string label;
    Point first_m, second_m;
};

// Off the bench: a ready-made one goes back to its slot in the tray.
struct RemoveCable {
    CableId cable;
};

// Joins an end (loose, or joined elsewhere) to a terminal. An end made by hand stays as it was made
// so far, with nothing pushed in: a clamp's screw must be open (ScrewClosed), a stud's nut is taken
// off by itself and waits to be tightened. Any other end is made well, and its screw with it.
struct JoinEnd {
    CableId cable;
    int end = 0;
    TerminalRef to;
};

// Takes an end off, or moves a loose one.
struct FreeEnd {
    CableId cable;
    int end = 0;
    Point at_m;
};

// Makes a reel cable anew, in place: another size, colour, length or label. A ready-made one is
// refused with NotInTray. An empty label keeps the old one.
struct ChangeCable {
    CableId cable;
    double area_m2 = 1e-6;
    Sleeve sleeve = Sleeve::Red;
    double length_m = 0.5;
    std::string label{};
};

// Fits a fuse of this rating in place of what is there (0: takes it out). The new one is sound.
// BladeBlocks for a part that takes no fuse, NotInTray for a rating not at hand.
struct FitFuse {
    PartId part;
    double rating_A = 0.0;
};

// Sets a control; see Part::position.
struct Operate {
    PartId part;
    int position = 0;
};

// What lasts of what the circuit did. Recorded, never asked for by a hand.
struct WearPart {
    PartId part;
    Condition condition = Condition::Open;
};

struct WearCable {
    CableId cable;
    CableCondition condition = CableCondition::Softened;
};

// Steps of making an end by hand; each takes the end as it is now (one made well counts as made
// with the right figures). OutOfRange outside 0..0.03 m.
struct StripEnd {
    CableId cable;
    int end = 0;
    double strip_m = 0.0; // from now on; a fitting is cut off, and with less than before the twist
};

// NotStripped while no strand is bare.
struct TwistEnd {
    CableId cable;
    int end = 0;
};

// Chooses a fitting and presses it on: NotStripped while no strand is bare. Bare takes the fitting
// off. A joined end takes only what its terminal takes (WrongEnd, TerminalFull). The fitted end of a
// ready-made cable stays as it is (WrongEnd), for StripEnd too.
struct PressEnd {
    CableId cable;
    int end = 0;
    EndKind kind = EndKind::Bare;
};

// NotJoined for a loose end, WrongEnd for a ring, ScrewClosed while the clamp's screw is not open.
struct PushEnd {
    CableId cable;
    int end = 0;
    double pushed_m = 0.0; // into its clamp or onto its tab
};

// The screw of a clamp or the nut of a stud, with the driver or the spanner. WrongEnd for a tab,
// ScrewBroken for one that is broken, OutOfRange outside 0..50 N m.
struct TurnScrew {
    TerminalRef at;
    double torque_Nm = 0.0; // 0: opens it; beyond what it bears: breaks it
};

// A new screw or stud, tightened well.
struct MendScrew {
    TerminalRef at;
};

// Pulls at a joined end by hand. One that does not hold comes off and lies just beside; one that
// holds is CableEnd::tugged. NotJoined for a loose end.
struct TugEnd {
    CableId cable;
    int end = 0;
};

// Everything of an end, and of the screw on it, as it should be: the quick way.
struct MakeEndWell {
    CableId cable;
    int end = 0;
};

// Ties a cable to the frame, or to another where both pass.
struct TieCable {
    CableId cable;
    double along = 0.5;
    CableId other; // none: to the frame
    double otherAlong = 0.5;
    Point at_m;
};

struct CutTie {
    std::uint32_t tie = 0;
};

// The meter off its hook (or somewhere else on the board), and back: probes come off, range off, and
// whoever keeps the meters fits a fresh fuse. The others are refused with MeterAway while it hangs.
struct PlaceMeter {
    Point at_m;
};

struct HangMeter {};

struct SetMeter {
    MeterRange range = MeterRange::Off;
};

struct Probe {
    int which = 0; // 0 red, 1 black
    ProbeTip to;
};

struct FitMeterFuse {}; // a fresh one

// What the yard found by contact. Recorded; unlike wear it is taken up again in a replay.
struct ObstructAxle {
    PartId motor;
    bool obstructed = false;
    CableId by; // what lies against it; none: another part, or nothing
};

// What lasts of what the circuit did to the meter's fuse. Recorded, never asked for by a hand.
struct WearMeter {};

// The strand that stood out at this end burnt off: the end counts as twisted from now on.
// Recorded, never asked for by a hand.
struct WearEnd {
    CableId cable;
    int end = 0;
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
