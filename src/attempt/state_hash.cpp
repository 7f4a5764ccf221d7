// SPDX-License-Identifier: MIT
#include "attempt/state_hash.h"

namespace loom::attempt {

namespace {

template <class Word> std::uint64_t number(Word word) {
    return static_cast<std::uint64_t>(word);
}

} // namespace

void StateHash::add(const std::string& text) {
    add(number(text.size()));
    addBytes(text);
}

void StateHash::add(const bench::Part& part) {
    add(number(part.id.number));
    add(number(part.kind));
    add(part.ref);
    add(part.at_m.x_m);
    add(part.at_m.y_m);
    add(number(part.quarterTurns));
    add(part.rating);
    add(number(part.position));
    add(number(part.condition));
    add(part.charge);
    add(number(part.obstructed));
}

void StateHash::add(const bench::Cable& cable) {
    add(number(cable.id.number));
    add(cable.label);
    add(cable.length_m);
    add(cable.area_m2);
    add(number(cable.sleeve));
    add(number(cable.condition));
    for (const bench::CableEnd& end : cable.ends) {
        add(number(end.kind));
        add(number(end.at ? end.at->part.number : 0u));
        add(number(end.at ? end.at->terminal : 0u));
        add(end.loose_m.x_m);
        add(end.loose_m.y_m);
        const bench::EndMake make = end.make.value_or(bench::EndMake{});
        add(number(end.make.has_value()));
        add(make.strip_m);
        add(number(make.twisted));
        add(number(make.pressed));
        add(make.pushed_m);
        add(number(end.tugged));
    }
}

void StateHash::add(const bench::Screw& screw) {
    add(number(screw.at.part.number));
    add(number(screw.at.terminal));
    add(screw.torque_Nm);
    add(number(screw.broken));
}

void StateHash::add(const bench::Tie& tie) {
    add(number(tie.id));
    add(number(tie.cable.number));
    add(tie.along);
    add(number(tie.other.number));
    add(tie.otherAlong);
    add(tie.at_m.x_m);
    add(tie.at_m.y_m);
}

void StateHash::add(const bench::Meter& meter) {
    add(meter.at_m.x_m);
    add(meter.at_m.y_m);
    add(number(meter.range));
    for (const bench::ProbeTip& tip : meter.probes) {
        add(number(tip.terminal ? tip.terminal->part.number : 0u));
        add(number(tip.terminal ? tip.terminal->terminal : 0u));
        add(number(tip.cable.number));
        add(number(tip.end));
    }
    add(number(meter.fuseOpen));
}

void StateHash::add(const bench::Bench& bench) {
    add(bench.board_m.x_m);
    add(bench.board_m.y_m);
    add(number(bench.parts.size()));
    for (const bench::Part& part : bench.parts)
        add(part);
    add(number(bench.cables.size()));
    for (const bench::Cable& cable : bench.cables)
        add(cable);
    add(number(bench.screws.size()));
    for (const bench::Screw& screw : bench.screws)
        add(screw);
    add(number(bench.ties.size()));
    for (const bench::Tie& tie : bench.ties)
        add(tie);
    add(number(bench.meter.has_value()));
    if (bench.meter) add(*bench.meter);
    add(number(bench.lastId));
}

} // namespace loom::attempt
