// SPDX-License-Identifier: MIT
// Writes a record. At the top stand format, version, exercise (id, empty: the free bench),
// exerciseHash, seed (hex), slices (how far time has run, in 0.01 s), start (a bench as in its own
// file) and entries. An entry has t (slice), do (the word of an edit's row) and the fields it
// needs (edit.h, command.h), and c, its link of the chain; at the end stands chain. A terminal is [part id, word], a place [x, y] in metres, a torque in N m.
#include "attempt/part_kinds.h"
#include "attempt/record_file.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "bench/file_words.h"
#include "bench/limits.h"
#include "circuit/hash.h"

#include <nlohmann/json.hpp>

namespace loom::attempt {

namespace {

namespace field = bench::field;

std::string quoted(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

// The shortest text that reads back as the same double.
std::string inJson(double value) {
    return nlohmann::json(value).dump();
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
    EntryLine(const Entry& entry, const PartKinds& known) : kinds(known) {
        text = "{\"t\":" + std::to_string(entry.slice);
        std::visit([this](const auto& command) { act(command); }, entry.command);
    }

    // Without the brace at its end.
    const std::string& done() const { return text; }

private:
    const PartKinds& kinds;
    std::string text;

    void raw(const char* name, const std::string& json) {
        text += ",\"" + std::string(name) + "\":" + json;
    }

    void act(const bench::Edit& edit) {
        std::visit([this](const auto& asked) { act(asked); }, edit);
    }

    template <class Asked> void act(const Asked& asked) {
        raw("do", quoted(Asked::kRow.word));
        Asked::fields(FieldWriter<Asked>{*this, asked});
    }

    template <class Asked> struct FieldWriter {
        EntryLine& line;
        const Asked& asked;

        template <class Value, class... Tag>
        void operator()(const char* name, Value Asked::*of, const Tag&... tag) const {
            line.write(name, asked.*of, tag...);
        }

        template <class Value>
        void operator()(const char* name, Value Asked::*of, field::With<Asked> with) const {
            if (asked.*with.id) line.write(name, asked.*of);
        }

        void operator()(const char* name, int Asked::*of, field::PositionOf<Asked> position) const {
            const bench::PartSpec* kind = line.specOf(asked.*position.part);
            const auto index = static_cast<std::size_t>(asked.*of);
            const bool known = kind && index < kind->positions.size();
            line.raw(name, quoted(known ? kind->positions[index] : ""));
        }
    };

    const bench::PartSpec* specOf(bench::PartId part) const {
        const auto kind = kinds.kindOf(part);
        return kind ? &bench::spec(*kind) : nullptr;
    }

    // What its type alone says.
    void write(const char* name, std::uint32_t value) { raw(name, std::to_string(value)); }

    void write(const char* name, bench::PartId value) { write(name, value.number); }

    void write(const char* name, bench::CableId value) { write(name, value.number); }

    void write(const char* name, bool value) { raw(name, value ? "true" : "false"); }

    void write(const char* name, double value) { raw(name, inJson(value)); }

    void write(const char* name, bench::Point value) {
        raw(name, "[" + inJson(value.x_m) + "," + inJson(value.y_m) + "]");
    }

    void write(const char* name, bench::TerminalRef value) {
        const bench::PartSpec* kind = specOf(value.part);
        const bool known = kind && value.terminal < kind->terminals.size();
        raw(name,
            "[" + std::to_string(value.part.number) + "," +
                quoted(known ? kind->terminals[value.terminal].word : "") + "]");
    }

    void write(const char* terminal, const bench::ProbeTip& value) {
        if (value.terminal) write(terminal, *value.terminal);
        if (!value.cable) return;
        write("cable", value.cable);
        write("end", value.end, field::EndNumber{});
    }

    void write(const char* name, bench::Condition value) {
        raw(name, quoted(bench::kConditionWords[static_cast<int>(value)]));
    }

    void write(const char* name, bench::CableCondition value) {
        raw(name, quoted(bench::kCableConditionWords[static_cast<int>(value)]));
    }

    void write(const char* name, bench::MeterRange value) {
        raw(name, quoted(bench::kRangeWords[static_cast<int>(value)]));
    }

    void write(const char* name, SheetMark value) {
        raw(name, quoted(kSheetMarkWords[static_cast<int>(value)]));
    }

    void write(const char* name, bench::Sleeve value) { raw(name, quoted(bench::word(value))); }

    void write(const char* name, bench::EndKind value) { raw(name, quoted(bench::word(value))); }

    // What a tag says besides: of most only reading takes notice.
    template <class Tag> void write(const char* name, int value, Tag) {
        raw(name, std::to_string(value));
    }

    void write(const char* name, int value, field::EndOrNone) {
        if (value >= 0) raw(name, std::to_string(value));
    }

    template <class Tag> void write(const char* name, double value, Tag) { write(name, value); }

    void write(const char* name, double value, field::SquareMillimetres) {
        write(name, bench::area_mm2FromM2(bench::wholeArea_m2(value)));
    }

    void write(const char* name, bench::CableId value, field::IfAny) {
        if (value) write(name, value);
    }

    template <class Tag> void write(const char* name, const std::string& value, Tag) {
        raw(name, quoted(value));
    }
};

std::string eightDigits(std::uint32_t value) {
    const std::string digits = hex(value);
    return std::string(8 - digits.size(), '0') + digits;
}

// Goes along the entries with the chain.
class Links {
public:
    explicit Links(const Record& record) : kinds(record.start) {
        hash.addBytes(quoted(record.exercise) + quoted(record.exerciseHash) + hex(record.seed) +
                      bench::toJson(record.start));
    }

    // The entry's line without the brace at its end.
    std::string add(const Entry& entry) {
        kinds.follow(entry.command);
        std::string line = EntryLine(entry, kinds).done();
        hash.addBytes(line);
        return line;
    }

    void end(std::int64_t slices) { hash.add(static_cast<std::uint64_t>(slices)); }

    std::uint32_t link() const {
        return static_cast<std::uint32_t>(hash.value() ^ (hash.value() >> 32));
    }

private:
    PartKinds kinds;
    circuit::Hash hash;
};

// From here on to the end of the file.
std::string entryLines(const Record& record) {
    Links links(record);
    std::string lines;
    for (const Entry& entry : record.entries) {
        lines += lines.empty() ? "\n" : ",\n";
        lines += links.add(entry);
        if (record.chained) lines += ",\"c\":" + quoted(eightDigits(links.link()));
        lines += "}";
    }
    lines += "\n]";
    links.end(record.slices);
    if (record.chained) lines += ",\n\"chain\":" + quoted(eightDigits(links.link()));
    if (record.altered) lines += ",\n\"altered\":" + std::to_string(*record.altered);
    return lines + "\n}\n";
}

} // namespace

std::vector<std::uint32_t> chainOf(const Record& record) {
    Links links(record);
    std::vector<std::uint32_t> chain;
    for (const Entry& entry : record.entries) {
        links.add(entry);
        chain.push_back(links.link());
    }
    links.end(record.slices);
    chain.push_back(links.link());
    return chain;
}

std::string toJson(const Record& record) {
    return "{\n\"format\":" + quoted(kRecordFormat) +
           ",\n\"version\":" + std::to_string(record.chained ? kRecordVersion : 1) +
           ",\n\"exercise\":" + quoted(record.exercise) +
           ",\n\"exerciseHash\":" + quoted(record.exerciseHash) +
           ",\n\"seed\":" + quoted(hex(record.seed)) +
           ",\n\"slices\":" + std::to_string(record.slices) +
           ",\n\"start\":" + bench::toJson(record.start) + ",\n\"entries\":[" + entryLines(record);
}

} // namespace loom::attempt
