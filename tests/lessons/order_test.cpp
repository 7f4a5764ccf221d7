// The order of joining: read from the record, undone steps left out, redone ones back in.
#include "lesson/order.h"
#include "lessons/hand.h"

#include <doctest/doctest.h>
#include <string>

namespace {

using namespace loom;
using lesson::Order;
using lessontest::Hand;
using nlohmann::json;
using Rule = Order::Rule;

// Both batteries, F1 and Q1 on the bench of "Twenty-four volts", then these steps.
struct Wired {
    lesson::Exercise exercise;
    json places = {{"B1", {0.1, 0.6}},
                   {"B2", {0.4, 0.6}},
                   {"F1", {0.3, 0.4}},
                   {"Q1", {0.1, 0.4}},
                   {"X1", {0.5, 0.2}}};
    Hand hand;

    explicit Wired(const json& steps)
        : exercise(lesson::exerciseFromJson(lessontest::textOf("lessons/02-twenty-four-volts.json"))
                       .value()),
          hand(exercise, places) {
        REQUIRE(hand.does({"lay", "B1", "B2", "F1", "Q1", "X1"}) == "");
        REQUIRE(hand.doesAll(steps) == "");
    }

    bool keeps(Rule rule) const { return lesson::keeps(hand.attempt().record(), {rule, {}}).kept; }

    std::string found(Rule rule) const {
        return lesson::keeps(hand.attempt().record(), {rule, {}}).found;
    }
};

const json link = {"take", "P-01", "B1 plus", "B2 minus"};
const json toFuse = {"take", "P-03", "B2 plus", "F1 in"};
const json toBlock = {"take", "P-02", "B1 minus", "X1 10 lower"};
const json elsewhere = {"take", "P-05", "Q1 out", "X1 1 lower"};

TEST_CASE("the link is last, or it is not") {
    CHECK(Wired({toFuse, link}).keeps(Rule::LinkLast));
    CHECK_FALSE(Wired({link, toFuse}).keeps(Rule::LinkLast));
    CHECK(Wired({link, toFuse}).found(Rule::LinkLast) == "P-03");
}

TEST_CASE("a step that was undone does not count") {
    CHECK(Wired({toBlock, link, toFuse, {"undo", 3}}).keeps(Rule::LinkLast));
    CHECK_FALSE(Wired({toBlock, link, toFuse, {"undo", 3}, {"redo", 3}}).keeps(Rule::LinkLast));
    CHECK(Wired({toBlock, link, toFuse, {"undo", 4}}).found(Rule::LinkLast) == "P-01");
    const json on = {"turn", "Q1", "on"}, off = {"turn", "Q1", "off"};
    CHECK_FALSE(Wired({off, on, link}).keeps(Rule::IsolatorOffWhileJoining));
    CHECK(Wired({off, on, link, {"undo", 5}, link}).keeps(Rule::IsolatorOffWhileJoining));
    // Undone as far as Q1 on, then done again: joined with Q1 on after all.
    CHECK_FALSE(Wired({off, on, link, {"undo", 3}, link}).keeps(Rule::IsolatorOffWhileJoining));
}

TEST_CASE("an end joined at the wrong moment can be taken off and joined again") {
    const json off = {"turn", "Q1", "off"}, on = {"turn", "Q1", "on"};
    const json keyOut = {"turn", "Q1", "key out"};
    const json freed = {"free", "P-01", 0}, again = {"join", "P-01", 0, "B1 plus"};
    const json freedToo = {"free", "P-01", 1}, againToo = {"join", "P-01", 1, "B2 minus"};
    CHECK_FALSE(Wired({off, on, link, keyOut}).keeps(Rule::KeyOutWhileJoining));
    CHECK_FALSE(Wired({off, on, link, keyOut, freed, again}).keeps(Rule::KeyOutWhileJoining));
    CHECK(Wired({off, on, link, keyOut, freed, again, freedToo, againToo})
              .keeps(Rule::KeyOutWhileJoining));
    CHECK(Wired({link, toFuse, freed, again}).keeps(Rule::LinkLast));
}

TEST_CASE("the key in is not yet the isolator on") {
    const Wired wired({{"turn", "Q1", "off"}, link});
    CHECK(wired.keeps(Rule::IsolatorOffWhileJoining));
    CHECK_FALSE(wired.keeps(Rule::KeyOutWhileJoining));
    CHECK(wired.found(Rule::KeyOutWhileJoining) == "P-01");
}

TEST_CASE("the battery is last when the cable joined last goes to one") {
    CHECK(Wired({elsewhere, toFuse}).keeps(Rule::BatteryLast));
    CHECK_FALSE(Wired({toFuse, elsewhere}).keeps(Rule::BatteryLast));
    CHECK(Wired({toFuse, elsewhere}).found(Rule::BatteryLast) == "P-05");
}

} // namespace
