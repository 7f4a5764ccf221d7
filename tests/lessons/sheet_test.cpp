// The cross-check: marks, looks, and what was missed. The rule that the one who checks looks at both
// ends of every cable: common practice, no source.
#include "lesson/exercise.h"
#include "lesson/sheet.h"
#include "lessons/hand.h"
#include "said.h"

#include <doctest/doctest.h>
#include <vector>

namespace {

using namespace loom;
using lessontest::Hand;
using lessontest::jsonOf;
using lessontest::textOf;
using nlohmann::json;
using Kind = lesson::SheetFinding::Kind;

struct Checked {
    lesson::Exercise exercise = lesson::exerciseFromJson(textOf("lessons/04-pippin.json")).value();
    json file = jsonOf("tests/lessons/04-pippin.wirings.json");
    Hand hand{exercise, file["places"]};

    Checked() {
        hand.knows(file["blocks"]);
        goesOn({{"do", "loom"}, {"do", "batteries"}, {"do", "ends"}, {"do", "link"}});
    }

    void goesOn(const std::vector<json>& steps) { REQUIRE(hand.doesAll(json(steps)) == ""); }

    lesson::SheetFinding finding(const std::string& label) const {
        const auto sheet = lesson::sheetOf(hand.attempt().record());
        for (const auto& found : lesson::sheetFindings(*exercise.plan, hand.attempt(), sheet))
            if (found.label == label) return found;
        FAIL("no such row");
        return {};
    }

    void isA(Kind kind, const char* label) const {
        CAPTURE(label);
        CHECK(static_cast<int>(finding(label).kind) == static_cast<int>(kind));
    }
};

TEST_CASE("right and wrong marks against what is so") {
    Checked checked;
    checked.goesOn({{"join", "P-23", 0, "X1 4 upper"},
                    {"mark", "P-22", "right"},
                    {"mark", "P-23", "right"},
                    {"mark", "P-21", "wrong"},
                    json::array({"hand in"})});
    checked.isA(Kind::Confirmed, "P-22");
    checked.isA(Kind::Missed, "P-23");
    checked.isA(Kind::FalseAlarm, "P-21");
    checked.isA(Kind::NotMarked, "P-19");
    CHECK(checked.finding("P-23").difference == "P-23 is at X1/4");
}

TEST_CASE("an end that is not well made makes its cable wrong") {
    Checked checked;
    checked.goesOn(
        {{"screw", "X1 4 upper", 0.1}, {"mark", "P-20", "wrong"}, json::array({"hand in"})});
    checked.isA(Kind::Caught, "P-20");
    CHECK(checked.finding("P-20").difference == "P-20 at X1/4: the screw is loose");
}

TEST_CASE(
    "a mark can be changed until the sheet is handed in, and what is mended after counts not") {
    Checked checked;
    checked.goesOn({{"join", "P-23", 0, "X1 4 upper"},
                    {"mark", "P-23", "right"},
                    {"mark", "P-23", "wrong"},
                    json::array({"hand in"}),
                    {"mark", "P-23", "right"},
                    {"mark", "P-22", "right"},
                    {"join", "P-23", 0, "X1 5 lower"}});
    checked.isA(Kind::Caught, "P-23");
    checked.isA(Kind::Confirmed, "P-22"); // had no mark yet
}

TEST_CASE("looking at both ends") {
    Checked checked;
    checked.goesOn({{"look", "P-22", 0}, {"look", "P-22", 1}, {"look", "P-23", 1}, {"look", "K1"}});
    CHECK(checked.finding("P-22").lookedAtBoth);
    CHECK_FALSE(checked.finding("P-23").lookedAtBoth);
    CHECK_FALSE(lesson::sheetOf(checked.hand.attempt().record()).handedIn);
}

} // namespace
