// The ten hidden faults of Pippin, each looked for with the Meter by halving the distance, named and
// mended; what is named wrongly is refused. Readings are asserted on the way, so that the road to
// the fault is one a learner can go.
#include "attempt/meter_reading.h"
#include "lesson/fault_finding.h"
#include "lesson/verdict.h"
#include "lessons/hand.h"
#include "said.h"

#include <doctest/doctest.h>

namespace {

using namespace loom;
using lessontest::Hand;
using lessontest::jsonOf;
using lessontest::textOf;
using nlohmann::json;

struct Hunt {
    const lesson::Exercise& exercise;
    Hand hand;

    Hunt(const lesson::Exercise& of, json& file, std::uint64_t seed)
        : exercise(of), hand(of, file["places"], seed) {
        hand.knows(file["blocks"]);
    }

    void goes(const json& steps) {
        for (const json& step : steps) {
            CAPTURE(step.dump());
            const std::string what = step[0];
            if (what == "reads")
                reads(step);
            else if (what == "rings")
                rings(step);
            else if (what == "speed")
                isWithin(reading("M1", 0).speed_rad_s, step, 1);
            else if (what == "lamp")
                CHECK((reading("S1", 1).brightness > 0.3) == step[1].get<bool>());
            else
                REQUIRE(hand.does(step) == "");
        }
    }

    lesson::Judged judged(const std::string& id) const {
        for (const lesson::Judged& judged : lesson::judge(exercise, hand.attempt()).checks)
            if (judged.check == id) return judged;
        return {};
    }

private:
    circuit::Reading reading(const char* ref, int element) const {
        const bench::Part* part = bench::findPart(hand.attempt().bench(), std::string(ref));
        REQUIRE(part);
        return hand.attempt().reading(part->id, element);
    }

    static void isWithin(double value, const json& step, std::size_t from) {
        CHECK(value >= step[from].get<double>());
        CHECK(value <= step[from + 1].get<double>());
    }

    attempt::MeterReading measured(const char* range, const json& step, std::size_t from) {
        REQUIRE(hand.does(json{"meter", range}) == "");
        REQUIRE(hand.does(json{"touch", "red", step[from]}) == "");
        REQUIRE(hand.does(json{"touch", "black", step[from + 1]}) == "");
        REQUIRE(hand.does(json{"wait", 0.5}) == "");
        const attempt::MeterReading read = attempt::meterReading(hand.attempt());
        REQUIRE(read.on);
        return read;
    }

    void reads(const json& step) {
        const std::string range = step[1];
        const attempt::MeterReading read = measured(range.c_str(), step, 2);
        CHECK_FALSE(read.live);
        isWithin(read.beyond ? 1e9 : read.value, step, 4);
    }

    void rings(const json& step) {
        const attempt::MeterReading read = measured("tone", step, 1);
        CHECK_FALSE(read.live);
        CHECK(read.tone == step[3].get<bool>());
    }
};

lesson::Exercise pippinFaults() {
    auto read = lesson::exerciseFromJson(textOf("lessons/05-pippin-faults.json"));
    if (!read) FAIL(read.refusal().place << ": " << read.refusal().expected);
    return read.value();
}

json named(const json& name) {
    json step = {"name"};
    for (const json& item : name)
        step.push_back(item);
    return step;
}

TEST_CASE("each of the ten faults is found, named and mended") {
    const lesson::Exercise exercise = pippinFaults();
    json file = jsonOf("tests/lessons/05-pippin-faults.hunts.json");
    REQUIRE(file["hunts"].size() == exercise.faults.size());
    REQUIRE(exercise.faults.size() == 10);
    for (std::size_t seed = 0; seed < exercise.faults.size(); ++seed) {
        const json& wanted = file["hunts"][seed];
        CAPTURE(wanted["fault"].get<std::string>());
        REQUIRE(lesson::faultOf(exercise, seed)->id == wanted["fault"]);
        Hunt hunt(exercise, file, seed);
        hunt.goes(wanted["steps"]);
        CHECK_FALSE(hunt.judged("named").passed);
        REQUIRE(hunt.hand.does(named(wanted["name"])) == "");
        CHECK(hunt.judged("named").passed);
        CHECK(hunt.judged("fewest").say == "");
        const bool mended = hunt.judged("mended").passed && hunt.judged("works").passed;
        CHECK_FALSE(mended);
        hunt.goes(wanted["mend"]);
        CHECK(hunt.judged("mended").say == "");
        CHECK(hunt.judged("works").say == "");
        CHECK(lesson::judge(exercise, hunt.hand.attempt()).solved());
    }
}

TEST_CASE("what is not at fault is refused, and the number of namings is limited") {
    const lesson::Exercise exercise = pippinFaults();
    json file = jsonOf("tests/lessons/05-pippin-faults.hunts.json");
    for (std::size_t seed = 0; seed < exercise.faults.size(); ++seed) {
        const json& wanted = file["hunts"][seed];
        CAPTURE(wanted["fault"].get<std::string>());
        Hunt hunt(exercise, file, seed);
        hunt.goes(wanted["steps"]);
        for (const json& wrong : wanted["not"]) {
            CAPTURE(wrong.dump());
            REQUIRE(hunt.hand.does(named(wrong)) == "");
            const std::string name = wrong[0];
            CHECK(hunt.judged("named").say == "Not yet: " + name + " is not it.");
        }
        REQUIRE(hunt.hand.does(named(wanted["name"])) == "");
        CHECK(hunt.judged("named").passed); // the third naming at the latest
        CHECK_FALSE(hunt.judged("first").passed); // it costs
    }
    Hunt guessing(exercise, file, 0);
    for (const char* name : {"S1", "S2", "S3", "F2"})
        REQUIRE(guessing.hand.does(json{"name", name}) == "");
    CHECK(guessing.judged("named").say == "Not yet: 4 were named before it was found.");
}

TEST_CASE("a right name without readings that tell it apart earns nothing") {
    const lesson::Exercise exercise = pippinFaults();
    json file = jsonOf("tests/lessons/05-pippin-faults.hunts.json");
    for (std::size_t seed = 0; seed < exercise.faults.size(); ++seed) {
        const json& wanted = file["hunts"][seed];
        CAPTURE(wanted["fault"].get<std::string>());
        Hunt guessed(exercise, file, seed);
        REQUIRE(guessed.hand.does(named(wanted["name"])) == "");
        CHECK(guessed.judged("named").say ==
              "Not yet: nothing that was measured or looked at closely shows it.");
        CHECK(guessed.judged("fewest").passed == false);
        // Readings that are the same whatever is wrong are none.
        Hunt idle(exercise, file, seed);
        idle.goes(json::parse(R"([["meter", "volts"], ["touch", "red", "X1 3 lower"],
            ["touch", "black", "X1 3 upper"], ["wait", 1], ["meter", "ohms"], ["wait", 1]])"));
        REQUIRE(idle.hand.does(named(wanted["name"])) == "");
        CHECK_FALSE(idle.judged("named").passed);
    }
    // Nothing at K1's coil has other causes: P-22 in the wrong way, D1 turned round.
    Hunt early(exercise, file, 3);
    early.goes(json::parse(R"([["do", "on"], ["do", "forward"],
        ["reads", "volts", "K1 coil a", "K1 coil b", -1, 1], ["do", "let go"]])"));
    REQUIRE(early.hand.does(named({"P-20", 1})) == "");
    CHECK(early.judged("named").say ==
          "Not yet: what was seen and measured fits 2 other faults as well.");
}

TEST_CASE("mended is what works with the parts that are in") {
    const lesson::Exercise exercise = pippinFaults();
    json file = jsonOf("tests/lessons/05-pippin-faults.hunts.json");
    const json& wanted = file["hunts"][0];
    REQUIRE(wanted["fault"] == "f2-open");
    Hunt hunt(exercise, file, 0);
    hunt.goes(wanted["steps"]);
    REQUIRE(hunt.hand.does(named(wanted["name"])) == "");
    CHECK_FALSE(hunt.judged("works").passed); // the melted blade is still in
    hunt.goes(wanted["mend"]);
    CHECK(hunt.judged("works").say == "");
}

TEST_CASE("the seed chooses the fault, and none leaves the bench sound") {
    const lesson::Exercise exercise = pippinFaults();
    CHECK(lesson::faultOf(exercise, 10) == lesson::faultOf(exercise, 0));
    CHECK(lesson::faultOf(exercise, 13) == lesson::faultOf(exercise, 3));
    json file = jsonOf("tests/lessons/05-pippin-faults.hunts.json");
    for (std::size_t seed = 0; seed < exercise.faults.size(); ++seed) {
        const Hunt hunt(exercise, file, seed);
        CAPTURE(seed);
        const bool sound = hunt.judged("mended").passed && hunt.judged("works").passed;
        CHECK_FALSE(sound);
    }
}

} // namespace
