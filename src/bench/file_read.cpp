// SPDX-License-Identifier: MIT
// Reads a bench. Shape, words and ranges are asked for member by member; what must agree across
// members (ids, references, room at a terminal) is checked as the bench grows.
#include "bench/catalogue.h"
#include "bench/checked_json.h"
#include "bench/file.h"
#include "bench/file_json.h"
#include "bench/file_words.h"
#include "bench/joining.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"

#include <algorithm>
#include <cstring>
#include <nlohmann/json.hpp>
#include <set>

namespace loom::bench {
namespace {

std::string name(const JsonPlace& place) {
    std::string text = place.text();
    if (place.ok()) place.refuse(whyNotName(place.pointer(), text));
    return text;
}

PartKind partKind(const JsonPlace& place) {
    std::vector<const char*> words;
    for (const PartKind kind : allKinds())
        words.push_back(spec(kind).word);
    return static_cast<PartKind>(place.oneOf(words));
}

EndKind endKind(const JsonPlace& place) {
    const std::string text = place.text();
    const auto kind = endFromWord(text.c_str());
    if (!kind || text != word(*kind)) // a text may hold a NUL
        place.refuse(Why::UnknownWord,
                     phrase("bare-ferrule-ring-m6-ring-m8-spade-or-piggyback-spade"),
                     text);
    return kind.value_or(EndKind::Bare);
}

Sleeve sleeve(const JsonPlace& place) {
    const std::string text = place.text();
    const auto colour = sleeveFromWord(text.c_str());
    if (!colour || text != word(*colour))
        place.refuse(Why::UnknownWord, phrase("a-sleeve-colour-such-as-red-or-black"), text);
    return colour.value_or(Sleeve::Red);
}

double length_m(const JsonPlace& place) {
    const double length_m = place.number(0.0, kLengthMost_m);
    if (place.ok()) place.refuse(whyNotLength(place.pointer(), length_m));
    return length_m;
}

double area_m2(const JsonPlace& place) {
    return area_m2FromMm2(place.number(kAreaLeast_m2 * 1e6, kAreaMost_m2 * 1e6));
}

double rating(const JsonPlace& owner, PartKind kind) {
    if (!owner.has("rating")) return spec(kind).rating ? spec(kind).rating->leftOut : 0.0;
    const JsonPlace place = owner.member("rating");
    const double rating = place.number(0.0, 1e9);
    if (place.ok()) place.refuse(whyNotRating(place.pointer(), kind, rating));
    return rating;
}

double charge(const JsonPlace& owner) {
    return owner.has("charge") ? owner.member("charge").number(0.0, 1.0) : 1.0;
}

std::vector<JsonPlace> pairOf(const JsonPlace& place) {
    std::vector<JsonPlace> items = place.items(2);
    if (place.ok() && items.size() != 2)
        place.refuse(Why::OutOfRange, phrase("2-items"), numeral(items.size()));
    return place.ok() ? items : std::vector<JsonPlace>{place, place};
}

Point point(const JsonPlace& place, Point board_m) {
    const std::vector<JsonPlace> pair = pairOf(place);
    return {pair[0].number(0.0, board_m.x_m), pair[1].number(0.0, board_m.y_m)};
}

PartSlot partSlot(const JsonPlace& place) {
    PartSlot slot;
    slot.kind = partKind(place.member("kind"));
    slot.ref = name(place.member("ref"));
    slot.rating = rating(place, slot.kind);
    slot.charge = charge(place);
    return slot;
}

CableSlot cableSlot(const JsonPlace& place) {
    CableSlot slot;
    slot.label = name(place.member("label"));
    slot.length_m = length_m(place.member("length"));
    slot.area_m2 = area_m2(place.member("mm2"));
    slot.sleeve = sleeve(place.member("sleeve"));
    const std::vector<JsonPlace> ends = pairOf(place.member("ends"));
    slot.ends = {endKind(ends[0]), endKind(ends[1])};
    return slot;
}

// The items of a list that may be left out.
std::vector<JsonPlace>
optionalItems(const JsonPlace& owner, const char* member, std::size_t greatest) {
    if (!owner.has(member)) return {};
    return owner.member(member).items(greatest);
}

void readKit(const JsonPlace& place, Kit& kit) {
    std::set<std::string> refs;
    for (const JsonPlace& item : optionalItems(place, "parts", kPartsMost)) {
        kit.parts.push_back(partSlot(item));
        if (!refs.insert(kit.parts.back().ref).second)
            item.member("ref").refuse(
                Why::Duplicate, phrase("another-reference"), kit.parts.back().ref);
    }
    for (const JsonPlace& item : optionalItems(place, "blades", kGreatestBlades))
        kit.blades_A.push_back(item.number(0.1, 500.0));
    for (const JsonPlace& item : optionalItems(place, "cables", kCablesMost))
        kit.readyMade.push_back(cableSlot(item));
    for (const JsonPlace& item : optionalItems(place, "reels", kGreatestReels))
        kit.reels.push_back({area_m2(item.member("mm2")), sleeve(item.member("sleeve"))});
    for (const JsonPlace& item : optionalItems(place, "handmade", kCablesMost))
        kit.handmade.push_back(name(item));
}

bool truth(const JsonPlace& owner, const char* member) {
    return owner.has(member) && owner.member(member).truth();
}

EndMake endMake(const JsonPlace& place) {
    EndMake make;
    make.strip_m = place.member("strip").number(0.0, kMakeMost_m);
    make.twisted = truth(place, "twisted");
    make.pressed = truth(place, "pressed");
    make.pushed_m = place.member("pushed").number(0.0, kMakeMost_m);
    return make;
}

// Parts and cables of one file, with the ids met so far.
class BenchReader {
public:
    Bench bench;

    void read(const JsonPlace& root) {
        const JsonPlace board = root.member("board");
        bench.board_m = {board.member("width").number(kBoardLeast_m, kBoardMost_m),
                         board.member("height").number(kBoardLeast_m, kBoardMost_m)};
        if (root.has("kit")) {
            if (!root.member("kit").isObject()) root.member("kit").member("parts");
            readKit(root.member("kit"), bench.kit);
        }
        for (const JsonPlace& item : root.member("parts").items(kPartsMost))
            part(item);
        for (const JsonPlace& item : root.member("cables").items(kCablesMost))
            cable(item);
        for (const JsonPlace& item : optionalItems(root, "screws", kScrewsMost))
            screw(item);
        for (const JsonPlace& item : optionalItems(root, "ties", kTiesMost))
            tie(item);
        if (root.has("meter")) meter(root.member("meter"));
        lastId(root);
    }

private:
    std::set<std::uint32_t> ids;

    std::uint32_t id(const JsonPlace& place) {
        const auto number = static_cast<std::uint32_t>(place.whole(1, kGreatestId));
        if (!ids.insert(number).second)
            place.refuse(Why::Duplicate, phrase("an-id-of-its-own"), numeral(number));
        return number;
    }

    void lastId(const JsonPlace& root) {
        const std::uint32_t greatest = ids.empty() ? 0 : *ids.rbegin();
        bench.lastId = greatest;
        if (root.has("lastId"))
            bench.lastId =
                static_cast<std::uint32_t>(root.member("lastId").whole(greatest, kGreatestId));
    }

    void part(const JsonPlace& place) {
        if (!place.ok()) return;
        Part part;
        part.id = {id(place.member("id"))};
        part.kind = partKind(place.member("kind"));
        const JsonPlace ref = place.member("ref");
        part.ref = name(ref);
        if (findPart(bench, part.ref))
            ref.refuse(Why::Duplicate, phrase("another-reference"), part.ref);
        part.at_m = point(place.member("at"), bench.board_m);
        if (place.has("turns"))
            part.quarterTurns = static_cast<int>(place.member("turns").whole(0, 3));
        part.rating = rating(place, part.kind);
        part.position = position(place, part.kind);
        if (place.has("condition"))
            part.condition = condition(place.member("condition"), part.kind);
        part.charge = charge(place);
        part.obstructed = truth(place, "obstructed");
        if (part.obstructed && !isA(part, PartClass::Motor))
            place.member("obstructed")
                .refuse(Why::OutOfRange, phrase("a-motor"), spec(part.kind).word);
        bench.parts.push_back(part);
    }

    static int position(const JsonPlace& place, PartKind kind) {
        if (!place.has("position")) return spec(kind).restPosition;
        return static_cast<int>(place.member("position").oneOf(spec(kind).positions));
    }

    static Condition condition(const JsonPlace& place, PartKind kind) {
        const auto condition = static_cast<Condition>(place.oneOf(kConditionWords));
        if (!canBe(kind, condition))
            place.refuse(Why::UnknownWord,
                         phrase("sound-or-open"),
                         kConditionWords[static_cast<int>(condition)]);
        return condition;
    }

    void cable(const JsonPlace& place) {
        if (!place.ok()) return;
        Cable cable;
        cable.id = {id(place.member("id"))};
        cable.label = name(place.member("label"));
        cable.length_m = length_m(place.member("length"));
        cable.area_m2 = area_m2(place.member("mm2"));
        cable.sleeve = sleeve(place.member("sleeve"));
        if (place.has("condition"))
            cable.condition =
                static_cast<CableCondition>(place.member("condition").oneOf(kCableConditionWords));
        const std::vector<JsonPlace> ends = pairOf(place.member("ends"));
        for (int end = 0; end < 2 && place.ok(); ++end)
            cableEnd(ends[end], cable, end);
        bench.cables.push_back(cable);
    }

    void cableEnd(const JsonPlace& place, Cable& cable, int end) const {
        CableEnd& made = cable.ends[end];
        made.kind = endKind(place.member("kind"));
        if (place.has("make")) made.make = endMake(place.member("make"));
        made.tugged = truth(place, "tugged");
        if (!place.has("at")) {
            made.loose_m = point(place.member("loose"), bench.board_m);
            return;
        }
        const JsonPlace at = place.member("at");
        const TerminalRef to = terminal(at);
        if (!place.ok()) return;
        at.refuse(whyNotJoinCable(bench, cable, end, made.kind, to));
        made.at = to;
    }

    void screw(const JsonPlace& place) {
        const JsonPlace at = place.member("at");
        Screw screw;
        screw.at = terminal(at);
        screw.torque_Nm = place.member("torque").number(0.0, kTorqueMost_Nm);
        screw.broken = truth(place, "broken");
        if (!place.ok()) return;
        const PartKind owner = findPart(bench, screw.at.part)->kind;
        if (spec(owner).terminals[screw.at.terminal].kind == TerminalKind::Tab)
            at.refuse(Why::WrongEnd, phrase("a-clamp-or-a-stud"), phrase("a-tab"));
        for (const Screw& other : bench.screws)
            if (other.at == screw.at)
                at.refuse(
                    Why::Duplicate, phrase("each-screw-once"), terminalPhrase(bench, screw.at));
        bench.screws.push_back(screw);
    }

    CableId cableThere(const JsonPlace& place) const {
        const CableId id{static_cast<std::uint32_t>(place.whole(1, kGreatestId))};
        if (place.ok() && !findCable(bench, id))
            place.refuse(Why::UnknownCable, phrase("the-id-of-a-cable"), numeral(id.number));
        return id;
    }

    void tie(const JsonPlace& place) {
        if (!place.ok()) return;
        Tie tie;
        tie.id = id(place.member("id"));
        tie.cable = cableThere(place.member("cable"));
        tie.along = place.member("along").number(0.0, 1.0);
        if (place.has("other")) {
            tie.other = cableThere(place.member("other"));
            tie.otherAlong = place.member("otherAlong").number(0.0, 1.0);
            if (place.ok() && tie.other == tie.cable)
                place.member("other").refuse(
                    Why::OutOfRange, phrase("another-cable"), numeral(tie.other.number));
        }
        tie.at_m = point(place.member("at"), bench.board_m);
        bench.ties.push_back(tie);
    }

    ProbeTip probe(const JsonPlace& place) const {
        ProbeTip tip;
        if (place.ok() && !place.isObject()) place.member("at");
        if (place.has("at")) {
            tip.terminal = terminal(place.member("at"));
        } else if (place.has("cable")) {
            tip.cable = cableThere(place.member("cable"));
            tip.end = static_cast<int>(place.member("end").whole(0, 1));
        }
        return tip;
    }

    void meter(const JsonPlace& place) {
        Meter meter;
        meter.at_m = point(place.member("at"), bench.board_m);
        meter.range = static_cast<MeterRange>(place.member("range").oneOf(kRangeWords));
        meter.probes = {probe(place.member("red")), probe(place.member("black"))};
        meter.fuseOpen = truth(place, "fuseOpen");
        bench.meter = meter;
    }

    TerminalRef terminal(const JsonPlace& at) const {
        const JsonPlace owner = at.member("part"), which = at.member("terminal");
        const PartId id{static_cast<std::uint32_t>(owner.whole(1, kGreatestId))};
        const std::string word = which.text();
        if (!at.ok()) return {};
        const Part* part = findPart(bench, id);
        if (!part) {
            owner.refuse(Why::UnknownPart, phrase("the-id-of-a-part"), numeral(id.number));
            return {};
        }
        const auto terminal = findTerminal(bench, part->ref, word);
        if (!terminal)
            which.refuse(Why::UnknownTerminal,
                         phrase("a-terminal-of-the-name", {{"name", spec(part->kind).word}}),
                         word);
        return terminal.value_or(TerminalRef{});
    }
};

// Format and version come first: the rest of another format, or of a later version, means nothing.
void checkHead(const JsonPlace& root) {
    if (!root.has("format")) {
        root.refuse(Why::WrongFormat, kFormatWord, phrase("no-format"));
        return;
    }
    const JsonPlace format = root.member("format");
    const std::string word = format.text();
    if (root.ok() && word != kFormatWord) format.refuse(Why::WrongFormat, kFormatWord, word);
    const JsonPlace version = root.member("version");
    const std::int64_t number = version.whole(1, 1000000);
    if (root.ok() && number > kFileVersion)
        version.refuse(Why::LaterVersion,
                       phrase("n-at-most", {{"n", numeral(kFileVersion)}}),
                       numeral(number));
}

} // namespace

Bench readBench(const JsonPlace& root) {
    checkHead(root);
    BenchReader reader;
    if (root.ok()) reader.read(root);
    return std::move(reader.bench);
}

Outcome<Bench> fromJson(std::string_view text) {
    const Outcome<nlohmann::json> parsed = parseJson(text, kGreatestFile_bytes);
    if (!parsed) return parsed.refusal();
    std::optional<Refusal> refusal;
    Bench bench = readBench(JsonPlace(parsed.value(), refusal));
    if (!refusal) return bench;
    return *refusal;
}

} // namespace loom::bench
