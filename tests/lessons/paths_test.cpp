// Ways from terminal to terminal: by cables, through what is closed, through anything.
#include "lesson/paths.h"
#include "lesson/trial.h"
#include "lessons/hand.h"

#include <doctest/doctest.h>

namespace {

using namespace loom;
using plan::Spot;
using lesson::Through;
using nlohmann::json;

// The headlamp wired as it should be.
struct Wired {
    lesson::Exercise exercise;
    json wirings = lessontest::jsonOf("tests/lessons/01-headlamp.wirings.json");
    lessontest::Hand hand;

    Wired()
        : exercise(
              lesson::exerciseFromJson(lessontest::textOf("lessons/01-headlamp.json")).value()),
          hand(exercise, wirings["places"]) {
        REQUIRE(hand.doesAll(wirings["right"][0]["steps"]) == "");
    }

    bool joined(const Spot& a, const Spot& b, Through through, const lesson::Positions& set) const {
        return lesson::joined(
            lesson::freshCopy(hand.attempt().bench(), exercise.start, set), a, b, through);
    }
};

TEST_CASE("a way counts as far as it is asked") {
    const Wired wired;
    const Spot plus{"B1", "plus"}, fuseIn{"F3", "in"}, fuseOut{"F3", "out"};
    const Spot lampIn{"E1", "in"}, lampOut{"E1", "out"}, minus{"B1", "minus"};
    CHECK(wired.joined(plus, fuseIn, Through::Cables, {}));
    CHECK_FALSE(wired.joined(plus, fuseOut, Through::Cables, {}));
    CHECK(wired.joined(plus, fuseOut, Through::Closed, {}));
    CHECK_FALSE(wired.joined(plus, fuseOut, Through::Closed, {{"F3", "open"}}));
    CHECK(wired.joined(fuseOut, lampIn, Through::Closed, {{"S4", "on"}}));
    CHECK_FALSE(wired.joined(fuseOut, lampIn, Through::Closed, {{"S4", "off"}}));
    CHECK_FALSE(wired.joined(lampIn, lampOut, Through::Closed, {{"S4", "on"}}));
    CHECK(wired.joined(lampIn, lampOut, Through::Anything, {}));
    CHECK(wired.joined(minus, plus, Through::Anything, {}));
    CHECK_FALSE(wired.joined(plus, {"X9", "in"}, Through::Anything, {}));
}

} // namespace
