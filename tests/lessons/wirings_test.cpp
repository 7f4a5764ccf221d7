// Every exercise, wired rightly in several ways and wrongly in several ways: the right ones get all
// marks, each wrong one is told what is wrong with it and nothing else's message.
#include "bench/file.h"
#include "lesson/verdict.h"
#include "lessons/hand.h"
#include "said.h"

#include <doctest/doctest.h>
#include <string>
#include <vector>

namespace {

using namespace loom;
using lessontest::Hand;
using lessontest::jsonOf;
using lessontest::textOf;
using nlohmann::json;

lesson::Exercise exerciseOf(const json& wirings) {
    const auto exercise = lesson::exerciseFromJson(textOf(wirings["exercise"]));
    if (!exercise) {
        const bench::Refusal& r = exercise.refusal();
        FAIL(r.place << ": expected " << r.expected << ", found " << r.found);
    }
    return exercise.value();
}

std::string allSaid(const lesson::Verdict& verdict) {
    std::string said;
    for (const lesson::Judged& judged : verdict.checks)
        if (!judged.passed) said += "[" + judged.check + "] " + words::text(judged.say) + "\n";
    return said;
}

std::string saidBy(const lesson::Verdict& verdict, const std::string& check) {
    for (const lesson::Judged& judged : verdict.checks)
        if (judged.check == check) return words::text(judged.say);
    return "no such check";
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

void checkRight(json wirings) {
    const lesson::Exercise exercise = exerciseOf(wirings);
    CHECK(wirings["right"].size() >= 4);
    for (const json& wiring : wirings["right"]) {
        const std::string name = wiring["name"];
        CAPTURE(name);
        Hand hand(exercise, wirings["places"]);
        hand.knows(wirings["blocks"]);
        CHECK(hand.doesAll(wiring["steps"]) == "");
        const lesson::Verdict verdict = lesson::judge(exercise, hand.attempt());
        CHECK(allSaid(verdict) == "");
        CHECK(verdict.marks == verdict.outOf);
        CHECK(verdict.solved());
    }
}

void checkWrong(json wirings) {
    const lesson::Exercise exercise = exerciseOf(wirings);
    CHECK(wirings["wrong"].size() >= 6);
    std::vector<std::string> sentences;
    for (const json& wiring : wirings["wrong"]) {
        const std::string name = wiring["name"], check = wiring["check"], says = wiring["says"];
        CAPTURE(name);
        Hand hand(exercise, wirings["places"]);
        hand.knows(wirings["blocks"]);
        CHECK(hand.doesAll(wiring["steps"]) == "");
        const lesson::Verdict verdict = lesson::judge(exercise, hand.attempt());
        CAPTURE(allSaid(verdict));
        CHECK_FALSE(verdict.solved());
        CHECK(verdict.marks < verdict.outOf);
        sentences.push_back(saidBy(verdict, check));
        CHECK(contains(sentences.back(), says));
    }
    for (std::size_t i = 0; i < sentences.size(); ++i)
        for (std::size_t j = 0; j < sentences.size(); ++j) {
            CAPTURE(wirings["wrong"][i]["name"].get<std::string>());
            CAPTURE(sentences[j]);
            if (i != j) CHECK_FALSE(contains(sentences[j], wirings["wrong"][i]["says"]));
        }
}

const json& headlamp() {
    static const json wirings = jsonOf("tests/lessons/01-headlamp.wirings.json");
    return wirings;
}

const json& twentyFourVolts() {
    static const json wirings = jsonOf("tests/lessons/02-twenty-four-volts.wirings.json");
    return wirings;
}

const json& relay() {
    static const json wirings = jsonOf("tests/lessons/03-relay.wirings.json");
    return wirings;
}

const json& pippin() {
    static const json wirings = jsonOf("tests/lessons/04-pippin.wirings.json");
    return wirings;
}

TEST_CASE("headlamp: right wirings get all marks") {
    checkRight(headlamp());
}

TEST_CASE("headlamp: each wrong wiring has its own message") {
    checkWrong(headlamp());
}

TEST_CASE("twenty-four volts: right wirings get all marks") {
    checkRight(twentyFourVolts());
}

TEST_CASE("twenty-four volts: each wrong wiring has its own message") {
    checkWrong(twentyFourVolts());
}

TEST_CASE("relay: right wirings get all marks") {
    checkRight(relay());
}

TEST_CASE("relay: each wrong wiring has its own message") {
    checkWrong(relay());
}

TEST_CASE("Pippin: right wirings get all marks") {
    checkRight(pippin());
}

TEST_CASE("Pippin: each wrong wiring has its own message") {
    checkWrong(pippin());
}

TEST_CASE("nothing done earns nothing") {
    for (const json* wirings : {&headlamp(), &twentyFourVolts(), &relay(), &pippin()}) {
        const lesson::Exercise exercise = exerciseOf(*wirings);
        const Hand hand(exercise, (*wirings)["places"]);
        const lesson::Verdict verdict = lesson::judge(exercise, hand.attempt());
        CHECK(verdict.marks == 0);
        CHECK(verdict.outOf >= 10);
        for (const lesson::Judged& judged : verdict.checks)
            CHECK(contains(words::text(judged.say), "Not yet: "));
    }
}

TEST_CASE("a bench that was never meant for the exercise is judged all the same") {
    const auto pippin = bench::fromJson(textOf("assets/benches/pippin.loom.json"));
    REQUIRE(pippin);
    for (const json* wirings : {&headlamp(), &twentyFourVolts(), &relay()}) {
        const lesson::Exercise exercise = exerciseOf(*wirings);
        const lesson::Verdict verdict = lesson::judge(exercise, attempt::Attempt(pippin.value()));
        CHECK(verdict.checks.size() == exercise.checks.size());
        CHECK(verdict.outOf == 10);
        for (const lesson::Judged& judged : verdict.checks)
            CHECK(judged.say.empty() == judged.passed);
    }
}

TEST_CASE("judging leaves the attempt as it was") {
    const lesson::Exercise exercise = exerciseOf(headlamp());
    Hand hand(exercise, headlamp()["places"]);
    hand.doesAll(headlamp()["right"][0]["steps"]);
    hand.does(json{"turn", "S4", "on"});
    hand.does(json{"wait", 0.2});
    const std::uint64_t before = hand.attempt().stateHash();
    const lesson::Verdict first = lesson::judge(exercise, hand.attempt());
    CHECK(hand.attempt().stateHash() == before);
    CHECK(lesson::judge(exercise, hand.attempt()).marks == first.marks);
}

} // namespace
