// Exercise files that are damaged, hostile or mistaken: each is refused with its place, what was
// expected and what was found.
#include "lesson/course.h"
#include "lessons/hand.h"

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

// A sound exercise with one thing changed: `value` put at `pointer`, or the member taken out.
std::string changed(const char* pointer, const json& value) {
    json file = jsonOf(path);
    file[json::json_pointer(pointer)] = value;
    return file.dump();
}

std::string without(const char* owner, const char* member) {
    json file = jsonOf(path);
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
    checkRefused(
        changed("/checks/1/rows/0/check", "order"), Why::UnknownWord, "/checks/1/rows/0/check");
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
