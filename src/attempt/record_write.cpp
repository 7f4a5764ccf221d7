// SPDX-License-Identifier: MIT
// Writes a record. At the top stand format, version, exercise (id, empty: the free bench),
// exerciseHash, seed (hex), slices (how far time has run, in 0.01 s), start (a bench as in its own
// file) and entries. An entry has t (slice), do (a word of record_words.h) and what that word
// needs; a terminal is [part id, word], a place [x, y] in metres, a torque in N m.
#include "attempt/part_kinds.h"
#include "attempt/record_file.h"
#include "attempt/record_words.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "bench/file_words.h"
#include "bench/limits.h"

#include <nlohmann/json.hpp>

namespace loom::attempt {

namespace {

std::string quoted(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

// The shortest text that reads back as the same double.
std::string inJson(double value) {
    return nlohmann::json(value).dump();
}

std::string inJson(bench::Point point) {
    return "[" + inJson(point.x_m) + "," + inJson(point.y_m) + "]";
}

std::string hex(std::uint64_t value) {
    const char* const digits = "0123456789abcdef";
    std::string text;
    do {
        text.insert(text.begin(), digits[value & 15]);
        value >>= 4;
    } while (value);
    return text;
}

// One entry on one line.
class EntryLine {
public:
    EntryLine(const Entry& written, const PartKinds& known) : entry(written), kinds(known) {
        text = "{\"t\":" + std::to_string(entry.slice);
        std::visit([this](const auto& command) { write(command); }, entry.command);
        text += "}";
    }

    const std::string& done() const { return text; }

private:
    const Entry& entry;
    const PartKinds& kinds;
    std::string text;

    EntryLine& raw(const char* name, const std::string& json) {
        text += ",\"" + std::string(name) + "\":" + json;
        return *this;
    }

    EntryLine& act(const char* word) { return raw("do", quoted(word)); }

    EntryLine& part(bench::PartId id) { return raw("part", std::to_string(id.number)); }

    EntryLine& cable(bench::CableId id) { return raw("cable", std::to_string(id.number)); }

    EntryLine& terminal(const char* name, bench::TerminalRef terminal) {
        const auto kind = kinds.kindOf(terminal.part);
        const auto& terminals = bench::spec(kind.value_or(bench::PartKind{})).terminals;
        const bool known = kind && terminal.terminal < terminals.size();
        return raw(name,
                   "[" + std::to_string(terminal.part.number) + "," +
                       quoted(known ? terminals[terminal.terminal].word : "") + "]");
    }

    EntryLine& conductor(double area_m2, bench::Sleeve sleeve, double length_m) {
        raw("mm2", inJson(bench::area_mm2FromM2(bench::wholeArea_m2(area_m2))));
        raw("sleeve", quoted(bench::word(sleeve)));
        return raw("length", inJson(length_m));
    }

    void write(const bench::Edit& edit) {
        std::visit([this](const auto& one) { write(one); }, edit);
    }

    void write(const bench::LayPart& e) {
        act(words::layPart).raw("ref", quoted(e.ref)).raw("at", inJson(e.at_m));
        raw("turns", std::to_string(e.quarterTurns));
    }

    void write(const bench::MovePart& e) {
        act(words::movePart).part(e.part).raw("at", inJson(e.at_m));
    }

    void write(const bench::TurnPart& e) {
        act(words::turnPart).part(e.part).raw("turns", std::to_string(e.quarterTurns));
    }

    void write(const bench::RemovePart& e) { act(words::removePart).part(e.part); }

    void write(const bench::MakeCable& e) {
        act(words::makeCable).terminal("from", e.from).terminal("to", e.to);
        conductor(e.area_m2, e.sleeve, e.length_m).raw("label", quoted(e.label));
    }

    void write(const bench::TakeCable& e) {
        act(words::takeCable).raw("label", quoted(e.label));
        raw("first", inJson(e.first_m)).raw("second", inJson(e.second_m));
    }

    void write(const bench::RemoveCable& e) { act(words::removeCable).cable(e.cable); }

    void write(const bench::JoinEnd& e) {
        act(words::joinEnd).cable(e.cable).raw("end", std::to_string(e.end)).terminal("to", e.to);
    }

    void write(const bench::FreeEnd& e) {
        act(words::freeEnd).cable(e.cable).raw("end", std::to_string(e.end));
        raw("at", inJson(e.at_m));
    }

    void write(const bench::ChangeCable& e) {
        act(words::changeCable).cable(e.cable).conductor(e.area_m2, e.sleeve, e.length_m);
        raw("label", quoted(e.label));
    }

    void write(const bench::FitFuse& e) {
        act(words::fitFuse).part(e.part).raw("rating", inJson(e.rating_A));
    }

    void write(const bench::Operate& e) {
        const auto kind = kinds.kindOf(e.part);
        const auto& positions = bench::spec(kind.value_or(bench::PartKind{})).positions;
        const auto position = static_cast<std::size_t>(e.position);
        const bool known = kind && position < positions.size();
        act(words::operate).part(e.part).raw("position", quoted(known ? positions[position] : ""));
    }

    void write(const bench::WearPart& e) {
        const auto condition = static_cast<std::size_t>(e.condition);
        act(words::wearPart).part(e.part);
        raw("condition", quoted(bench::conditionWords[condition]));
    }

    void write(const bench::WearCable& e) {
        const auto condition = static_cast<std::size_t>(e.condition);
        act(words::wearCable).cable(e.cable);
        raw("condition", quoted(bench::cableConditionWords[condition]));
    }

    EntryLine& end(bench::CableId id, int which) {
        return cable(id).raw("end", std::to_string(which));
    }

    EntryLine& place(bench::Point at_m) { return raw("at", inJson(at_m)); }

    void write(const bench::StripEnd& e) {
        act(words::stripEnd).end(e.cable, e.end).raw("strip", inJson(e.strip_m));
    }

    void write(const bench::TwistEnd& e) { act(words::twistEnd).end(e.cable, e.end); }

    void write(const bench::PressEnd& e) {
        act(words::pressEnd).end(e.cable, e.end).raw("kind", quoted(bench::word(e.kind)));
    }

    void write(const bench::PushEnd& e) {
        act(words::pushEnd).end(e.cable, e.end).raw("pushed", inJson(e.pushed_m));
    }

    void write(const bench::TurnScrew& e) {
        act(words::turnScrew).terminal("screw", e.at).raw("torque", inJson(e.torque_Nm));
    }

    void write(const bench::MendScrew& e) { act(words::mendScrew).terminal("screw", e.at); }

    void write(const bench::TugEnd& e) { act(words::tugEnd).end(e.cable, e.end); }

    void write(const bench::MakeEndWell& e) { act(words::makeEndWell).end(e.cable, e.end); }

    void write(const bench::WearEnd& e) { act(words::wearEnd).end(e.cable, e.end); }

    void write(const bench::TieCable& e) {
        act(words::tieCable).cable(e.cable).raw("along", inJson(e.along));
        if (e.other) raw("other", std::to_string(e.other.number));
        if (e.other) raw("otherAlong", inJson(e.otherAlong));
        place(e.at_m);
    }

    void write(const bench::CutTie& e) { act(words::cutTie).raw("tie", std::to_string(e.tie)); }

    void write(const bench::PlaceMeter& e) { act(words::placeMeter).place(e.at_m); }

    void write(const bench::HangMeter&) { act(words::hangMeter); }

    void write(const bench::SetMeter& e) {
        act(words::setMeter).raw("range", quoted(bench::rangeWords[static_cast<int>(e.range)]));
    }

    void write(const bench::Probe& e) {
        act(words::probe).raw("which", std::to_string(e.which));
        if (e.to.terminal) terminal("terminal", *e.to.terminal);
        if (e.to.cable) end(e.to.cable, e.to.end);
    }

    void write(const bench::FitMeterFuse&) { act(words::fitMeterFuse); }

    void write(const bench::WearMeter&) { act(words::wearMeter); }

    void write(const bench::ObstructAxle& e) {
        act(words::obstructAxle).part(e.motor).raw("obstructed", e.obstructed ? "true" : "false");
        if (e.by) raw("by", std::to_string(e.by.number));
    }

    void write(const MarkOff& mark) {
        act(words::markOff).raw("label", quoted(mark.label));
        raw("mark", quoted(words::sheetMarks[static_cast<int>(mark.mark)]));
    }

    void write(const HandInSheet&) { act(words::handInSheet); }

    // End -1 is left out.
    void named(const char* word, const std::string& name, int which) {
        act(word).raw("name", quoted(name));
        if (which >= 0) raw("end", std::to_string(which));
    }

    void write(const LookAt& look) { named(words::lookAt, look.name, look.end); }

    void write(const CallClear&) { act(words::callClear); }

    void write(const NameFault& fault) { named(words::nameFault, fault.name, fault.end); }

    void write(const Undo&) { act(words::undo); }

    void write(const Redo&) { act(words::redo); }

    void write(const AskCheck&) { act(words::askCheck); }

    void write(const AskHint& ask) { act(words::askHint).raw("check", quoted(ask.check)); }

    void write(const Reopened&) { act(words::reopened); }
};

std::string entryLines(const Record& record) {
    PartKinds kinds(record.start);
    std::string lines;
    for (const Entry& entry : record.entries) {
        kinds.follow(entry.command);
        lines += lines.empty() ? "\n" : ",\n";
        lines += EntryLine(entry, kinds).done();
    }
    return lines;
}

} // namespace

std::string toJson(const Record& record) {
    return "{\n\"format\":" + quoted(words::format) +
           ",\n\"version\":" + std::to_string(recordVersion) +
           ",\n\"exercise\":" + quoted(record.exercise) +
           ",\n\"exerciseHash\":" + quoted(record.exerciseHash) +
           ",\n\"seed\":" + quoted(hex(record.seed)) +
           ",\n\"slices\":" + std::to_string(record.slices) +
           ",\n\"start\":" + bench::toJson(record.start) + ",\n\"entries\":[" + entryLines(record) +
           "\n]\n}\n";
}

} // namespace loom::attempt
