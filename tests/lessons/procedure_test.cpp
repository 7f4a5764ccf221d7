// The order of powering up and putting away. Every rule of it: common practice, no source.
#include "lesson/procedure.h"
#include "lesson/put_away.h"
#include "lesson/retrace.h"
#include "lesson/step_phrases.h"
#include "lesson/verdict.h"
#include "lessons/hand.h"
#include "said.h"

#include <doctest/doctest.h>
#include <string>
#include <vector>

namespace {

using namespace loom;
using lesson::StepSeen;
using lessontest::Hand;
using lessontest::jsonOf;
using lessontest::textOf;
using nlohmann::json;
using plan::Step;

const lesson::Exercise& pippin() {
    static const lesson::Exercise exercise =
        lesson::exerciseFromJson(textOf("lessons/04-pippin.json")).value();
    return exercise;
}

// A list of json would take steps of two words for the members of an object.
using Steps = std::vector<json>;

// Pippin wired but for the batteries, then these steps.
struct Sitting {
    json file = jsonOf("tests/lessons/04-pippin.wirings.json");
    Hand hand{pippin(), file["places"]};

    explicit Sitting(const Steps& steps) {
        hand.knows(file["blocks"]);
        goesOn({json{"do", "loom"}});
        goesOn(steps);
    }

    void goesOn(const Steps& steps) { REQUIRE(hand.doesAll(json(steps)) == ""); }

    StepSeen seen(Step step) const {
        const auto procedure = lesson::procedureOf(hand.attempt().record(), &*pippin().plan);
        for (const StepSeen& seen : procedure.steps())
            if (seen.step == step) return seen;
        FAIL("a step that does not count");
        return {};
    }

    bool isKept(Step step) const { return seen(step).done && !seen(step).early; }

    bool isEarly(Step step, Step before) const {
        const StepSeen at = seen(step);
        return at.done && at.early && at.before == before;
    }
};

json block(const char* name) {
    return json{"do", name};
}

const json batteries = block("batteries"), ends = block("ends"), link = block("link"),
           check = block("cross-check"), powerUp = block("power up"), drive = block("drive"),
           off = block("off"), putAway = block("put away"), keyOn = block("key on");

const json look = {"look", "S1"}, call = json::array({"call"}), rocker = {"turn", "S1", "on"},
           held = {"turn", "S3", "held"}, forward = {"turn", "S2", "forward"};

TEST_CASE("all of it in order") {
    const Sitting done({batteries, ends, link, check, powerUp, drive, putAway});
    for (int i = 0; i < plan::kStepCount; ++i) {
        CAPTURE(plan::kStepWords[i]);
        CHECK(done.isKept(static_cast<Step>(i)));
    }
}

TEST_CASE("nothing done: the key is out and the axle clear, all else is still to be done") {
    const Sitting nothing(Steps{});
    for (int i = 0; i < plan::kStepCount; ++i) {
        const Step step = static_cast<Step>(i);
        CAPTURE(plan::kStepWords[i]);
        CHECK(nothing.seen(step).done == (step == Step::IsolatorOff || step == Step::AxleClear));
    }
}

TEST_CASE("the key is out while batteries and link are joined") {
    const json in = {"turn", "Q1", "off"};
    const Sitting early({in, batteries, ends, link});
    CHECK(early.isEarly(Step::Batteries, Step::IsolatorOff));
    CHECK(early.isEarly(Step::SeriesLink, Step::IsolatorOff));
    CHECK_FALSE(early.seen(Step::IsolatorOff).done);
    const Sitting after({batteries, ends, link, in});
    CHECK(after.isKept(Step::IsolatorOff));
}

TEST_CASE("batteries are strapped before a cable goes on") {
    const Sitting loose({{"lay", "B1", "B2"}, {"turn", "B1", "strapped"}, ends});
    CHECK_FALSE(loose.seen(Step::Batteries).done);
    CHECK(loose.isEarly(Step::BatteryEnds, Step::Batteries));
}

TEST_CASE("both ends of the supply, then the link") {
    Sitting wired({batteries, {"take", "P-02", "B1 minus", "X1 10 lower"}});
    CHECK_FALSE(wired.seen(Step::BatteryEnds).done);
    wired.goesOn({link});
    CHECK(wired.isEarly(Step::SeriesLink, Step::BatteryEnds));
    wired.goesOn({json{"take", "P-03", "B2 plus", "F1 in"}});
    CHECK(wired.isKept(Step::BatteryEnds));
    CHECK_FALSE(wired.isKept(Step::SeriesLink));
    // Taken off and fitted again at the right time, it is in order.
    wired.goesOn({json{"free", "P-01", 0}});
    CHECK_FALSE(wired.seen(Step::SeriesLink).done);
    wired.goesOn({json{"join", "P-01", 0, "B1 plus"}});
    CHECK(wired.isKept(Step::SeriesLink));
}

TEST_CASE("half a link is no end of the supply") {
    const Sitting wired(
        {batteries, {"take", "P-03", "B2 plus", "F1 in"}, link, {"free", "P-01", 0}});
    CHECK_FALSE(wired.seen(Step::BatteryEnds).done);
    CHECK_FALSE(wired.seen(Step::SeriesLink).done);
}

TEST_CASE("a step that is undone is not done") {
    Sitting wired({batteries, ends, link});
    CHECK(wired.isKept(Step::SeriesLink));
    wired.goesOn({json{"undo", 1}});
    CHECK_FALSE(wired.seen(Step::SeriesLink).done);
    wired.goesOn({json{"redo", 1}});
    CHECK(wired.isKept(Step::SeriesLink));
}

TEST_CASE("the cross-check wants every cable marked, before the key is on") {
    Sitting checked({batteries, ends, link, {"mark", "P-01", "right"}, json::array({"hand in"})});
    CHECK_FALSE(checked.seen(Step::CrossCheck).done);
    checked.goesOn({json::array({"mark all"})});
    CHECK(checked.isKept(Step::CrossCheck));
    CHECK(Sitting({batteries, ends, link, keyOn, check}).isEarly(Step::KeyOn, Step::CrossCheck));
}

TEST_CASE("the rocker comes after the key, and what was early can be done again") {
    Sitting eager({batteries, ends, link, check, rocker, keyOn});
    CHECK(eager.isEarly(Step::RockerOn, Step::KeyOn));
    CHECK(eager.isKept(Step::KeyOn));
    eager.goesOn({{"turn", "S1", "off"}, rocker});
    CHECK(eager.isKept(Step::RockerOn));
    Sitting rockerFirst(Steps{rocker});
    CHECK(rockerFirst.isEarly(Step::RockerOn, Step::Batteries));
    rockerFirst.goesOn({{"turn", "S1", "off"}, batteries, ends, link, check, powerUp});
    CHECK(rockerFirst.isKept(Step::RockerOn));
}

TEST_CASE("the lamp is seen when it is lit") {
    Sitting dark({batteries, ends, link, check, look});
    CHECK_FALSE(dark.seen(Step::LampSeen).done);
    dark.goesOn({rocker, look}); // the key is still out
    CHECK_FALSE(dark.seen(Step::LampSeen).done);
    dark.goesOn({{"turn", "S1", "off"}, keyOn, rocker, look});
    CHECK(dark.isKept(Step::LampSeen));
    Sitting blown({batteries, ends, link, check, {"fit", "F2", 0}, keyOn, rocker, look});
    CHECK_FALSE(blown.seen(Step::LampSeen).done);
}

TEST_CASE("the call comes when all is live, and may be repeated") {
    Sitting sitting({call, batteries, ends, link, check, keyOn, rocker, look});
    CHECK_FALSE(sitting.seen(Step::Call).done); // the key turned on: it was for nothing
    sitting.goesOn({call});
    CHECK(sitting.isKept(Step::Call));
}

TEST_CASE("a run is a button held that feeds a coil") {
    Sitting sitting({batteries, ends, link, check, powerUp, held, {"turn", "S3", "released"}});
    CHECK_FALSE(sitting.seen(Step::Run).done); // the selector is off
    sitting.goesOn({{"turn", "S5", "held"}, {"turn", "S5", "released"}});
    CHECK_FALSE(sitting.seen(Step::Run).done); // the horn
    sitting.goesOn({forward, held});
    CHECK(sitting.isKept(Step::Run));
}

TEST_CASE("a run without the call stays early until the key is turned on again") {
    Sitting sitting({batteries, ends, link, check, keyOn, rocker, look, forward, held});
    CHECK(sitting.isEarly(Step::Run, Step::Call));
    sitting.goesOn({{"turn", "S3", "released"}, call, held, {"turn", "S3", "released"}});
    CHECK(sitting.isEarly(Step::Run, Step::Call));
    sitting.goesOn({off, powerUp, drive});
    CHECK(sitting.isKept(Step::Run));
    CHECK(sitting.isKept(Step::Call));
}

TEST_CASE("putting away: off, key, link first, batteries") {
    const Steps run = {batteries, ends, link, check, powerUp, drive};
    Sitting keyFirst(run);
    keyFirst.goesOn({{"turn", "Q1", "off"}, {"turn", "Q1", "key out"}});
    CHECK_FALSE(keyFirst.seen(Step::Off).done); // the rocker is still on
    CHECK(keyFirst.isEarly(Step::KeyHung, Step::Off));
    Sitting linkLast(run);
    linkLast.goesOn(
        {off, {"free", "P-02", 0}, {"free", "P-01", 0}, {"lift", "B1"}, {"lift", "B2"}});
    CHECK(linkLast.isEarly(Step::BatteriesOut, Step::SeriesLink));
    Sitting live(run);
    live.goesOn({{"free", "P-01", 0}, {"lift", "B1"}, {"lift", "B2"}});
    CHECK(live.isEarly(Step::BatteriesOut, Step::Off));
    Sitting well(run);
    well.goesOn({putAway});
    CHECK(well.isKept(Step::BatteriesOut));
    CHECK(well.isKept(Step::SeriesLink)); // the first steps stand
    well.goesOn({batteries});
    CHECK_FALSE(well.seen(Step::SeriesLink).done); // a new building up
    CHECK_FALSE(well.seen(Step::Run).done);
}

TEST_CASE("put away, the wiring is judged as with the batteries in") {
    Sitting sitting({batteries, ends, link, check, powerUp, drive});
    CHECK_FALSE(lesson::beforePuttingAway(sitting.hand.attempt().record()));
    const std::size_t cables = sitting.hand.attempt().bench().cables.size();
    sitting.goesOn({putAway, {"free", "P-20", 1}});
    const auto before = lesson::beforePuttingAway(sitting.hand.attempt().record());
    REQUIRE(before);
    CHECK(before->bench.cables.size() == cables);
    CHECK(bench::findPart(before->bench, std::string("B1")));
    const auto differences = plan::differences(*pippin().plan, before->bench);
    REQUIRE(differences.size() == 1); // what was done since counts
    CHECK(differences.front().label == "P-20");
    // A battery laid anew is not the one that was taken out: its cables lie loose.
    sitting.goesOn({{"lay", "B1"}, {"lift", "M1"}});
    const auto after = lesson::beforePuttingAway(sitting.hand.attempt().record());
    REQUIRE(after);
    const lesson::Verdict verdict = lesson::judge(pippin(), sitting.hand.attempt());
    CHECK(verdict.checks.front().say ==
          "Not yet: an end of P-01 lies loose. Compare with the plan.");
}

TEST_CASE("something against the axle is seen at once") {
    Sitting sitting({batteries, ends, link, check});
    const bench::Part* motor = bench::findPart(sitting.hand.attempt().bench(), std::string("M1"));
    REQUIRE(motor);
    attempt::Record record = sitting.hand.attempt().record();
    const bench::Edit against = bench::ObstructAxle{motor->id, true, {}};
    record.entries.push_back({record.slices, against});
    record.entries.push_back(
        {record.slices,
         bench::Edit{bench::Operate{bench::findPart(record.start, std::string("Q1"))->id, 1}}});
    record.entries.push_back(
        {record.slices,
         bench::Edit{bench::Operate{bench::findPart(record.start, std::string("Q1"))->id, 2}}});
    const auto procedure = lesson::procedureOf(record, &*pippin().plan);
    for (const StepSeen& seen : procedure.steps()) {
        if (seen.step == Step::AxleClear) CHECK_FALSE(seen.done);
        if (seen.step == Step::KeyOn) CHECK(seen.before == Step::AxleClear);
    }
}

TEST_CASE("looking on gives the same steps as the record") {
    const Sitting sitting({batteries, link, ends, check, powerUp, drive, putAway});
    const attempt::Record& record = sitting.hand.attempt().record();
    lesson::Procedure live(record.start, 0, &*pippin().plan);
    lesson::retrace(record, [&](const lesson::Turn& turn) {
        live.look(turn.before, turn.entry.slice, nullptr); // a frame without a command between
        live.look(turn.after, turn.entry.slice, &turn.entry.command);
    });
    const auto after = lesson::procedureOf(record, &*pippin().plan);
    REQUIRE(live.steps().size() == after.steps().size());
    for (std::size_t i = 0; i < after.steps().size(); ++i) {
        CAPTURE(lesson::describe(after.steps()[i]));
        CHECK(live.steps()[i].done == after.steps()[i].done);
        CHECK(live.steps()[i].early == after.steps()[i].early);
        CHECK(live.steps()[i].slice == after.steps()[i].slice);
    }
}

TEST_CASE("only the steps that an exercise has parts for count") {
    const auto headlamp = lesson::exerciseFromJson(textOf("lessons/01-headlamp.json")).value();
    const lesson::Procedure procedure(headlamp.start, 0, nullptr);
    for (const StepSeen& seen : procedure.steps()) {
        CHECK(seen.step != Step::SeriesLink);
        CHECK(seen.step != Step::RockerOn);
        CHECK(seen.step != Step::CrossCheck);
        CHECK(seen.step != Step::BatteriesOut);
    }
    CHECK_FALSE(procedure.steps().empty());
}

} // namespace
