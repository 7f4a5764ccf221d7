// SPDX-License-Identifier: MIT
#include "lesson/wiring_key.h"

#include <algorithm>
#include <cstring>
#include <vector>

namespace loom::lesson {
namespace {

void add(std::string& text, double value) {
    char bytes[sizeof value];
    std::memcpy(bytes, &value, sizeof value);
    text.append(bytes, sizeof bytes);
}

void add(std::string& text, int value) {
    add(text, static_cast<double>(value));
}

void add(std::string& text, const std::string& word) {
    text += word;
    text += '\0';
}

void add(std::string& text, const bench::Bench& bench, bench::TerminalRef at) {
    const bench::Part* part = bench::findPart(bench, at.part);
    add(text, part ? part->ref : std::string());
    add(text, at.terminal);
}

std::string keyOf(const bench::Part& part) {
    std::string text;
    add(text, part.ref);
    for (const int value : {static_cast<int>(part.kind),
                            part.position,
                            static_cast<int>(part.condition),
                            static_cast<int>(part.obstructed)})
        add(text, value);
    add(text, part.rating);
    add(text, part.charge);
    return text;
}

std::string keyOf(const bench::Bench& bench, const bench::Cable& cable) {
    std::string text;
    add(text, cable.label);
    add(text, cable.length_m);
    add(text, cable.area_m2);
    add(text, static_cast<int>(cable.sleeve));
    add(text, static_cast<int>(cable.condition));
    for (const bench::CableEnd& end : cable.ends) {
        add(text, static_cast<int>(end.kind));
        add(text, static_cast<int>(end.at.has_value()));
        if (end.at) add(text, bench, *end.at);
        if (!end.make) continue;
        add(text, end.make->strip_m);
        add(text, end.make->twisted + 2 * end.make->pressed);
        add(text, end.make->pushed_m);
    }
    return text;
}

} // namespace

std::string wiringKey(const bench::Bench& bench) {
    if (!bench.ties.empty()) return {};
    std::vector<std::string> lines;
    for (const bench::Part& part : bench.parts)
        lines.push_back(keyOf(part));
    for (const bench::Cable& cable : bench.cables)
        lines.push_back(keyOf(bench, cable));
    for (const bench::Screw& screw : bench.screws) {
        lines.emplace_back();
        add(lines.back(), bench, screw.at);
        add(lines.back(), screw.torque_Nm);
        add(lines.back(), static_cast<int>(screw.broken));
    }
    std::sort(lines.begin(), lines.end());
    std::string key = std::to_string(bench.parts.size());
    for (const std::string& line : lines) {
        key += line;
        key += '\n';
    }
    return key;
}

} // namespace loom::lesson
