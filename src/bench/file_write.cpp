// SPDX-License-Identifier: MIT
// Writes a bench one part or cable a line, so that two files compare well by eye.
#include "bench/catalogue.h"
#include "bench/file.h"
#include "bench/file_words.h"
#include "bench/limits.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace loom::bench {
namespace {

std::string quoted(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

// The shortest text that reads back as the same double; whole numbers without a fraction.
std::string inJson(double value) {
    if (!std::isfinite(value)) return "0";
    const bool whole = value == std::floor(value) && std::fabs(value) < 1e15;
    if (whole && !std::signbit(value)) return std::to_string(static_cast<long long>(value));
    return nlohmann::json(value).dump();
}

// One object on one line.
class Line {
public:
    Line& raw(const char* name, const std::string& json) {
        content += (content.empty() ? "" : ", ") + quoted(name) + ": " + json;
        return *this;
    }

    Line& text(const char* name, const std::string& value) { return raw(name, quoted(value)); }

    Line& number(const char* name, double value) { return raw(name, inJson(value)); }

    // Left out when false.
    Line& mark(const char* name, bool value) { return value ? raw(name, "true") : *this; }

    Line& point(const char* name, Point value) {
        return raw(name, "[" + inJson(value.x_m) + ", " + inJson(value.y_m) + "]");
    }

    std::string done() const { return "{" + content + "}"; }

private:
    std::string content;
};

std::string list(const std::vector<std::string>& items, const std::string& indent) {
    if (items.empty()) return "[]";
    std::string out = "[";
    for (std::size_t i = 0; i < items.size(); ++i)
        out += (i ? ",\n" : "\n") + indent + "  " + items[i];
    return out + "\n" + indent + "]";
}

template <class Item, class Write>
std::string listOf(const std::vector<Item>& items, const std::string& indent, Write write) {
    std::vector<std::string> written;
    for (const Item& item : items)
        written.push_back(write(item));
    return list(written, indent);
}

// A 0 that stands for a usual rating is left out.
bool isRated(PartKind kind, double rating) {
    const std::optional<RatingSpec>& rated = spec(kind).rating;
    return rating != 0.0 || (rated && rated->zeroIs == 0.0);
}

std::string written(const PartSlot& slot) {
    Line line;
    line.text("kind", spec(slot.kind).word).text("ref", slot.ref);
    if (isRated(slot.kind, slot.rating)) line.number("rating", slot.rating);
    if (isA(slot.kind, PartClass::Battery)) line.number("charge", slot.charge);
    return line.done();
}

std::string written(const CableSlot& slot) {
    return Line()
        .text("label", slot.label)
        .number("length", slot.length_m)
        .number("mm2", area_mm2FromM2(slot.area_m2))
        .text("sleeve", word(slot.sleeve))
        .raw("ends", "[" + quoted(word(slot.ends[0])) + ", " + quoted(word(slot.ends[1])) + "]")
        .done();
}

std::string written(const Reel& reel) {
    return Line()
        .number("mm2", area_mm2FromM2(reel.area_m2))
        .text("sleeve", word(reel.sleeve))
        .done();
}

std::string written(const Part& part) {
    const PartSpec& kind = spec(part.kind);
    Line line;
    line.number("id", part.id.number).text("kind", kind.word).text("ref", part.ref);
    line.point("at", part.at_m).number("turns", part.quarterTurns);
    if (isRated(part.kind, part.rating)) line.number("rating", part.rating);
    const auto position = static_cast<std::size_t>(part.position);
    const bool usual = kind.restUnwritten && part.position == kind.restPosition;
    if (position < kind.positions.size() && !usual) line.text("position", kind.positions[position]);
    if (part.condition != Condition::Sound)
        line.text("condition", kConditionWords[static_cast<int>(part.condition)]);
    if (isA(part, PartClass::Battery)) line.number("charge", part.charge);
    return line.mark("obstructed", part.obstructed).done();
}

std::string written(const Bench& bench, TerminalRef at) {
    const Part* part = findPart(bench, at.part);
    if (!part) return "{}";
    return Line()
        .number("part", part->id.number)
        .text("terminal", spec(part->kind).terminals[at.terminal].word)
        .done();
}

std::string written(const EndMake& make) {
    return Line()
        .number("strip", make.strip_m)
        .mark("twisted", make.twisted)
        .mark("pressed", make.pressed)
        .number("pushed", make.pushed_m)
        .done();
}

std::string written(const Bench& bench, const CableEnd& end) {
    Line line;
    line.text("kind", word(end.kind));
    if (end.at)
        line.raw("at", written(bench, *end.at));
    else
        line.point("loose", end.loose_m);
    if (end.make) line.raw("make", written(*end.make));
    return line.mark("tugged", end.tugged).done();
}

std::string written(const Bench& bench, const Screw& screw) {
    return Line()
        .raw("at", written(bench, screw.at))
        .number("torque", screw.torque_Nm)
        .mark("broken", screw.broken)
        .done();
}

std::string written(const Tie& tie) {
    Line line;
    line.number("id", tie.id).number("cable", tie.cable.number).number("along", tie.along);
    if (tie.other) line.number("other", tie.other.number).number("otherAlong", tie.otherAlong);
    return line.point("at", tie.at_m).done();
}

std::string written(const Bench& bench, const ProbeTip& tip) {
    if (tip.terminal) return Line().raw("at", written(bench, *tip.terminal)).done();
    if (!tip.cable) return "{}";
    return Line().number("cable", tip.cable.number).number("end", tip.end).done();
}

std::string written(const Bench& bench, const Meter& meter) {
    return Line()
        .point("at", meter.at_m)
        .text("range", kRangeWords[static_cast<int>(meter.range)])
        .raw("red", written(bench, meter.probes[0]))
        .raw("black", written(bench, meter.probes[1]))
        .mark("fuseOpen", meter.fuseOpen)
        .done();
}

std::string written(const Bench& bench, const Cable& cable) {
    Line line;
    line.number("id", cable.id.number).text("label", cable.label);
    line.number("length", cable.length_m).number("mm2", area_mm2FromM2(cable.area_m2));
    line.text("sleeve", word(cable.sleeve));
    if (cable.condition != CableCondition::Sound)
        line.text("condition", kCableConditionWords[static_cast<int>(cable.condition)]);
    line.raw("ends",
             "[" + written(bench, cable.ends[0]) + ", " + written(bench, cable.ends[1]) + "]");
    return line.done();
}

// Left out when there are none.
std::string handmade(const Kit& kit) {
    if (kit.handmade.empty()) return "";
    std::string labels;
    for (const std::string& label : kit.handmade)
        labels += (labels.empty() ? "" : ", ") + quoted(label);
    return ",\n    \"handmade\": [" + labels + "]";
}

std::string written(const Kit& kit) {
    const auto one = [](const auto& item) { return written(item); };
    std::string blades;
    for (const double rating_A : kit.blades_A)
        blades += (blades.empty() ? "" : ", ") + inJson(rating_A);
    return "{\n    \"parts\": " + listOf(kit.parts, "    ", one) + ",\n    \"blades\": [" + blades +
           "],\n    \"cables\": " + listOf(kit.readyMade, "    ", one) +
           ",\n    \"reels\": " + listOf(kit.reels, "    ", one) + handmade(kit) + "\n  }";
}

// Screws, ties and the meter, each left out when there is none to speak of.
std::string handsOn(const Bench& bench) {
    std::string text;
    if (!bench.screws.empty())
        text += ",\n  \"screws\": " + listOf(bench.screws, "  ", [&](const Screw& screw) {
                    return written(bench, screw);
                });
    if (!bench.ties.empty())
        text += ",\n  \"ties\": " +
                listOf(bench.ties, "  ", [](const Tie& tie) { return written(tie); });
    if (bench.meter) text += ",\n  \"meter\": " + written(bench, *bench.meter);
    return text;
}

} // namespace

std::string toJson(const Bench& bench) {
    const std::string board =
        Line().number("width", bench.board_m.x_m).number("height", bench.board_m.y_m).done();
    const std::string parts =
        listOf(bench.parts, "  ", [](const Part& part) { return written(part); });
    const std::string cables =
        listOf(bench.cables, "  ", [&](const Cable& cable) { return written(bench, cable); });
    return "{\n  \"format\": " + quoted(kFormatWord) +
           ",\n  \"version\": " + std::to_string(kFileVersion) + ",\n  \"board\": " + board +
           ",\n  \"lastId\": " + std::to_string(bench.lastId) +
           ",\n  \"kit\": " + written(bench.kit) + ",\n  \"parts\": " + parts +
           ",\n  \"cables\": " + cables + handsOn(bench) + "\n}\n";
}

} // namespace loom::bench
