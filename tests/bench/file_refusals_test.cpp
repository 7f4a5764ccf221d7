// SPDX-License-Identifier: MIT
// Damaged and hostile files: each is refused with the place, none does harm.
#include "said.h"
#include "sample_benches.h"

#include <nlohmann/json.hpp>
#include <random>

namespace loom::bench {
namespace {

using nlohmann::json;

// Two parts and a cable between them, to be spoilt in one place.
json soundFile() {
    return json::parse(R"({
        "format": "loomwright bench", "version": 1, "board": {"width": 1.06, "height": 0.7},
        "lastId": 6,
        "kit": {"parts": [{"kind": "battery", "ref": "B1"}, {"kind": "horn", "ref": "P1"}],
                "blades": [3, 5],
                "cables": [{"label": "P-1", "length": 1, "mm2": 1, "sleeve": "red",
                            "ends": ["bare", "spade"]}],
                "reels": [{"mm2": 1, "sleeve": "red"}]},
        "parts": [{"id": 1, "kind": "battery", "ref": "B1", "at": [0.2, 0.3], "turns": 1,
                   "charge": 0.5},
                  {"id": 2, "kind": "isolator", "ref": "Q1", "at": [0.6, 0.3],
                   "position": "off"},
                  {"id": 5, "kind": "block", "ref": "X1", "at": [0.6, 0.6]}],
        "cables": [{"id": 3, "label": "P-03", "length": 0.4, "mm2": 10, "sleeve": "red",
                    "ends": [{"kind": "ring M6", "at": {"part": 1, "terminal": "plus"}},
                             {"kind": "ring M8", "at": {"part": 2, "terminal": "in"}}]},
                   {"id": 4, "label": "P-04", "length": 0.4, "mm2": 16, "sleeve": "red",
                    "ends": [{"kind": "bare", "loose": [0.1, 0.1]},
                             {"kind": "bare", "at": {"part": 5, "terminal": "1 upper"},
                              "make": {"strip": 0.01, "twisted": true, "pushed": 0.008},
                              "tugged": true}]}],
        "screws": [{"at": {"part": 5, "terminal": "1 upper"}, "torque": 0.3}],
        "ties": [{"id": 6, "cable": 3, "along": 0.5, "other": 4, "otherAlong": 0.25,
                  "at": [0.3, 0.3]}],
        "meter": {"at": [0.9, 0.1], "range": "volts", "red": {"cable": 4, "end": 0},
                  "black": {"at": {"part": 1, "terminal": "minus"}}}})");
}

Refusal refusedText(const std::string& text) {
    const Outcome<Bench> read = fromJson(text);
    REQUIRE_FALSE(read);
    return read.refusal();
}

// The sound file with the text of one value replaced; "" removes it.
Refusal spoilt(const std::string& pointer, const std::string& value) {
    json file = soundFile();
    const json::json_pointer place(pointer);
    if (!value.empty()) {
        file[place] = json::parse(value);
    } else {
        json& owner = file.at(place.parent_pointer());
        owner.erase(place.back());
    }
    return refusedText(file.dump());
}

} // namespace

TEST_CASE("one wrong value in a file is refused with its place") {
    REQUIRE(fromJson(soundFile().dump()));

    struct Row {
        std::string pointer, value;
        Why why;
        const char* place; // nullptr: the pointer itself
    };

    const Row rows[] = {
        {"/format", "", Why::WrongFormat, ""},
        {"/format", "\"another\"", Why::WrongFormat, nullptr},
        {"/format", "3", Why::WrongType, nullptr},
        {"/version", "", Why::Missing, nullptr},
        {"/version", "2", Why::LaterVersion, nullptr},
        {"/version", "999999", Why::LaterVersion, nullptr},
        {"/version", "0", Why::OutOfRange, nullptr},
        {"/version", "1.5", Why::WrongType, nullptr},
        {"/version", "\"1\"", Why::WrongType, nullptr},
        {"/board", "", Why::Missing, nullptr},
        {"/board", "[1, 2]", Why::WrongType, nullptr},
        {"/board/width", "-1", Why::OutOfRange, nullptr},
        {"/board/height", "1e300", Why::OutOfRange, nullptr},
        {"/board/height", "null", Why::WrongType, nullptr},
        {"/lastId", "5", Why::OutOfRange, nullptr}, // a tie's id is among them
        {"/lastId", "4294967296", Why::OutOfRange, nullptr},
        {"/kit", "[]", Why::WrongType, nullptr},
        {"/kit/parts", "{}", Why::WrongType, nullptr},
        {"/kit/parts/1/ref", "\"B1\"", Why::Duplicate, nullptr},
        {"/kit/parts/0/kind", "\"anvil\"", Why::UnknownWord, nullptr},
        {"/kit/parts/0/rating", "5", Why::OutOfRange, nullptr},
        {"/kit/parts/1/rating", "12", Why::OutOfRange, nullptr}, // a horn has none
        {"/parts/0/rating", "12", Why::OutOfRange, nullptr},
        {"/kit/parts/0/charge", "1.5", Why::OutOfRange, nullptr},
        {"/kit/blades/1", "0", Why::OutOfRange, nullptr},
        {"/kit/blades/1", "true", Why::WrongType, nullptr},
        {"/kit/cables/0/ends", "[\"bare\"]", Why::OutOfRange, nullptr},
        {"/kit/cables/0/ends/1", "\"hook\"", Why::UnknownWord, nullptr},
        {"/kit/reels/0/mm2", "0.4", Why::OutOfRange, nullptr},
        {"/kit/reels/0/sleeve", "\"pink\"", Why::UnknownWord, nullptr},
        {"/kit/reels/0/sleeve", "\"red\\u0000\"", Why::UnknownWord, nullptr},
        {"/parts", "", Why::Missing, nullptr},
        {"/parts", "\"many\"", Why::WrongType, nullptr},
        {"/parts/0", "7", Why::WrongType, nullptr},
        {"/parts/0/id", "0", Why::OutOfRange, nullptr},
        {"/parts/0/id", "1.5", Why::WrongType, nullptr},
        {"/parts/0/id", "-1", Why::OutOfRange, nullptr},
        {"/parts/1/id", "1", Why::Duplicate, nullptr},
        {"/parts/1/ref", "\"B1\"", Why::Duplicate, nullptr},
        {"/parts/1/ref", "\"\"", Why::OutOfRange, nullptr},
        {"/parts/1/ref", "\"a\\nb\"", Why::OutOfRange, nullptr},
        {"/parts/0/kind", "", Why::Missing, nullptr},
        {"/parts/0/at", "[0.2]", Why::OutOfRange, nullptr},
        {"/parts/0/at", "[0.2, 0.3, 0.4]", Why::TooMany, nullptr},
        {"/parts/0/at/0", "2", Why::OutOfRange, nullptr},
        {"/parts/0/at/1", "\"0.3\"", Why::WrongType, nullptr},
        {"/parts/0/turns", "4", Why::OutOfRange, nullptr},
        {"/parts/0/charge", "-0.1", Why::OutOfRange, nullptr},
        {"/parts/0/condition", "\"welded\"", Why::UnknownWord, nullptr},
        {"/parts/0/position", "\"on\"", Why::UnknownWord, nullptr},
        {"/parts/1/position", "\"forward\"", Why::UnknownWord, nullptr},
        {"/parts/1/position", "2", Why::WrongType, nullptr},
        {"/cables/0/id", "2", Why::Duplicate, nullptr},
        {"/cables/1/id", "3", Why::Duplicate, nullptr},
        {"/cables/0/label", "\"1234567890123456789012345\"", Why::OutOfRange, nullptr},
        {"/cables/0/length", "0", Why::OutOfRange, nullptr},
        {"/cables/0/length", "20.1", Why::OutOfRange, nullptr},
        {"/cables/0/mm2", "25.1", Why::OutOfRange, nullptr},
        {"/cables/0/condition", "\"open\"", Why::UnknownWord, nullptr},
        {"/cables/0/ends", "[]", Why::OutOfRange, nullptr},
        {"/cables/0/ends/0/kind", "\"spade\"", Why::WrongEnd, "/cables/0/ends/0/at"},
        {"/cables/0/ends/0/at/part", "9", Why::UnknownPart, nullptr},
        {"/cables/0/ends/0/at/part", "3", Why::UnknownPart, nullptr}, // a cable's id
        {"/cables/0/ends/0/at/terminal", "\"coil a\"", Why::UnknownTerminal, nullptr},
        {"/cables/0/ends/0/at/terminal", "0", Why::WrongType, nullptr},
        {"/cables/0/ends/0/at", "", Why::Missing, "/cables/0/ends/0/loose"},
        {"/cables/1/mm2", "25", Why::OutOfRange, "/cables/1/ends/1/at"}, // too thick for a clamp
        {"/cables/1/ends/0",
         R"({"kind": "bare", "at": {"part": 5, "terminal": "1 upper"}})",
         Why::SameTerminal,
         "/cables/1/ends/1/at"},
        {"/cables/1/ends/0/loose/1", "0.71", Why::OutOfRange, nullptr},
        {"/kit/handmade", "\"*\"", Why::WrongType, nullptr},
        {"/kit/handmade", "[\"\"]", Why::OutOfRange, "/kit/handmade/0"},
        {"/parts/0/obstructed", "true", Why::OutOfRange, nullptr},
        {"/parts/0/obstructed", "1", Why::WrongType, nullptr},
        {"/cables/1/ends/1/make", "true", Why::WrongType, nullptr},
        {"/cables/1/ends/1/make/strip", "0.031", Why::OutOfRange, nullptr},
        {"/cables/1/ends/1/make/pushed", "", Why::Missing, nullptr},
        {"/cables/1/ends/1/make/twisted", "\"yes\"", Why::WrongType, nullptr},
        {"/cables/1/ends/1/tugged", "3", Why::WrongType, nullptr},
        {"/screws", "{}", Why::WrongType, nullptr},
        {"/screws/0/torque", "-1", Why::OutOfRange, nullptr},
        {"/screws/0/torque", "51", Why::OutOfRange, nullptr},
        {"/screws/0/at/part", "77", Why::UnknownPart, nullptr},
        {"/screws/0/at/terminal", "\"plus\"", Why::UnknownTerminal, nullptr},
        {"/screws/0/broken", "\"no\"", Why::WrongType, nullptr},
        {"/ties/0/id", "4", Why::Duplicate, nullptr},
        {"/ties/0/cable", "1", Why::UnknownCable, nullptr}, // a part's id
        {"/ties/0/other", "3", Why::OutOfRange, nullptr},
        {"/ties/0/otherAlong", "", Why::Missing, nullptr},
        {"/ties/0/along", "1.1", Why::OutOfRange, nullptr},
        {"/ties/0/at", "[0.3, 5]", Why::OutOfRange, "/ties/0/at/1"},
        {"/meter/range", "\"weight\"", Why::UnknownWord, nullptr},
        {"/meter/red", "", Why::Missing, nullptr},
        {"/meter/red", "7", Why::WrongType, nullptr},
        {"/meter/red/cable", "9", Why::UnknownCable, nullptr},
        {"/meter/red/end", "2", Why::OutOfRange, nullptr},
        {"/meter/black/at/terminal", "\"in\"", Why::UnknownTerminal, nullptr},
        {"/meter/fuseOpen", "0", Why::WrongType, nullptr},
    };
    for (const Row& row : rows) {
        CAPTURE(row.pointer);
        CAPTURE(row.value);
        const Refusal why = spoilt(row.pointer, row.value);
        CHECK(static_cast<int>(why.why) == static_cast<int>(row.why));
        CHECK(why.place == (row.place ? std::string(row.place) : row.pointer));
        CHECK_FALSE(why.expected.empty());
        CHECK_FALSE(why.found.empty());
    }
}

TEST_CASE("a terminal that holds too much in a file is refused at the end that is one too many") {
    json file = soundFile();
    for (int i = 0; i < 3; ++i) {
        json cable = file["cables"][0];
        cable["id"] = 10 + i;
        cable["ends"][1] = {{"kind", "ring M8"}, {"loose", {0.1, 0.1}}};
        file["cables"].push_back(cable);
    }
    file["lastId"] = 20;
    const Refusal why = refusedText(file.dump());
    CHECK(why.why == Why::TerminalFull);
    CHECK(why.place == "/cables/4/ends/0/at");
}

TEST_CASE("text that is not JSON is refused at its line and column") {
    const struct {
        std::string text, place;
    } rows[] = {
        {"", "line 1, column 1"},
        {"hello", "line 1, column 1"},
        {"{\n  \"format\": nonsense\n}", "line 2, column 14"},
        {"{\n  \"format\": NaN\n}", "line 2, column 13"},
        {"{\"format\": Infinity}", "line 1, column 12"},
        {"{\"a\": 1,}", "line 1, column 9"},
        {"{\"a\": 1} {}", "line 1, column 10"},
        {"{\"a\": \"\xff\"}", "line 1, column 8"},
        {"{\"a\": 01}", "line 1, column 8"},
    };

    for (const auto& row : rows) {
        CAPTURE(row.text);
        const Refusal why = refusedText(row.text);
        CHECK(why.why == Why::NotJson);
        CHECK(why.place == row.place);
    }
}

TEST_CASE("numbers too large for a number are refused") {
    const Refusal why = refusedText("{\"format\": \"loomwright bench\",\n\"version\": 1e999}");
    CHECK(why.why == Why::NotANumber);
    CHECK(why.place == "line 2, column 16");
}

TEST_CASE("JSON that is not a bench is refused as such") {
    const std::string texts[] = {
        "null", "[]", "3", "\"loomwright bench\"", "{}", "{\"parts\": []}"};
    for (const std::string& text : texts) {
        CAPTURE(text);
        CHECK(refusedText(text).why == Why::WrongFormat);
    }
}

TEST_CASE("a later version is refused before anything else in it is looked at") {
    const Refusal why = refusedText(R"({"format": "loomwright bench", "version": 7, "parts": 3})");
    CHECK(why.why == Why::LaterVersion);
    CHECK(why.found == "7");
}

TEST_CASE("a member that stands twice is refused") {
    std::string text = soundFile().dump();
    text.insert(text.find("\"ref\":\"P1\""), "\"ref\":\"P2\",");
    const Refusal why = refusedText(text);
    CHECK(why.why == Why::Duplicate);
    CHECK(why.place == "/kit/parts/1/ref");
}

TEST_CASE("deep nesting and great size are refused at once") {
    const std::size_t depth = 1000000;
    CHECK(refusedText(std::string(depth, '[')).why == Why::TooMany);
    CHECK(refusedText("[7, {\"a\": " + std::string(depth, '[')).place ==
          "/1/a/0/0/0/0/0/0/0/0/0/0/0/0/0/0");
    CHECK(refusedText("{\"a\":" + std::string(depth, '[') + std::string(depth, ']') + "}").why ==
          Why::TooMany);
    CHECK(refusedText(std::string(kGreatestFile_bytes + 1, ' ')).why == Why::TooMany);
    CHECK(refusedText(std::string(kGreatestFile_bytes, ' ')).why == Why::NotJson);
}

TEST_CASE("lists longer than a bench takes are refused") {
    const struct {
        std::string pointer;
        std::size_t most;
    } rows[] = {{"/parts", 400},
                {"/cables", 800},
                {"/kit/parts", 400},
                {"/kit/cables", 800},
                {"/kit/blades", 64},
                {"/kit/reels", 64}};

    for (const auto& row : rows) {
        CAPTURE(row.pointer);
        json file = soundFile();
        const json::json_pointer place(row.pointer);
        while (file[place].size() <= row.most)
            file[place].push_back(nullptr);
        const Refusal why = refusedText(file.dump());
        CHECK(why.why == Why::TooMany);
        CHECK(why.place == row.pointer);
        CHECK(why.expected == std::to_string(row.most) + " at most");
    }
}

TEST_CASE("a file cut off anywhere is refused") {
    const std::string whole = toJson(pippin());
    const std::size_t end = whole.rfind('}');
    for (std::size_t length = 0; length <= end; length += 7) {
        CAPTURE(length);
        CHECK(refusedText(whole.substr(0, length)).why == Why::NotJson);
    }
}

TEST_CASE("a file with random bytes changed is read whole or refused with a place") {
    const std::string whole = soundFile().dump();
    std::mt19937 random(20240601);
    int refusedCount = 0;
    for (int round = 0; round < 4000; ++round) {
        std::string text = whole;
        for (unsigned i = 0; i <= random() % 3; ++i)
            text[random() % text.size()] = static_cast<char>(random() % 256);
        const Outcome<Bench> read = fromJson(text);
        if (read) {
            CHECK(identical(read.value(), fromJson(toJson(read.value())).value()));
        } else {
            ++refusedCount;
            CHECK_FALSE(read.refusal().expected.empty());
        }
    }
    CHECK(refusedCount > 2000);
}

} // namespace loom::bench
