// SPDX-License-Identifier: MIT
#include "sample_benches.h"

#include "said.h"

#include <cstring>
#include <fstream>
#include <sstream>

namespace loom::bench {
namespace {

bool alike(double left, double right) {
    return std::memcmp(&left, &right, sizeof left) == 0;
}

bool alike(Point left, Point right) {
    return alike(left.x_m, right.x_m) && alike(left.y_m, right.y_m);
}

bool alike(const PartSlot& left, const PartSlot& right) {
    return left.kind == right.kind && left.ref == right.ref && alike(left.rating, right.rating) &&
           alike(left.charge, right.charge);
}

bool alike(const CableSlot& left, const CableSlot& right) {
    return left.label == right.label && alike(left.length_m, right.length_m) &&
           alike(left.area_m2, right.area_m2) && left.sleeve == right.sleeve &&
           left.ends == right.ends;
}

bool alike(const Reel& left, const Reel& right) {
    return alike(left.area_m2, right.area_m2) && left.sleeve == right.sleeve;
}

bool alike(const Part& left, const Part& right) {
    return left.id == right.id && left.kind == right.kind && left.ref == right.ref &&
           alike(left.at_m, right.at_m) && left.quarterTurns == right.quarterTurns &&
           alike(left.rating, right.rating) && left.position == right.position &&
           left.condition == right.condition && alike(left.charge, right.charge) &&
           left.obstructed == right.obstructed;
}

bool alike(const EndMake& left, const EndMake& right) {
    return alike(left.strip_m, right.strip_m) && left.twisted == right.twisted &&
           left.pressed == right.pressed && alike(left.pushed_m, right.pushed_m);
}

bool alike(const Screw& left, const Screw& right) {
    return left.at == right.at && alike(left.torque_Nm, right.torque_Nm) &&
           left.broken == right.broken;
}

bool alike(const Tie& left, const Tie& right) {
    return left.id == right.id && left.cable == right.cable && alike(left.along, right.along) &&
           left.other == right.other && alike(left.otherAlong, right.otherAlong) &&
           alike(left.at_m, right.at_m);
}

bool alike(const ProbeTip& left, const ProbeTip& right) {
    return left.terminal == right.terminal && left.cable == right.cable && left.end == right.end;
}

bool alike(const Meter& left, const Meter& right) {
    return alike(left.at_m, right.at_m) && left.range == right.range &&
           alike(left.probes[0], right.probes[0]) && alike(left.probes[1], right.probes[1]) &&
           left.fuseOpen == right.fuseOpen;
}

template <class Thing>
bool alike(const std::optional<Thing>& left, const std::optional<Thing>& right) {
    return left && right ? alike(*left, *right) : left.has_value() == right.has_value();
}

bool alike(const CableEnd& left, const CableEnd& right) {
    return left.kind == right.kind && left.at == right.at && alike(left.loose_m, right.loose_m) &&
           alike(left.make, right.make) && left.tugged == right.tugged;
}

bool alike(const Cable& left, const Cable& right) {
    return left.id == right.id && left.label == right.label &&
           alike(left.length_m, right.length_m) && alike(left.area_m2, right.area_m2) &&
           left.sleeve == right.sleeve && alike(left.ends[0], right.ends[0]) &&
           alike(left.ends[1], right.ends[1]) && left.condition == right.condition;
}

template <class Item> bool alike(const std::vector<Item>& left, const std::vector<Item>& right) {
    if (left.size() != right.size()) return false;
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (!alike(left[i], right[i])) return false;
    }
    return true;
}

} // namespace

bool identical(const Bench& left, const Bench& right) {
    return alike(left.board_m, right.board_m) && alike(left.kit.parts, right.kit.parts) &&
           alike(left.kit.blades_A, right.kit.blades_A) &&
           alike(left.kit.readyMade, right.kit.readyMade) &&
           alike(left.kit.reels, right.kit.reels) && left.kit.handmade == right.kit.handmade &&
           alike(left.screws, right.screws) && alike(left.ties, right.ties) &&
           alike(left.meter, right.meter) && alike(left.parts, right.parts) &&
           alike(left.cables, right.cables) && left.lastId == right.lastId;
}

Bench trayOnly() {
    Bench bench;
    bench.board_m = {1.5, 1.0};
    bench.kit.parts = {{PartKind::Battery, "B1"},
                       {PartKind::Battery, "B2", 0.0, 0.4},
                       {PartKind::Isolator, "Q1"},
                       {PartKind::StripFuse, "F1", 50.0},
                       {PartKind::BladeHolder, "F2", 7.5},
                       {PartKind::Block, "X1"},
                       {PartKind::Relay, "K1"},
                       {PartKind::Rocker, "S1"},
                       {PartKind::Selector, "S2"},
                       {PartKind::PushButton, "S3"},
                       {PartKind::Toggle, "S4"},
                       {PartKind::Headlamp, "E1"},
                       {PartKind::Horn, "P1"},
                       {PartKind::Resistor, "R1", 10.0},
                       {PartKind::Diode, "D1"},
                       {PartKind::Motor, "M1"}};
    bench.kit.blades_A = {3.0, 7.5, 15.0};
    bench.kit.readyMade = {{"P-01", 0.3, 10e-6, Sleeve::Black, {EndKind::RingM6, EndKind::RingM6}},
                           {"P-14", 0.1, 1e-6, Sleeve::Red, {EndKind::Bare, EndKind::Spade}},
                           {"P-14", 0.1, 1e-6, Sleeve::Red, {EndKind::Spade, EndKind::Bare}}};
    bench.kit.reels = {{1e-6, Sleeve::Red},
                       {1e-6, Sleeve::Blue},
                       {2.5e-6, Sleeve::Red},
                       {4e-6, Sleeve::Black},
                       {6e-6, Sleeve::Red},
                       {10e-6, Sleeve::Black},
                       {16e-6, Sleeve::Black},
                       {25e-6, Sleeve::Black}};
    return bench;
}

std::string repositoryFile(const std::string& path) {
    std::ifstream file(std::string(LOOM_SOURCE_DIR) + "/" + path, std::ios::binary);
    REQUIRE_MESSAGE(file.good(), path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

Bench pippin() {
    const Outcome<Bench> read = fromJson(repositoryFile("assets/benches/pippin.loom.json"));
    REQUIRE(read);
    return read.value();
}

Bench done(const Bench& bench, const Edit& edit) {
    const Outcome<Bench> after = apply(bench, edit);
    if (!after) {
        const Refusal& why = after.refusal();
        FAIL(why.place << ": expected " << why.expected << ", found " << why.found);
    }
    return after.value();
}

Refusal refused(const Bench& bench, const Edit& edit) {
    const Outcome<Bench> after = apply(bench, edit);
    REQUIRE_FALSE(after);
    return after.refusal();
}

Bench laid(const Bench& bench, const std::string& ref, double x_m, double y_m) {
    return done(bench, LayPart{ref, {x_m, y_m}});
}

TerminalRef terminal(const Bench& bench, const std::string& ref, const std::string& word) {
    const auto found = findTerminal(bench, ref, word);
    REQUIRE_MESSAGE(found, ref << " " << word);
    return *found;
}

PartId idOf(const Bench& bench, const std::string& ref) {
    return part(bench, ref).id;
}

const Part& part(const Bench& bench, const std::string& ref) {
    const Part* found = findPart(bench, ref);
    REQUIRE_MESSAGE(found, ref);
    return *found;
}

} // namespace loom::bench
