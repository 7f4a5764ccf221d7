// SPDX-License-Identifier: MIT
// What kinds of part there are: size, terminals, positions of the control. Start with spec(kind).
// Figures for the drawing and the hand; the electrical data are in wiring.cpp.
#pragma once

#include "bench/bench.h"

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
};

struct PartSpec {
    PartKind kind;
    const char* word; // in files, and the name of its drawing in assets/parts: "push-button"
    double width_m, height_m;
    std::vector<TerminalSpec> terminals;
    std::vector<const char*> positions; // words in files, index = Part::position; empty: no control
    int restPosition;                   // where it is when taken from the tray
    bool springsBack;                   // held only while the finger is down
};

const PartSpec& spec(PartKind kind);
const std::vector<PartKind>& allKinds();
// From a file's word; nullptr when unknown.
const PartSpec* specFromWord(const char* word);

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
inline constexpr double greatestInClamp_m2 = 16e-6;
inline constexpr double greatestPiggyback_m2 = 2.5e-6;
// The end made at the bench for an empty terminal and this conductor: a ferrule from 4 mm2 on, and
// on a tab a piggyback spade where one is made for the conductor, so that another end can follow.
EndKind usualEnd(TerminalKind terminal, double area_m2);

// A terminal's name for people and files: "K1 normally open", "X1 3 upper".
std::string terminalName(const Bench& bench, TerminalRef terminal);
// From such a name, given as ref and word.
std::optional<TerminalRef>
findTerminal(const Bench& bench, const std::string& ref, const std::string& word);

} // namespace loom::bench
