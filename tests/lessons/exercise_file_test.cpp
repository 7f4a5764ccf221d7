// Exercise files that are damaged, hostile or mistaken: each is refused with its place, what was
// expected and what was found.
#include "lesson/course.h"
#include "lessons/hand.h"
#include "said.h"

#include <doctest/doctest.h>
#include <iterator>
#include <string>

namespace {

using namespace loom;
using bench::Why;
using lessontest::jsonOf;
using lessontest::textOf;
using nlohmann::json;

const char* const path = "lessons/01-headlamp.json";

const char* const withFaults = "lessons/05-pippin-faults.json";

// A sound exercise with one thing changed: `value` put at `pointer`, or the member taken out.
std::string changed(const char* pointer, const json& value, const char* of = path) {
    json file = jsonOf(of);
    file[json::json_pointer(pointer)] = value;
    return file.dump();
}

std::string without(const char* owner, const char* member, const char* of = path) {
    json file = jsonOf(of);
    file[json::json_pointer(owner)].erase(member);
    return file.dump();
}

void checkRefused(const std::string& text, Why why, const std::string& place) {
    CAPTURE(place);
    const auto read = lesson::exerciseFromJson(text);
    REQUIRE_FALSE(read);
    CHECK(static_cast<int>(read.refusal().why) == static_cast<int>(why));
    CHECK(read.refusal().place == place);
    CHECK_FALSE(read.refusal().expected.empty());
    CHECK_FALSE(read.refusal().found.empty());
}

TEST_CASE("the built-in course is read in its order") {
    const auto course = lesson::builtInCourse();
    REQUIRE(course);
    const char* const ids[] = {"headlamp", "twenty-four-volts", "relay", "pippin", "pippin-faults"};
    REQUIRE(course.value().size() == std::size(ids));
    for (std::size_t i = 0; i < std::size(ids); ++i)
        CHECK(course.value()[i].id == ids[i]);
    for (const lesson::Exercise& exercise : course.value()) {
        CHECK(exercise.hash.size() == 16);
        CHECK_FALSE(exercise.cautions.empty());
    }
}

TEST_CASE("another byte in the file is another hash") {
    const std::string text = textOf(path);
    const auto one = lesson::exerciseFromJson(text), two = lesson::exerciseFromJson(text + "\n");
    REQUIRE(one);
    REQUIRE(two);
    CHECK(one.value().hash != two.value().hash);
}

TEST_CASE("what is not an exercise is refused") {
    checkRefused("", Why::NotJson, "line 1, column 1");
    checkRefused("{\"format\": \"loomwright exercise\",\n oops}", Why::NotJson, "line 2, column 2");
    checkRefused("[]", Why::WrongType, "");
    checkRefused("{}", Why::Missing, "/format");
    checkRefused(changed("/format", "loomwright bench"), Why::WrongFormat, "/format");
    checkRefused(changed("/version", 2), Why::LaterVersion, "/version");
    checkRefused(changed("/version", "1"), Why::WrongType, "/version");
    checkRefused(std::string(2u << 20, ' '), Why::TooMany, "file");
    std::string deep = "{\"format\": \"loomwright exercise\", \"version\": 1, \"start\": ";
    checkRefused(
        deep + std::string(100000, '['), Why::TooMany, "/start/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0");
}

TEST_CASE("a missing or mistaken member is named") {
    checkRefused(without("", "title"), Why::Missing, "/title");
    checkRefused(without("/checks/0", "hint"), Why::Missing, "/checks/0/hint");
    checkRefused(without("/checks/0/rows/1", "say"), Why::Missing, "/checks/0/rows/1/say");
    checkRefused(changed("/colour", "red"), Why::UnknownWord, "");
    checkRefused(changed("/checks/0/rows/5/leest", 1), Why::UnknownWord, "/checks/0/rows/5");
    checkRefused(changed("/id", "Headlamp 1"), Why::OutOfRange, "/id");
    checkRefused(changed("/title", ""), Why::OutOfRange, "/title");
    checkRefused(changed("/title", "two\nlines"), Why::OutOfRange, "/title");
    checkRefused(changed("/title", std::string(401, 'a')), Why::OutOfRange, "/title");
    checkRefused(changed("/job", json::array()), Why::Missing, "/job");
    checkRefused(changed("/cautions", json::array()), Why::Missing, "/cautions");
    checkRefused(changed("/checks", json::array()), Why::Missing, "/checks");
    checkRefused(changed("/checks/2/rows", json::array()), Why::Missing, "/checks/2/rows");
    checkRefused(changed("/checks/0/marks", 0), Why::OutOfRange, "/checks/0/marks");
    checkRefused(changed("/checks/0/marks", 1.5), Why::WrongType, "/checks/0/marks");
    checkRefused(changed("/checks/1/id", "lights"), Why::Duplicate, "/checks/1/id");
    checkRefused(
        changed("/checks/0/rows/0/look", "guess"), Why::UnknownWord, "/checks/0/rows/0/look");
}

TEST_CASE("a text may stand in several languages, English among them") {
    const auto read =
        lesson::exerciseFromJson(changed("/title", {{"en", "Lamp"}, {"xx", "Lampe"}}));
    REQUIRE(read);
    CHECK(read.value().title == "Lamp");
    const auto& text = std::get<bench::Phrase::Text>(read.value().title.content);
    CHECK(text.byLanguage.at("xx") == "Lampe");
    checkRefused(changed("/title", {{"xx", "Lampe"}}), Why::Missing, "/title/en");
    checkRefused(changed("/title", {{"en", "Lamp"}, {"xx", ""}}), Why::OutOfRange, "/title/xx");
    checkRefused(changed("/title", 7), Why::WrongType, "/title");
}

TEST_CASE("a fault in the start is named by its place in the whole file") {
    checkRefused(changed("/start/board/width", -1), Why::OutOfRange, "/start/board/width");
    checkRefused(changed("/start/kit/parts/3/ref", "B1"), Why::Duplicate, "/start/kit/parts/3/ref");
    checkRefused(
        changed("/start/kit/parts/3/rating", 3), Why::OutOfRange, "/start/kit/parts/3/rating");
}

TEST_CASE("a row speaks only of what is there") {
    const char* const row = "/checks/0/rows/5";
    checkRefused(changed("/checks/0/rows/5/of", "E9"), Why::UnknownPart, "/checks/0/rows/5/of");
    checkRefused(changed("/checks/0/rows/5/set", {{"S4", "up"}}),
                 Why::NoSuchPosition,
                 "/checks/0/rows/5/set/S4");
    checkRefused(changed("/checks/0/rows/5/set", {{"S9", "on"}}),
                 Why::UnknownPart,
                 "/checks/0/rows/5/set/S9");
    checkRefused(changed("/checks/0/rows/5/set", {{"B1", "on"}}),
                 Why::NoSuchPosition,
                 "/checks/0/rows/5/set/B1");
    checkRefused(changed("/checks/0/rows/0/between/0", "B1 middle"),
                 Why::UnknownTerminal,
                 "/checks/0/rows/0/between/0");
    checkRefused(changed("/checks/0/rows/0/between/0", "B1"),
                 Why::UnknownTerminal,
                 "/checks/0/rows/0/between/0");
    checkRefused(changed("/checks/0/rows/0/between", {"B1 plus"}),
                 Why::OutOfRange,
                 "/checks/0/rows/0/between");
    const json passed = {{"look", "passed"}, {"say", "Not yet."}, {"check", "order"}};
    checkRefused(changed("/checks/1/rows/0", passed), Why::UnknownWord, "/checks/1/rows/0/check");
    checkRefused(
        changed("/checks/0/rows/5/quantity", "speed"), Why::WrongType, "/checks/0/rows/5/of");
    checkRefused(changed("/checks/0/rows/4/quantity", "power"), Why::Missing, "/checks/0/rows/4");
    checkRefused(changed("/checks/0/rows/5/quantity", "hottest cable"), Why::Missing, row);
    checkRefused(without(row, "least"), Why::Missing, row);
    checkRefused(changed("/checks/0/rows/4/most", -2), Why::OutOfRange, "/checks/0/rows/4/most");
    checkRefused(
        changed("/checks/3/rows/1/rule", "any"), Why::UnknownWord, "/checks/3/rows/1/rule");
}

TEST_CASE("a check cannot ask for hours of simulated time") {
    checkRefused(changed("/checks/0/rows/3/for_s", 1e6), Why::OutOfRange, "/checks/0/rows/3/for_s");
    checkRefused(changed("/checks/0/rows/3/for_s", -1), Why::OutOfRange, "/checks/0/rows/3/for_s");
    checkRefused(
        changed("/checks/2/rows/4/fault_ohm", {1, 2, 3, 4, 5, 6}), Why::TooMany, "/checks/2/rows");
}

void checkFaultsRefused(const char* pointer, const json& value, Why why, const char* place) {
    checkRefused(changed(pointer, value, withFaults), why, place);
}

TEST_CASE("a plan that cannot be is refused") {
    const char* const to = "/plan/cables/0/to";
    checkRefused(without("/plan", "frame", withFaults), Why::Missing, "/plan/frame");
    checkFaultsRefused("/plan/colour", 1, Why::UnknownWord, "/plan");
    checkFaultsRefused("/plan/frame/width", 0, Why::OutOfRange, "/plan/frame/width");
    checkFaultsRefused("/plan/parts/0/kind", "relay", Why::WrongType, "/plan/parts/0/ref");
    checkFaultsRefused("/plan/parts/0/kind", "robot", Why::UnknownWord, "/plan/parts/0/kind");
    checkFaultsRefused("/plan/parts/0/ref", "B9", Why::UnknownPart, "/plan/parts/0/ref");
    checkFaultsRefused("/plan/parts/1/ref", "B1", Why::Duplicate, "/plan/parts/1/ref");
    checkFaultsRefused("/plan/parts/0/at", {1}, Why::OutOfRange, "/plan/parts/0/at");
    checkFaultsRefused("/plan/parts/0/turns", 4, Why::OutOfRange, "/plan/parts/0/turns");
    checkFaultsRefused("/plan/parts/0/rating", 50, Why::OutOfRange, "/plan/parts/0/rating");
    checkFaultsRefused("/plan/cables", json::array(), Why::Missing, "/plan/cables");
    checkFaultsRefused("/plan/cables/0/label", "", Why::OutOfRange, "/plan/cables/0/label");
    checkFaultsRefused(to, "B2 middle", Why::UnknownTerminal, to);
    checkFaultsRefused(to, "D1 anode", Why::UnknownPart, to);
    checkFaultsRefused("/plan/cables/0/length", 0, Why::OutOfRange, "/plan/cables/0/length");
    checkFaultsRefused("/plan/cables/0/mm2", 100, Why::OutOfRange, "/plan/cables/0/mm2");
    checkFaultsRefused("/plan/cables/0/sleeve", "pink", Why::UnknownWord, "/plan/cables/0/sleeve");
    checkFaultsRefused("/plan/cables/0/ends/1", "spade", Why::WrongEnd, "/plan/cables/0/ends/1");
    checkFaultsRefused("/plan/cables/0/ends", {"bare"}, Why::OutOfRange, "/plan/cables/0/ends");
    checkFaultsRefused("/plan/cables/0/note", "", Why::OutOfRange, "/plan/cables/0/note");
}

TEST_CASE("a fault that cannot be put in is refused") {
    const std::string first = "/faults/0/alterations/0", moved = "/faults/2/alterations/0",
                      unmade = "/faults/3/alterations/0", flat = "/faults/9/alterations/0";
    const auto refused = [](const std::string& place, const json& value, Why why) {
        checkFaultsRefused(place.c_str(), value, why, place.c_str());
    };
    refused("/faults", json::array(), Why::Missing);
    refused("/faults/1/id", "f2-open", Why::Duplicate);
    refused("/faults/0/title", "", Why::OutOfRange);
    refused("/faults/0/alterations", json::array(), Why::Missing);
    refused(first + "/alter", "bent", Why::UnknownWord);
    refused(first + "/part", "F9", Why::UnknownPart);
    refused(first + "/part", "K1", Why::WrongType);
    checkFaultsRefused((first + "/charge").c_str(), 1, Why::UnknownWord, first.c_str());
    refused(moved + "/cable", "P-99", Why::UnknownCable);
    refused(moved + "/at", "X1 9 lower", Why::UnknownTerminal);
    refused(moved + "/to", "X1 11 lower", Why::UnknownTerminal);
    // A bare end does not go on a stud.
    checkFaultsRefused(
        (moved + "/to").c_str(), "K1 common", Why::OutOfRange, "/faults/2/alterations");
    refused(unmade + "/pushed_mm", 31, Why::OutOfRange);
    refused(unmade + "/twisted", 1, Why::WrongType);
    refused(flat + "/charge", 2, Why::OutOfRange);
}

TEST_CASE("a row about plan, sheet, order or faults speaks of what there is") {
    const json follows = {{"look", "follows plan"}, {"say", "Not yet: {found}."}};
    const json found = {{"look", "found"}, {"say", "Not yet: {found}."}};
    const json checked = {{"look", "cross-checked"}, {"say", "Not yet: {found}."}};
    checkRefused(changed("/checks/0/rows/0", follows), Why::Missing, "/checks/0/rows/0");
    checkRefused(changed("/checks/0/rows/0", found), Why::Missing, "/checks/0/rows/0");
    checkRefused(changed("/checks/0/rows/0", checked), Why::Missing, "/checks/0/rows/0");
    json row = {{"look", "in order"}, {"say", "Not yet."}, {"steps", {"run", "fly"}}};
    checkRefused(changed("/checks/0/rows/0", row), Why::UnknownWord, "/checks/0/rows/0/steps/1");
    row["steps"] = json::array();
    checkRefused(changed("/checks/0/rows/0", row), Why::Missing, "/checks/0/rows/0/steps");
    row = {{"look", "in order"}, {"say", "Not yet."}, {"least", 15}};
    checkRefused(changed("/checks/0/rows/0", row), Why::OutOfRange, "/checks/0/rows/0/least");
    row = {{"look", "well made"}, {"say", "Not yet."}, {"cables", {"P-99"}}};
    checkRefused(changed("/checks/0/rows/0", row), Why::UnknownCable, "/checks/0/rows/0/cables/0");
    row = {{"look", "sound"}, {"say", "Not yet."}, {"leastCharge", 2}};
    checkRefused(changed("/checks/0/rows/0", row), Why::OutOfRange, "/checks/0/rows/0/leastCharge");
    checkFaultsRefused("/checks/2/rows/1/mostMeasurements",
                       0,
                       Why::OutOfRange,
                       "/checks/2/rows/1/mostMeasurements");
}

TEST_CASE("a course file that is not one is refused") {
    CHECK_FALSE(lesson::courseFromJson("{}"));
    CHECK_FALSE(lesson::courseFromJson("{\"format\": \"loomwright course\", \"version\": 9}"));
    CHECK_FALSE(lesson::courseFromJson(
        "{\"format\": \"loomwright course\", \"version\": 1, \"exercises\": [7]}"));
    const auto names = lesson::courseFromJson(textOf("lessons/course.json"));
    REQUIRE(names);
    CHECK(names.value().size() == 5);
}

} // namespace
