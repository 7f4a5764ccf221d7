// SPDX-License-Identifier: MIT
// One row a kind. Sizes and places are given in millimetres, as they are drawn.
#include "bench/catalogue.h"

#include <algorithm>
#include <cassert>
#include <cstring>

namespace loom::bench {
namespace {

constexpr double kBladeMost_A = 40.0; // ISO 8820-3 ratings end there
constexpr double kLegendLeast_px = 9.0;

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
        for (const int lower : {0, 1}) {
            terminals.push_back(terminal(words[way][lower],
                                         words[way][2],
                                         TerminalKind::Clamp,
                                         x_mm,
                                         lower ? 33 : -33,
                                         way));
            terminals.back().hole = lower ? "lower" : "upper";
        }
    }
    return terminals;
}

PartSpec newRow(PartClass partClass,
                const char* word,
                double width_mm,
                double height_mm,
                std::vector<TerminalSpec> terminals) {
    PartSpec row;
    row.partClass = partClass;
    row.word = word;
    row.drawing = std::string("parts/") + word;
    row.width_m = width_mm / 1000.0;
    row.height_m = height_mm / 1000.0;
    row.terminals = std::move(terminals);
    return row;
}

ControlArea disc(double x_mm, double y_mm, double radius_mm) {
    return {(x_mm - radius_mm) / 1000.0,
            (y_mm - radius_mm) / 1000.0,
            (x_mm + radius_mm) / 1000.0,
            (y_mm + radius_mm) / 1000.0,
            true};
}

ControlArea field(double left_mm, double top_mm, double right_mm, double bottom_mm) {
    return {left_mm / 1000.0, top_mm / 1000.0, right_mm / 1000.0, bottom_mm / 1000.0, false};
}

// Facts and elements of a plain contact.
PartSpec contact(PartSpec row, std::vector<const char*> positions) {
    row.positions = std::move(positions);
    row.elements = {{"", ElementClass::Contact}};
    row.facts = {Fact::Position, Fact::Current, Fact::Across};
    return row;
}

PartSpec fuse(PartSpec row) {
    row.rating = RatingSpec{"A", 0.1, 500.0, true, 0.0, 0.0};
    row.elements = {{"", ElementClass::Fuse}};
    row.facts = {Fact::Fuse};
    row.traced = {Traced::Current, Traced::Temperature};
    row.plan.under = UnderRef::Rating;
    return row;
}

PartSpec battery() {
    PartSpec row = newRow(PartClass::Battery,
                          "battery",
                          188,
                          130,
                          {m6("plus", "+", 59, -43, 0), m6("minus", "-", -59, -43, 1)});
    row.positions = {"free", "strapped"};
    row.restUnwritten = true;
    row.elements = {{"", ElementClass::Battery}};
    row.facts = {Fact::Voltage, Fact::Gives, Fact::Charge, Fact::Temperature};
    row.traced = {Traced::Current, Traced::Across, Traced::Charge};
    row.nameSide = NameSide::Below;
    row.plan = {9, 5, UnderRef::Words};
    return row;
}

PartSpec isolator() {
    const TerminalKind m8 = TerminalKind::StudM8;
    PartSpec row =
        contact(newRow(PartClass::Isolator,
                       "isolator",
                       110,
                       140,
                       {terminal("in", "", m8, -35, 52, 0), terminal("out", "", m8, 35, 52, 1)}),
                {"key out", "off", "on"});
    row.control = ControlKind::Key;
    row.controlArea = disc(0, -16, 50);
    row.plan = {6, 5, UnderRef::Words};
    return row;
}

PartSpec stripFuse() {
    PartSpec row = fuse(newRow(PartClass::Fuse,
                               "strip-fuse",
                               150,
                               56,
                               {m6("in", "", -50, 0, 0), m6("out", "", 50, 0, 1)}));
    row.fuse = FuseSpec{kBladeMost_A, 500.0, {50.0, 60.0, 80.0}};
    row.ratingInName = true;
    row.plan.across = 7;
    row.plan.down = 3;
    return row;
}

PartSpec bladeHolder() {
    PartSpec row = fuse(newRow(PartClass::Fuse,
                               "blade-holder",
                               72,
                               84,
                               {tab("in", "", -18, 40, 0), tab("out", "", 18, 40, 1)}));
    row.fuse = FuseSpec{0.0, kBladeMost_A, {}};
    return row;
}

PartSpec block() {
    PartSpec row = newRow(PartClass::Block, "block", 364, 80, blockTerminals());
    row.elements = {}; // metal only: nothing to read but voltages between terminals
    row.facts = {Fact::Ends};
    row.traced = {};
    row.nameSide = NameSide::Left;
    row.plan = {3, 3, UnderRef::Nothing};
    return row;
}

PartSpec relay() {
    PartSpec row = newRow(PartClass::Relay,
                          "relay",
                          140,
                          120,
                          {m6("common", "C", -43, -32, 0),
                           m6("normally open", "NO", 0, -32, 1),
                           m6("normally closed", "NC", 43, -32, 2),
                           tab("coil a", "a", -30, 52, 3),
                           tab("coil b", "b", 30, 52, 4)});
    row.conditions = {Condition::Sound, Condition::Open, Condition::Welded};
    row.elements = {{"", ElementClass::Relay, 3, 4}};
    row.facts = {Fact::Relay, Fact::Temperature};
    row.legends = {{TerminalKind::Tab, 0, -15, 12, LegendInk::Pale, kLegendLeast_px},
                   {TerminalKind::StudM6, 0, 20, 12, LegendInk::White, kLegendLeast_px}};
    row.plan = {8, 5, UnderRef::Nothing};
    return row;
}

PartSpec rocker() {
    PartSpec row = contact(newRow(PartClass::LampSwitch,
                                  "rocker",
                                  70,
                                  124,
                                  {tab("in", "in", -22, 58, 0),
                                   tab("out", "out", 0, 58, 1),
                                   tab("lamp return", "0V", 22, 58, 2)}),
                           {"off", "on"});
    row.controlArea = field(-32, -60, 32, 44);
    row.elements = {{"contact", ElementClass::Contact}, {"lamp", ElementClass::Lamp, 1, 2}};
    row.facts = {Fact::Position, Fact::Current, Fact::LiveLamp};
    row.legends = {{TerminalKind::Tab, 0, -22, 11, LegendInk::Pale, 7.5}};
    return row;
}

PartSpec pushButton() {
    PartSpec row = contact(newRow(PartClass::Button,
                                  "push-button",
                                  84,
                                  104,
                                  {tab("in", "", -16, 48, 0), tab("out", "", 16, 48, 1)}),
                           {"released", "held"});
    row.springsBack = true;
    row.controlArea = disc(0, -8, 44);
    return row;
}

PartSpec selector() {
    PartSpec row = contact(newRow(PartClass::Switch,
                                  "selector",
                                  100,
                                  120,
                                  {tab("forward", "F", -30, 56, 0),
                                   tab("common", "C", 0, 56, 1),
                                   tab("reverse", "R", 30, 56, 2)}),
                           {"reverse", "off", "forward"});
    row.restPosition = 1;
    row.control = ControlKind::Places;
    row.controlArea = field(-48, -60, 48, 40);
    row.elements = {{"forward", ElementClass::Contact}, {"reverse", ElementClass::Contact, 1, 2}};
    row.facts = {Fact::Position, Fact::ForwardAndReverse};
    row.traced = {}; // two contacts: its cables tell more
    row.legends = {{TerminalKind::Tab, 0, -23, 12, LegendInk::Pale, kLegendLeast_px}};
    return row;
}

PartSpec toggle() {
    PartSpec row = contact(newRow(PartClass::Switch,
                                  "toggle",
                                  60,
                                  100,
                                  {tab("in", "", -14, 48, 0), tab("out", "", 14, 48, 1)}),
                           {"off", "on"});
    row.controlArea = field(-28, -50, 28, 34);
    return row;
}

PartSpec headlamp() {
    PartSpec row = newRow(PartClass::Lamp,
                          "headlamp",
                          110,
                          120,
                          {tab("in", "", -18, 56, 0), tab("out", "", 18, 56, 1)});
    row.rating = RatingSpec{"V", 6.0, 48.0, true, 24.0, 0.0};
    row.elements = {{"", ElementClass::Lamp}};
    row.facts = {Fact::Filament, Fact::Voltage, Fact::Current, Fact::Power, Fact::Brightness};
    row.plan.under = UnderRef::Words;
    return row;
}

PartSpec horn() {
    PartSpec row = newRow(
        PartClass::Horn, "horn", 100, 110, {tab("in", "", -18, 52, 0), tab("out", "", 18, 52, 1)});
    row.facts = {Fact::Burnt, Fact::Voltage, Fact::Current, Fact::Power, Fact::Temperature};
    row.plan.under = UnderRef::Words;
    return row;
}

PartSpec resistor() {
    PartSpec row = newRow(PartClass::Resistor,
                          "resistor",
                          110,
                          40,
                          {tab("in", "", -51, 0, 0), tab("out", "", 51, 0, 1)});
    row.rating = RatingSpec{"ohm", 0.0, 1e9, true, 0.0, 10.0};
    row.facts = {Fact::Burnt, Fact::Voltage, Fact::Current, Fact::Power, Fact::Temperature};
    row.ratingOnCard = true;
    row.plan = {5, 2, UnderRef::Nothing};
    return row;
}

PartSpec diode() {
    PartSpec row = newRow(PartClass::Diode,
                          "diode",
                          110,
                          40,
                          {tab("anode", "A", -51, 0, 0), tab("cathode", "K", 51, 0, 1)});
    row.facts = {Fact::Burnt, Fact::Forward, Fact::Current, Fact::Temperature};
    row.legends = {{TerminalKind::Tab, 0, -14, 13, LegendInk::Dark, kLegendLeast_px}};
    row.plan = {5, 2, UnderRef::Nothing};
    return row;
}

PartSpec motor() {
    PartSpec row = newRow(PartClass::Motor,
                          "motor",
                          320,
                          112,
                          {m6("lead 1", "1", -107, -26, 0), m6("lead 2", "2", -107, 26, 1)});
    row.elements = {{"", ElementClass::Motor}};
    row.facts = {
        Fact::Burnt, Fact::Speed, Fact::Voltage, Fact::Current, Fact::Power, Fact::Temperature};
    row.traced = {Traced::Current, Traced::Speed};
    row.nameSide = NameSide::On;
    row.legends = {{TerminalKind::StudM6, 19, 0, 13, LegendInk::Dark, kLegendLeast_px}};
    row.plan = {14, 5, UnderRef::Words};
    return row;
}

PartSpec breaker() {
    PartSpec row = contact(newRow(PartClass::Breaker,
                                  "breaker",
                                  150,
                                  84,
                                  {m6("in", "", -50, 0, 0), m6("out", "", 50, 0, 1)}),
                           {"tripped", "set"});
    row.restPosition = 1;
    row.opensTo = 0;
    row.controlArea = disc(0, 0, 25);
    row.conditions = {Condition::Sound};
    row.rating = RatingSpec{"A", 5.0, 100.0, false, 0.0, 30.0};
    row.elements = {{"", ElementClass::Fuse}};
    row.facts = {Fact::Position, Fact::Current, Fact::Across, Fact::Temperature};
    row.traced = {Traced::Current, Traced::Temperature};
    row.ratingInName = true;
    row.plan = {7, 4, UnderRef::Rating};
    return row;
}

// Nothing after the last kind, so that no count has to be kept.
std::optional<PartSpec> rowOf(PartKind kind) {
    switch (kind) {
    case PartKind::Battery:
        return battery();
    case PartKind::Isolator:
        return isolator();
    case PartKind::StripFuse:
        return stripFuse();
    case PartKind::BladeHolder:
        return bladeHolder();
    case PartKind::Block:
        return block();
    case PartKind::Relay:
        return relay();
    case PartKind::Rocker:
        return rocker();
    case PartKind::PushButton:
        return pushButton();
    case PartKind::Selector:
        return selector();
    case PartKind::Toggle:
        return toggle();
    case PartKind::Headlamp:
        return headlamp();
    case PartKind::Horn:
        return horn();
    case PartKind::Resistor:
        return resistor();
    case PartKind::Diode:
        return diode();
    case PartKind::Motor:
        return motor();
    case PartKind::Breaker:
        return breaker();
    }
    return std::nullopt;
}

const std::vector<PartSpec>& table() {
    static const std::vector<PartSpec> rows = [] {
        std::vector<PartSpec> all;
        while (auto row = rowOf(static_cast<PartKind>(all.size()))) {
            row->kind = static_cast<PartKind>(all.size());
            all.push_back(std::move(*row));
        }
        return all;
    }();
    return rows;
}

constexpr const char* kEndWords[] = {
    "bare", "ferrule", "ring M6", "ring M8", "spade", "piggyback spade"};
constexpr const char* kSleeveWords[] = {
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

bool isA(PartKind kind, PartClass partClass) {
    return spec(kind).partClass == partClass;
}

bool isA(const Part& part, PartClass partClass) {
    return isA(part.kind, partClass);
}

const PartSpec& firstOf(PartClass partClass) {
    return *std::find_if(table().begin(), table().end(), [&](const PartSpec& row) {
        return row.partClass == partClass;
    });
}

bool isAnyIsolatorOn(const Bench& bench) {
    return std::any_of(bench.parts.begin(), bench.parts.end(), [](const Part& part) {
        return isA(part, PartClass::Isolator) && part.position == kIsolatorOn;
    });
}

bool isEitherWay(const PartSpec& kind) {
    return kind.terminals.size() == 2 && !*kind.terminals[0].legend && !*kind.terminals[1].legend;
}

int metalOf(const PartSpec& kind, const std::string& word) {
    for (const TerminalSpec& terminal : kind.terminals)
        if (word == terminal.word) return terminal.node;
    return -1;
}

bool canBe(PartKind kind, Condition condition) {
    const std::vector<Condition>& all = spec(kind).conditions;
    return std::find(all.begin(), all.end(), condition) != all.end();
}

bool takesFuse(PartKind kind, double rating_A) {
    const std::optional<FuseSpec>& fuse = spec(kind).fuse;
    return fuse && rating_A > fuse->above_A && rating_A <= fuse->upTo_A;
}

const char* word(PartClass partClass) {
    return firstOf(partClass).fuse ? "fuse" : firstOf(partClass).word;
}

const char* word(EndKind kind) {
    return kEndWords[static_cast<std::size_t>(kind)];
}

const char* word(Sleeve sleeve) {
    return kSleeveWords[static_cast<std::size_t>(sleeve)];
}

std::optional<EndKind> endFromWord(const char* word) {
    return fromWord<EndKind>(kEndWords, word);
}

std::optional<Sleeve> sleeveFromWord(const char* word) {
    return fromWord<Sleeve>(kSleeveWords, word);
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
        return area_m2 <= kPiggybackMost_m2 ? EndKind::Piggyback : EndKind::Spade;
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
