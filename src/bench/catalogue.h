// SPDX-License-Identifier: MIT
// What kinds of part there are: size, terminals, positions of the control. Start with spec(kind).
// Everything about a kind that is data, but for the electrical figures in wiring.cpp.
#pragma once

#include "bench/bench.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loom::bench {

enum class TerminalKind {
    StudM6,
    StudM8,
    Tab,  // 6.3 mm spade tab
    Clamp // one hole of a connector block
};

struct TerminalSpec {
    const char* word;   // in files and for the screen reader: "normally open", "3 upper"
    const char* legend; // printed beside it on the part: "NO", "3", "+"; may be empty
    TerminalKind kind;
    double x_m, y_m; // from the part's centre before turning
    int node;        // terminals of a part with the same number are one metal
    // "upper" where the nodes are counted ways; then `word` is "<node + 1> upper".
    const char* hole = "";
};

// What can be read of one of a part's elements by a command.
enum class ElementClass { Battery, Contact, Fuse, Relay, Lamp, Motor, Other };

struct ElementSpec {
    const char* word; // in commands: "lamp"; empty where the part has only this one
    ElementClass is;
    std::uint8_t from = 0, to = 1; // terminals that it lies between; a relay's coil
};

// How the hand steps through the positions.
enum class ControlKind {
    Plain,  // to the next
    Places, // tapped at the left, in the middle, at the right: the last, the middle, the first
    Key     // key out, off, on: never from the first to the last, because a hand that only pushes
            // the key in must not start anything
};

// Where the hand works the control, in metres from the part's centre before turning.
struct ControlArea {
    double left_m, top_m, right_m, bottom_m;
    bool round; // the disc in this square
};

// Part::rating of a kind that has one. Others keep 0.
struct RatingSpec {
    const char* unit;
    double least, most; // besides 0
    bool mayBeZero;     // also when `least` is more
    double zeroIs;      // what 0 stands for, in the unit; 0: just that (no fuse fitted)
    double leftOut;     // when a file does not say
};

struct FuseSpec {
    double above_A, upTo_A;      // ratings that go in
    std::vector<double> stock_A; // always at hand; empty: those of the kit
};

enum class NameSide { Above, Below, Left, On }; // of the part; Left of a part that stands: Above

// Legends beside the terminals of one kind, from the terminal's centre.
enum class LegendInk { Dark, Pale, White };

struct LegendSpec {
    TerminalKind beside;
    double x_mm, y_mm, size_mm;
    LegendInk ink;
    double least_px; // never smaller
};

// On the wiring plan.
enum class UnderRef { Nothing, Rating, Words }; // words: "plan/under/<word>"

struct PlanBox {
    int across, down; // the least box, in stretches of the grid
    UnderRef under;
};

// What the card of a chosen part says, in this order.
enum class Fact {
    Position,
    Filament, // only when it is gone
    Burnt,    // only when it is
    Voltage,
    Across,
    Forward, // a diode's drop
    Gives,   // a battery's current, either way
    Current,
    ForwardAndReverse, // a selector's currents
    Power,
    Charge,
    Brightness,
    LiveLamp,
    Speed,
    Fuse, // what is fitted and how it fares
    Relay,
    Ends,
    Temperature
};

enum class Traced { Current, Across, Temperature, Charge, Speed };

struct PartSpec {
    PartKind kind{};
    PartClass partClass{};
    const char* word = ""; // in files: "push-button"
    std::string drawing;   // the name of its still body in assets: "parts/push-button"
    double width_m = 0.0, height_m = 0.0;
    std::vector<TerminalSpec> terminals;
    std::vector<const char*> positions; // words in files, index = Part::position; empty: no control
    int restPosition = 0;               // where it is when taken from the tray
    std::optional<int> opensTo;         // the position that its heat moves it to when it opens
    bool restUnwritten = false;         // a file does not say it when it is there
    bool springsBack = false;           // held only while the finger is down
    ControlKind control = ControlKind::Plain;
    std::optional<ControlArea> controlArea; // none: worked from its card
    std::vector<Condition> conditions{Condition::Sound, Condition::Open};
    std::optional<RatingSpec> rating;
    std::optional<FuseSpec> fuse;
    std::vector<ElementSpec> elements{{"", ElementClass::Other}}; // index as in partKey()
    std::vector<Fact> facts;
    bool ratingOnCard = false;                                   // instead of what the part is
    std::vector<Traced> traced{Traced::Current, Traced::Across}; // the usual one first
    NameSide nameSide = NameSide::Above;
    bool ratingInName = false;
    std::vector<LegendSpec> legends; // none: its drawing has them
    PlanBox plan{5, 4, UnderRef::Nothing};
};

const PartSpec& spec(PartKind kind);
const std::vector<PartKind>& allKinds();
// From a file's word; nullptr when unknown.
const PartSpec* specFromWord(const char* word);
bool isA(PartKind kind, PartClass partClass);
bool isA(const Part& part, PartClass partClass);
// Of an isolator's Part::position, 0 being "key out".
inline constexpr int kIsolatorOff = 1, kIsolatorOn = 2;
bool isAnyIsolatorOn(const Bench& bench);
// The first row of this class.
const PartSpec& firstOf(PartClass partClass);
bool canBe(PartKind kind, Condition condition);
// A holder of this kind takes a fuse of this rating.
bool takesFuse(PartKind kind, double rating_A);

// Two terminals and no legend at either: nobody can tell them apart.
bool isEitherWay(const PartSpec& kind);
// Which metal inside the part a terminal belongs to; -1 for a word that the kind does not have.
int metalOf(const PartSpec& kind, const std::string& terminal);

const char* word(PartClass partClass); // "fuse"

const char* word(EndKind kind);  // "ring M6"
const char* word(Sleeve sleeve); // "red"
std::optional<EndKind> endFromWord(const char* word);
std::optional<Sleeve> sleeveFromWord(const char* word);

// How many ends a terminal takes: a stud three, a clamp hole two, a tab one and one more for each
// piggyback spade on it, whichever went on first. Common practice, no source.
int capacity(TerminalKind kind);
// A ring fits the stud of its own size only, a spade a tab, a bare end or ferrule a clamp.
bool fits(EndKind end, TerminalKind terminal);
// The thickest conductor a clamp hole takes, and one a piggyback spade is made for (6.3 mm tabs).
// Common practice, no source.
inline constexpr double kInClampMost_m2 = 16e-6;
inline constexpr double kPiggybackMost_m2 = 2.5e-6;
// The end made at the bench for an empty terminal and this conductor: a ferrule from 4 mm2 on, and
// on a tab a piggyback spade where one is made for the conductor, so that another end can follow.
EndKind usualEnd(TerminalKind terminal, double area_m2);

// A terminal's name for people and files: "K1 normally open", "X1 3 upper".
std::string terminalName(const Bench& bench, TerminalRef terminal);
// From such a name, given as ref and word.
std::optional<TerminalRef>
findTerminal(const Bench& bench, const std::string& ref, const std::string& word);

} // namespace loom::bench
