// SPDX-License-Identifier: MIT
// Reads a record, member by member; see record_write.cpp for what stands where.
#include "attempt/part_kinds.h"
#include "attempt/record_file.h"
#include "bench/catalogue.h"
#include "bench/checked_json.h"
#include "bench/file_json.h"
#include "bench/file_words.h"
#include "bench/limits.h"

#include <nlohmann/json.hpp>

namespace loom::attempt {

namespace {

namespace field = bench::field;
using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Refusal;
using bench::Why;

// Whole numbers beyond it are not exact in JSON.
constexpr std::int64_t kGreatestSlice = std::int64_t{1} << 53;
constexpr double kAnywhere = 1e300;
constexpr std::size_t kLongestName = 64;

std::string shortText(const JsonPlace& place) {
    const std::string text = place.text();
    if (text.size() > kLongestName)
        place.refuse(Why::OutOfRange,
                     phrase("at-most-n-bytes", {{"n", numeral(kLongestName)}}),
                     numeral(text.size()));
    return text;
}

std::uint64_t hexNumber(const JsonPlace& place) {
    const std::string text = place.text();
    std::uint64_t value = 0;
    bool good = !text.empty() && text.size() <= 16;
    for (const char c : text) {
        const bool letter = c >= 'a' && c <= 'f';
        good &= letter || (c >= '0' && c <= '9');
        value = value << 4 | static_cast<std::uint64_t>(letter ? c - 'a' + 10 : c - '0') % 16;
    }
    if (place.ok() && !good)
        place.refuse(Why::OutOfRange, phrase("1-to-16-hex-digits"), phrase("something-else"));
    return value;
}

// One entry, with the kinds of the parts there can be when it comes.
class EntryReader {
public:
    EntryReader(const JsonPlace& item, const PartKinds& known) : at(item), kinds(known) {}

    Entry read() const {
        Entry entry;
        entry.slice = at.member("t").whole(0, kGreatestSlice);
        const JsonPlace act = at.member("do");
        const std::string word = act.text();
        if (!oneOf(bench::Edit{}, word, entry.command) && !oneOf(Command{}, word, entry.command))
            act.refuse(Why::UnknownWord,
                       phrase("a-command-such-as-name", {{"name", bench::LayPart::kRow.word}}),
                       word);
        return entry;
    }

private:
    const JsonPlace& at;
    const PartKinds& kinds;

    // Reads the alternative that has this word; false when none has.
    template <class... Alternatives>
    bool oneOf(const std::variant<Alternatives...>&, const std::string& word, Command& into) const {
        return (readIf<Alternatives>(word, into) || ...);
    }

    template <class Asked> bool readIf(const std::string& word, Command& into) const {
        if constexpr (!std::is_same_v<Asked, bench::Edit>) {
            if (word != Asked::kRow.word) return false;
            Asked asked;
            fields(asked);
            into = std::move(asked);
            return true;
        }
        return false;
    }

    template <class Asked> void fields(Asked& asked) const {
        Asked::fields(FieldReader<Asked>{*this, asked});
    }

    template <class Asked> struct FieldReader {
        const EntryReader& entry;
        Asked& asked;

        template <class Value, class... Tag>
        void operator()(const char* name, Value Asked::*of, const Tag&... tag) const {
            entry.read(name, asked.*of, tag...);
        }

        template <class Value>
        void operator()(const char* name, Value Asked::*of, field::With<Asked> with) const {
            if (asked.*with.id) entry.read(name, asked.*of);
        }

        void operator()(const char* name, int Asked::*of, field::PositionOf<Asked> position) const {
            const bench::PartSpec* kind =
                entry.specOf(asked.*position.part, entry.at.member("part"));
            if (!kind) return;
            asked.*of = static_cast<int>(entry.at.member(name).oneOf(kind->positions));
        }
    };

    std::uint32_t id(const JsonPlace& place) const {
        return static_cast<std::uint32_t>(place.whole(1, bench::kGreatestId));
    }

    int whole(const char* name, int least, int most) const {
        return static_cast<int>(at.member(name).whole(least, most));
    }

    template <class Kind, class Words> Kind word(const char* name, const Words& words) const {
        return static_cast<Kind>(at.member(name).oneOf(words));
    }

    // What its type alone says.
    void read(const char* name, std::uint32_t& value) const { value = id(at.member(name)); }

    void read(const char* name, bench::PartId& value) const { read(name, value.number); }

    void read(const char* name, bench::CableId& value) const { read(name, value.number); }

    void read(const char* name, bool& value) const { value = at.member(name).truth(); }

    void read(const char* name, double& value) const {
        read(
            name, value, {-kAnywhere, kAnywhere}); // refused by the edit itself, whatever its range
    }

    void read(const char* name, bench::Point& value) const {
        const std::vector<JsonPlace> pair = pairOf(name);
        value = {pair[0].number(-kAnywhere, kAnywhere), pair[1].number(-kAnywhere, kAnywhere)};
    }

    void read(const char* name, bench::TerminalRef& value) const {
        const std::vector<JsonPlace> pair = pairOf(name);
        value.part = {id(pair[0])};
        const bench::PartSpec* kind = specOf(value.part, pair[0]);
        if (!kind) return;
        std::vector<const char*> terminals;
        for (const bench::TerminalSpec& terminal : kind->terminals)
            terminals.push_back(terminal.word);
        value.terminal = static_cast<std::uint8_t>(pair[1].oneOf(terminals));
    }

    // At a terminal, or at the end of a cable, or neither.
    void read(const char* terminal, bench::ProbeTip& value) const {
        if (at.has(terminal)) read(terminal, value.terminal.emplace());
        if (!at.has("cable")) return;
        read("cable", value.cable);
        read("end", value.end, field::EndNumber{});
    }

    void read(const char* name, bench::Condition& value) const {
        value = word<bench::Condition>(name, bench::kConditionWords);
    }

    void read(const char* name, bench::CableCondition& value) const {
        value = word<bench::CableCondition>(name, bench::kCableConditionWords);
    }

    void read(const char* name, bench::MeterRange& value) const {
        value = word<bench::MeterRange>(name, bench::kRangeWords);
    }

    void read(const char* name, SheetMark& value) const {
        value = word<SheetMark>(name, kSheetMarkWords);
    }

    void read(const char* name, bench::Sleeve& value) const {
        const JsonPlace place = at.member(name);
        const std::string text = place.text();
        const auto colour = bench::sleeveFromWord(text.c_str());
        if (!colour)
            place.refuse(Why::UnknownWord, phrase("a-sleeve-colour-such-as-red-or-black"), text);
        value = colour.value_or(bench::Sleeve::Red);
    }

    void read(const char* name, bench::EndKind& value) const {
        const JsonPlace place = at.member(name);
        const std::string text = place.text();
        const auto kind = bench::endFromWord(text.c_str());
        if (!kind)
            place.refuse(Why::UnknownWord, phrase("a-kind-of-end-such-as-bare-or-ferrule"), text);
        value = kind.value_or(bench::EndKind::Bare);
    }

    // What a tag says besides.
    void read(const char* name, double& value, field::Within range) const {
        value = at.member(name).number(range.least, range.most);
    }

    void read(const char* name, double& value, field::Millimetres) const { read(name, value); }

    void read(const char* name, double& value, field::SquareMillimetres) const {
        value = bench::area_m2FromMm2(at.member(name).number(0.0, 1000.0));
    }

    void read(const char* name, int& value, field::Turns) const { value = whole(name, 0, 3); }

    void read(const char* name, int& value, field::Either) const { value = whole(name, 0, 1); }

    void read(const char* name, int& value, field::EndNumber) const { value = whole(name, 0, 1); }

    void read(const char* name, int& value, field::EndOrNone) const {
        value = at.has(name) ? whole(name, 0, 1) : -1;
    }

    void read(const char* name, bench::CableId& value, field::IfAny) const {
        if (at.has(name)) read(name, value);
    }

    void read(const char* name, std::string& value, field::ShortText) const {
        value = shortText(at.member(name));
    }

    void read(const char* name, std::string& value, field::Name) const {
        const JsonPlace place = at.member(name);
        value = place.text();
        if (place.ok()) place.refuse(bench::whyNotName(place.pointer(), value));
    }

    void read(const char* name, std::string& value, field::NameOrEmpty) const {
        const JsonPlace place = at.member(name);
        value = place.text();
        if (place.ok() && !value.empty()) place.refuse(bench::whyNotName(place.pointer(), value));
    }

    std::vector<JsonPlace> pairOf(const char* name) const {
        const JsonPlace place = at.member(name);
        std::vector<JsonPlace> items = place.items(2);
        if (place.ok() && items.size() != 2)
            place.refuse(Why::OutOfRange, phrase("2-items"), numeral(items.size()));
        return place.ok() ? items : std::vector<JsonPlace>{place, place};
    }

    // Nothing, and refused, when there can be no such part by then.
    const bench::PartSpec* specOf(bench::PartId part, const JsonPlace& place) const {
        if (!place.ok()) return nullptr;
        const auto kind = kinds.kindOf(part);
        if (kind) return &bench::spec(*kind);
        place.refuse(
            Why::UnknownPart, phrase("the-id-of-a-part-laid-before"), numeral(part.number));
        return nullptr;
    }
};

// Format and version come first: the rest of another format, or of a later version, means nothing.
// Answers the version.
std::int64_t checkHead(const JsonPlace& root) {
    const JsonPlace format = root.member("format");
    const std::string word = format.text();
    if (!root.ok() || word != kRecordFormat) {
        format.refuse(Why::WrongFormat, kRecordFormat, word);
        return 0;
    }
    const JsonPlace version = root.member("version");
    const std::int64_t number = version.whole(1, 1000000);
    if (root.ok() && number > kRecordVersion)
        version.refuse(Why::LaterVersion,
                       phrase("n-at-most", {{"n", numeral(kRecordVersion)}}),
                       numeral(number));
    return number;
}

// Eight hex digits; anything else is a link that does not agree.
std::uint32_t linkIn(const JsonPlace& owner, const char* member) {
    if (!owner.has(member)) return 0;
    const std::string text = shortText(owner.member(member));
    std::uint32_t link = 0;
    for (const char digit : text) {
        const std::size_t value = std::string_view("0123456789abcdef").find(digit);
        if (value == std::string_view::npos) return 0;
        link = link << 4 | static_cast<std::uint32_t>(value);
    }
    return text.size() == 8 ? link : 0;
}

// The first entry whose link is not what it should be.
void checkChain(const std::vector<std::uint32_t>& links, Record& record) {
    const std::vector<std::uint32_t> chain = chainOf(record);
    for (std::size_t i = 0; i < chain.size() && !record.altered; ++i)
        if (links[i] != chain[i]) record.altered = i;
}

void readEntries(const JsonPlace& list, Record& record, std::vector<std::uint32_t>& links) {
    PartKinds kinds(record.start);
    std::int64_t least = 0;
    for (const JsonPlace& item : list.items(2 * kMostEntries)) { // wear comes on top
        if (!list.ok()) return;
        Entry entry = EntryReader(item, kinds).read();
        if (list.ok() && (entry.slice < least || entry.slice > record.slices))
            item.member("t").refuse(
                Why::OutOfRange,
                phrase("n-to-most", {{"n", numeral(least)}, {"most", numeral(record.slices)}}),
                numeral(entry.slice));
        least = entry.slice;
        kinds.follow(entry.command);
        record.entries.push_back(std::move(entry));
        if (record.chained) links.push_back(linkIn(item, "c"));
    }
}

Record readRecord(const JsonPlace& root) {
    Record record;
    record.chained = checkHead(root) > 1;
    if (!root.ok()) return record;
    record.exercise = shortText(root.member("exercise"));
    record.exerciseHash = shortText(root.member("exerciseHash"));
    record.seed = hexNumber(root.member("seed"));
    record.slices = root.member("slices").whole(0, kGreatestSlice);
    record.start = bench::readBench(root.member("start"));
    std::vector<std::uint32_t> links;
    if (root.ok()) readEntries(root.member("entries"), record, links);
    if (!root.ok()) return record;
    if (root.has("altered"))
        record.altered = static_cast<std::size_t>(root.member("altered").whole(0, 2 * kMostEntries));
    if (!record.chained) return record;
    links.push_back(linkIn(root, "chain"));
    checkChain(links, record);
    return record;
}

} // namespace

bench::Outcome<Record> recordFromJson(std::string_view text) {
    const auto parsed = bench::parseJson(text, kGreatestRecord_bytes);
    if (!parsed) return parsed.refusal();
    std::optional<Refusal> refusal;
    Record record = readRecord(JsonPlace(parsed.value(), refusal));
    if (refusal) return *refusal;
    return record;
}

} // namespace loom::attempt
