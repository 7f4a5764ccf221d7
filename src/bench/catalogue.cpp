// SPDX-License-Identifier: MIT
// One row a kind. Sizes and places are given in millimetres, as they are drawn.
#include "bench/catalogue.h"

#include <algorithm>
#include <cassert>
#include <cstring>

namespace loom::bench {
namespace {

TerminalSpec terminal(
    const char* word, const char* legend, TerminalKind kind, double x_mm, double y_mm, int node) {
    return {word, legend, kind, x_mm / 1000.0, y_mm / 1000.0, node};
}

TerminalSpec m6(const char* word, const char* legend, double x_mm, double y_mm, int node) {
    return terminal(word, legend, TerminalKind::StudM6, x_mm, y_mm, node);
}

TerminalSpec tab(const char* word, const char* legend, double x_mm, double y_mm, int node) {
    return terminal(word, legend, TerminalKind::Tab, x_mm, y_mm, node);
}

// Ten ways, each an upper and a lower hole joined inside.
std::vector<TerminalSpec> blockTerminals() {
    static const char* const words[10][3] = {{"1 upper", "1 lower", "1"},
                                             {"2 upper", "2 lower", "2"},
                                             {"3 upper", "3 lower", "3"},
                                             {"4 upper", "4 lower", "4"},
                                             {"5 upper", "5 lower", "5"},
                                             {"6 upper", "6 lower", "6"},
                                             {"7 upper", "7 lower", "7"},
                                             {"8 upper", "8 lower", "8"},
                                             {"9 upper", "9 lower", "9"},
                                             {"10 upper", "10 lower", "10"}};
    std::vector<TerminalSpec> terminals;
    for (int way = 0; way < 10; ++way) {
        const double x_mm = -162.0 + 35.5 * way;
        terminals.push_back(
            terminal(words[way][0], words[way][2], TerminalKind::Clamp, x_mm, -33, way));
        terminals.push_back(
            terminal(words[way][1], words[way][2], TerminalKind::Clamp, x_mm, 33, way));
    }
    return terminals;
}

PartSpec row(PartKind kind,
             const char* word,
             double width_mm,
             double height_mm,
             std::vector<TerminalSpec> terminals,
             std::vector<const char*> positions = {},
             int restPosition = 0,
             bool springsBack = false) {
    return {kind,
            word,
            width_mm / 1000.0,
            height_mm / 1000.0,
            std::move(terminals),
            std::move(positions),
            restPosition,
            springsBack};
}

std::vector<PartSpec> makeTable() {
    const TerminalKind m8 = TerminalKind::StudM8;
    return {
        row(PartKind::Battery,
            "battery",
            188,
            130,
            {m6("plus", "+", 59, -43, 0), m6("minus", "-", -59, -43, 1)},
            {"free", "strapped"}),
        row(PartKind::Isolator,
            "isolator",
            110,
            140,
            {terminal("in", "", m8, -35, 52, 0), terminal("out", "", m8, 35, 52, 1)},
            {"key out", "off", "on"}),
        row(PartKind::StripFuse,
            "strip-fuse",
            150,
            56,
            {m6("in", "", -50, 0, 0), m6("out", "", 50, 0, 1)}),
        row(PartKind::BladeHolder,
            "blade-holder",
            72,
            84,
            {tab("in", "", -18, 40, 0), tab("out", "", 18, 40, 1)}),
        row(PartKind::Block, "block", 364, 80, blockTerminals()),
        row(PartKind::Relay,
            "relay",
            140,
            120,
            {m6("common", "C", -43, -32, 0),
             m6("normally open", "NO", 0, -32, 1),
             m6("normally closed", "NC", 43, -32, 2),
             tab("coil a", "a", -30, 52, 3),
             tab("coil b", "b", 30, 52, 4)}),
        row(PartKind::Rocker,
            "rocker",
            70,
            124,
            {tab("in", "in", -22, 58, 0),
             tab("out", "out", 0, 58, 1),
             tab("lamp return", "0V", 22, 58, 2)},
            {"off", "on"}),
        row(PartKind::PushButton,
            "push-button",
            84,
            104,
            {tab("in", "", -16, 48, 0), tab("out", "", 16, 48, 1)},
            {"released", "held"},
            0,
            true),
        row(PartKind::Selector,
            "selector",
            100,
            120,
            {tab("forward", "F", -30, 56, 0),
             tab("common", "C", 0, 56, 1),
             tab("reverse", "R", 30, 56, 2)},
            {"reverse", "off", "forward"},
            1),
        row(PartKind::Toggle,
            "toggle",
            60,
            100,
            {tab("in", "", -14, 48, 0), tab("out", "", 14, 48, 1)},
            {"off", "on"}),
        row(PartKind::Headlamp,
            "headlamp",
            110,
            120,
            {tab("in", "", -18, 56, 0), tab("out", "", 18, 56, 1)}),
        row(PartKind::Horn,
            "horn",
            100,
            110,
            {tab("in", "", -18, 52, 0), tab("out", "", 18, 52, 1)}),
        row(PartKind::Resistor,
            "resistor",
            110,
            40,
            {tab("in", "", -51, 0, 0), tab("out", "", 51, 0, 1)}),
        row(PartKind::Diode,
            "diode",
            110,
            40,
            {tab("anode", "A", -51, 0, 0), tab("cathode", "K", 51, 0, 1)}),
        row(PartKind::Motor,
            "motor",
            320,
            112,
            {m6("lead 1", "1", -107, -26, 0), m6("lead 2", "2", -107, 26, 1)}),
    };
}

const std::vector<PartSpec>& table() {
    static const std::vector<PartSpec> rows = makeTable();
    return rows;
}

constexpr const char* endWords[] = {
    "bare", "ferrule", "ring M6", "ring M8", "spade", "piggyback spade"};
constexpr const char* sleeveWords[] = {
    "black", "red", "white", "grey", "orange", "violet", "green", "yellow", "blue", "brown"};

template <class Word, std::size_t count>
std::optional<Word> fromWord(const char* const (&words)[count], const char* text) {
    for (std::size_t i = 0; i < count; ++i) {
        if (std::strcmp(words[i], text) == 0) return static_cast<Word>(i);
    }
    return std::nullopt;
}

} // namespace

const PartSpec& spec(PartKind kind) {
    const PartSpec& row = table()[static_cast<std::size_t>(kind)];
    assert(row.kind == kind);
    return row;
}

const std::vector<PartKind>& allKinds() {
    static const std::vector<PartKind> kinds = [] {
        std::vector<PartKind> all;
        for (const PartSpec& row : table())
            all.push_back(row.kind);
        return all;
    }();
    return kinds;
}

const PartSpec* specFromWord(const char* word) {
    const auto found = std::find_if(table().begin(), table().end(), [&](const PartSpec& row) {
        return std::strcmp(row.word, word) == 0;
    });
    return found == table().end() ? nullptr : &*found;
}

const char* word(EndKind kind) {
    return endWords[static_cast<std::size_t>(kind)];
}

const char* word(Sleeve sleeve) {
    return sleeveWords[static_cast<std::size_t>(sleeve)];
}

std::optional<EndKind> endFromWord(const char* word) {
    return fromWord<EndKind>(endWords, word);
}

std::optional<Sleeve> sleeveFromWord(const char* word) {
    return fromWord<Sleeve>(sleeveWords, word);
}

int capacity(TerminalKind kind) {
    switch (kind) {
    case TerminalKind::StudM6:
    case TerminalKind::StudM8:
        return 3;
    case TerminalKind::Tab:
        return 1;
    case TerminalKind::Clamp:
        return 2;
    }
    return 0;
}

bool fits(EndKind end, TerminalKind terminal) {
    switch (terminal) {
    case TerminalKind::StudM6:
        return end == EndKind::RingM6;
    case TerminalKind::StudM8:
        return end == EndKind::RingM8;
    case TerminalKind::Tab:
        return end == EndKind::Spade || end == EndKind::Piggyback;
    case TerminalKind::Clamp:
        return end == EndKind::Bare || end == EndKind::Ferrule;
    }
    return false;
}

EndKind usualEnd(TerminalKind terminal, double area_m2) {
    switch (terminal) {
    case TerminalKind::StudM6:
        return EndKind::RingM6;
    case TerminalKind::StudM8:
        return EndKind::RingM8;
    case TerminalKind::Tab:
        return area_m2 <= greatestPiggyback_m2 ? EndKind::Piggyback : EndKind::Spade;
    case TerminalKind::Clamp:
        return area_m2 >= 4e-6 ? EndKind::Ferrule : EndKind::Bare;
    }
    return EndKind::Bare;
}

std::string terminalName(const Bench& bench, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    if (!part) return "part " + std::to_string(terminal.part.number);
    const PartSpec& kind = spec(part->kind);
    if (terminal.terminal >= kind.terminals.size())
        return part->ref + " terminal " + std::to_string(terminal.terminal);
    return part->ref + " " + kind.terminals[terminal.terminal].word;
}

std::optional<TerminalRef>
findTerminal(const Bench& bench, const std::string& ref, const std::string& word) {
    const Part* part = findPart(bench, ref);
    if (!part) return std::nullopt;
    const std::vector<TerminalSpec>& terminals = spec(part->kind).terminals;
    for (std::size_t i = 0; i < terminals.size(); ++i) {
        if (word == terminals[i].word) return TerminalRef{part->id, static_cast<std::uint8_t>(i)};
    }
    return std::nullopt;
}

} // namespace loom::bench
