// SPDX-License-Identifier: MIT
// Reads a record, member by member; see record_write.cpp for what stands where.
#include "attempt/part_kinds.h"
#include "attempt/record_file.h"
#include "attempt/record_words.h"
#include "bench/catalogue.h"
#include "bench/checked_json.h"
#include "bench/file_json.h"
#include "bench/file_words.h"
#include "bench/limits.h"

namespace loom::attempt {

namespace {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Refusal;
using bench::Why;

// Whole numbers beyond it are not exact in JSON.
constexpr std::int64_t greatestSlice = std::int64_t{1} << 53;
constexpr double anywhere_m = 1e300;
constexpr std::size_t longestName = 64;

std::string shortText(const JsonPlace& place) {
    const std::string text = place.text();
    if (text.size() > longestName)
        place.refuse(Why::OutOfRange,
                     phrase("at-most-n-bytes", {{"n", numeral(longestName)}}),
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
        entry.slice = at.member("t").whole(0, greatestSlice);
        const JsonPlace act = at.member("do");
        const std::string word = act.text();
        for (const Row& row : rows()) {
            if (word != row.word) continue;
            entry.command = (this->*row.read)();
            return entry;
        }
        act.refuse(
            Why::UnknownWord, phrase("a-command-such-as-name", {{"name", words::layPart}}), word);
        return entry;
    }

private:
    const JsonPlace& at;
    const PartKinds& kinds;

    struct Row {
        const char* word;
        Command (EntryReader::*read)() const;
    };

    static const std::vector<Row>& rows() {
        static const std::vector<Row> table = {{words::layPart, &EntryReader::layPart},
                                               {words::movePart, &EntryReader::movePart},
                                               {words::turnPart, &EntryReader::turnPart},
                                               {words::removePart, &EntryReader::removePart},
                                               {words::makeCable, &EntryReader::makeCable},
                                               {words::takeCable, &EntryReader::takeCable},
                                               {words::removeCable, &EntryReader::removeCable},
                                               {words::joinEnd, &EntryReader::joinEnd},
                                               {words::freeEnd, &EntryReader::freeEnd},
                                               {words::changeCable, &EntryReader::changeCable},
                                               {words::fitFuse, &EntryReader::fitFuse},
                                               {words::operate, &EntryReader::operate},
                                               {words::wearPart, &EntryReader::wearPart},
                                               {words::wearCable, &EntryReader::wearCable},
                                               {words::stripEnd, &EntryReader::stripEnd},
                                               {words::twistEnd, &EntryReader::twistEnd},
                                               {words::pressEnd, &EntryReader::pressEnd},
                                               {words::pushEnd, &EntryReader::pushEnd},
                                               {words::turnScrew, &EntryReader::turnScrew},
                                               {words::mendScrew, &EntryReader::mendScrew},
                                               {words::tugEnd, &EntryReader::tugEnd},
                                               {words::makeEndWell, &EntryReader::makeEndWell},
                                               {words::tieCable, &EntryReader::tieCable},
                                               {words::cutTie, &EntryReader::cutTie},
                                               {words::placeMeter, &EntryReader::placeMeter},
                                               {words::hangMeter, &EntryReader::hangMeter},
                                               {words::setMeter, &EntryReader::setMeter},
                                               {words::probe, &EntryReader::probe},
                                               {words::fitMeterFuse, &EntryReader::fitMeterFuse},
                                               {words::obstructAxle, &EntryReader::obstructAxle},
                                               {words::wearMeter, &EntryReader::wearMeter},
                                               {words::wearEnd, &EntryReader::wearEnd},
                                               {words::markOff, &EntryReader::markOff},
                                               {words::handInSheet, &EntryReader::handInSheet},
                                               {words::lookAt, &EntryReader::lookAt},
                                               {words::callClear, &EntryReader::callClear},
                                               {words::nameFault, &EntryReader::nameFault},
                                               {words::undo, &EntryReader::undo},
                                               {words::redo, &EntryReader::redo},
                                               {words::askCheck, &EntryReader::askCheck},
                                               {words::askHint, &EntryReader::askHint},
                                               {words::reopened, &EntryReader::reopened}};
        return table;
    }

    std::uint32_t id(const JsonPlace& place) const {
        return static_cast<std::uint32_t>(place.whole(1, bench::greatestId));
    }

    bench::PartId part() const { return {id(at.member("part"))}; }

    bench::CableId cable() const { return {id(at.member("cable"))}; }

    int end() const { return static_cast<int>(at.member("end").whole(0, 1)); }

    int turns() const { return static_cast<int>(at.member("turns").whole(0, 3)); }

    double area_m2() const { return bench::area_m2FromMm2(at.member("mm2").number(0.0, 1000.0)); }

    double length_m() const { return at.member("length").number(0.0, bench::kLengthMost_m); }

    std::string label() const {
        const JsonPlace place = at.member("label");
        const std::string text = place.text();
        if (place.ok() && !text.empty()) place.refuse(bench::whyNotName(place.pointer(), text));
        return text;
    }

    std::vector<JsonPlace> pairOf(const char* name) const {
        const JsonPlace place = at.member(name);
        std::vector<JsonPlace> items = place.items(2);
        if (place.ok() && items.size() != 2)
            place.refuse(Why::OutOfRange, phrase("2-items"), numeral(items.size()));
        return place.ok() ? items : std::vector<JsonPlace>{place, place};
    }

    bench::Point point(const char* name) const {
        const std::vector<JsonPlace> pair = pairOf(name);
        return {pair[0].number(-anywhere_m, anywhere_m), pair[1].number(-anywhere_m, anywhere_m)};
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

    bench::TerminalRef terminal(const char* name) const {
        const std::vector<JsonPlace> pair = pairOf(name);
        bench::TerminalRef ref;
        ref.part = {id(pair[0])};
        const bench::PartSpec* kind = specOf(ref.part, pair[0]);
        if (!kind) return ref;
        std::vector<const char*> terminals;
        for (const bench::TerminalSpec& terminal : kind->terminals)
            terminals.push_back(terminal.word);
        ref.terminal = static_cast<std::uint8_t>(pair[1].oneOf(terminals));
        return ref;
    }

    bench::Sleeve sleeve() const {
        const JsonPlace place = at.member("sleeve");
        const std::string text = place.text();
        const auto colour = bench::sleeveFromWord(text.c_str());
        if (!colour)
            place.refuse(Why::UnknownWord, phrase("a-sleeve-colour-such-as-red-or-black"), text);
        return colour.value_or(bench::Sleeve::Red);
    }

    Command layPart() const {
        return bench::LayPart{shortText(at.member("ref")), point("at"), turns()};
    }

    Command movePart() const { return bench::MovePart{part(), point("at")}; }

    Command turnPart() const { return bench::TurnPart{part(), turns()}; }

    Command removePart() const { return bench::RemovePart{part()}; }

    Command makeCable() const {
        return bench::MakeCable{
            terminal("from"), terminal("to"), area_m2(), sleeve(), length_m(), label()};
    }

    Command takeCable() const { return bench::TakeCable{label(), point("first"), point("second")}; }

    Command removeCable() const { return bench::RemoveCable{cable()}; }

    Command joinEnd() const { return bench::JoinEnd{cable(), end(), terminal("to")}; }

    Command freeEnd() const { return bench::FreeEnd{cable(), end(), point("at")}; }

    Command changeCable() const {
        return bench::ChangeCable{cable(), area_m2(), sleeve(), length_m(), label()};
    }

    Command fitFuse() const {
        return bench::FitFuse{part(), at.member("rating").number(0.0, 500.0)};
    }

    Command operate() const {
        const bench::PartId moved = part();
        const bench::PartSpec* kind = specOf(moved, at.member("part"));
        if (!kind) return bench::Edit{bench::Operate{}};
        return bench::Operate{moved,
                              static_cast<int>(at.member("position").oneOf(kind->positions))};
    }

    Command wearPart() const {
        const auto condition = at.member("condition").oneOf(bench::conditionWords);
        return bench::WearPart{part(), static_cast<bench::Condition>(condition)};
    }

    Command wearCable() const {
        const auto condition = at.member("condition").oneOf(bench::cableConditionWords);
        return bench::WearCable{cable(), static_cast<bench::CableCondition>(condition)};
    }

    // Whatever the range, refused by the edit itself.
    double anyNumber(const char* name) const {
        return at.member(name).number(-anywhere_m, anywhere_m);
    }

    Command stripEnd() const { return bench::StripEnd{cable(), end(), anyNumber("strip")}; }

    Command twistEnd() const { return bench::TwistEnd{cable(), end()}; }

    Command pressEnd() const {
        const JsonPlace place = at.member("kind");
        const std::string text = place.text();
        const auto kind = bench::endFromWord(text.c_str());
        if (!kind)
            place.refuse(Why::UnknownWord, phrase("a-kind-of-end-such-as-bare-or-ferrule"), text);
        return bench::PressEnd{cable(), end(), kind.value_or(bench::EndKind::Bare)};
    }

    Command pushEnd() const { return bench::PushEnd{cable(), end(), anyNumber("pushed")}; }

    Command turnScrew() const { return bench::TurnScrew{terminal("screw"), anyNumber("torque")}; }

    Command mendScrew() const { return bench::MendScrew{terminal("screw")}; }

    Command tugEnd() const { return bench::TugEnd{cable(), end()}; }

    Command makeEndWell() const { return bench::MakeEndWell{cable(), end()}; }

    Command wearEnd() const { return bench::WearEnd{cable(), end()}; }

    Command tieCable() const {
        bench::TieCable tie;
        tie.cable = cable();
        tie.along = anyNumber("along");
        if (at.has("other")) {
            tie.other = {id(at.member("other"))};
            tie.otherAlong = anyNumber("otherAlong");
        }
        tie.at_m = point("at");
        return tie;
    }

    Command cutTie() const { return bench::CutTie{id(at.member("tie"))}; }

    Command placeMeter() const { return bench::PlaceMeter{point("at")}; }

    Command hangMeter() const { return bench::HangMeter{}; }

    Command setMeter() const {
        const auto range = at.member("range").oneOf(bench::rangeWords);
        return bench::SetMeter{static_cast<bench::MeterRange>(range)};
    }

    Command probe() const {
        bench::Probe probe;
        probe.which = static_cast<int>(at.member("which").whole(0, 1));
        if (at.has("terminal")) probe.to.terminal = terminal("terminal");
        if (at.has("cable")) {
            probe.to.cable = cable();
            probe.to.end = end();
        }
        return probe;
    }

    Command fitMeterFuse() const { return bench::FitMeterFuse{}; }

    Command wearMeter() const { return bench::WearMeter{}; }

    Command obstructAxle() const {
        bench::ObstructAxle found{part(), at.member("obstructed").truth(), {}};
        if (at.has("by")) found.by = {id(at.member("by"))};
        return found;
    }

    Command markOff() const {
        const auto mark = at.member("mark").oneOf(words::sheetMarks);
        return MarkOff{nameOf(at.member("label")), static_cast<SheetMark>(mark)};
    }

    Command handInSheet() const { return HandInSheet{}; }

    Command lookAt() const { return LookAt{nameOf(at.member("name")), endOrNone()}; }

    Command callClear() const { return CallClear{}; }

    Command nameFault() const { return NameFault{nameOf(at.member("name")), endOrNone()}; }

    int endOrNone() const { return at.has("end") ? end() : -1; }

    static std::string nameOf(const JsonPlace& place) {
        const std::string text = place.text();
        if (place.ok()) place.refuse(bench::whyNotName(place.pointer(), text));
        return text;
    }

    Command undo() const { return Undo{}; }

    Command redo() const { return Redo{}; }

    Command askCheck() const { return AskCheck{}; }

    Command askHint() const { return AskHint{shortText(at.member("check"))}; }

    Command reopened() const { return Reopened{}; }
};

// Format and version come first: the rest of another format, or of a later version, means nothing.
void checkHead(const JsonPlace& root) {
    const JsonPlace format = root.member("format");
    const std::string word = format.text();
    if (!root.ok() || word != words::format) {
        format.refuse(Why::WrongFormat, words::format, word);
        return;
    }
    const JsonPlace version = root.member("version");
    const std::int64_t number = version.whole(1, 1000000);
    if (root.ok() && number > recordVersion)
        version.refuse(Why::LaterVersion,
                       phrase("n-at-most", {{"n", numeral(recordVersion)}}),
                       numeral(number));
}

void readEntries(const JsonPlace& list, Record& record) {
    PartKinds kinds(record.start);
    std::int64_t least = 0;
    for (const JsonPlace& item : list.items(2 * mostEntries)) { // wear comes on top
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
    }
}

Record readRecord(const JsonPlace& root) {
    Record record;
    checkHead(root);
    if (!root.ok()) return record;
    record.exercise = shortText(root.member("exercise"));
    record.exerciseHash = shortText(root.member("exerciseHash"));
    record.seed = hexNumber(root.member("seed"));
    record.slices = root.member("slices").whole(0, greatestSlice);
    record.start = bench::readBench(root.member("start"));
    if (root.ok()) readEntries(root.member("entries"), record);
    return record;
}

} // namespace

bench::Outcome<Record> recordFromJson(std::string_view text) {
    const auto parsed = bench::parseJson(text, greatestRecord_bytes);
    if (!parsed) return parsed.refusal();
    std::optional<Refusal> refusal;
    Record record = readRecord(JsonPlace(parsed.value(), refusal));
    if (refusal) return *refusal;
    return record;
}

} // namespace loom::attempt
