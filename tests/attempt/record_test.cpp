// SPDX-License-Identifier: MIT
// The record as a file: round trip, and what is damaged, hostile or from later.
#include "attempt/hand.h"
#include "attempt/record_file.h"
#include "said.h"

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

void handsOn(Hand& hand) {
    const auto first = hand.cable("W-1").id, second = hand.cable("W-2").id;
    const auto post = hand.terminal("B1", "plus");
    hand.does(bench::FreeEnd{first, 0, {0.3, 0.3}});
    hand.does(bench::StripEnd{first, 0, 1.0 / 120.0});
    hand.does(bench::TwistEnd{first, 0});
    hand.does(bench::PressEnd{first, 0, bench::EndKind::RingM6});
    hand.does(bench::JoinEnd{first, 0, post});
    hand.does(bench::TurnScrew{post, 1.0 / 3.0});
    hand.does(bench::MendScrew{post});
    hand.does(bench::TugEnd{first, 0});
    hand.does(bench::PushEnd{second, 0, 0.005});
    hand.does(bench::MakeEndWell{second, 0});
    hand.does(bench::TieCable{first, 1.0 / 3.0, second, 0.5, {0.4, 0.4}});
    hand.does(bench::TieCable{first, 0.5, {}, 0.5, {0.4, 0.5}});
    hand.does(bench::CutTie{hand.bench().ties[0].id});
    hand.does(bench::PlaceMeter{{0.7, 0.2}});
    hand.does(bench::SetMeter{bench::MeterRange::Amperes});
    hand.does(bench::Probe{0, {post, {}, 0}});
    hand.does(bench::Probe{1, {{}, second, 1}});
    hand.wait(0.5);
    hand.does(bench::Probe{1, {}});
    hand.does(bench::FitMeterFuse{});
    hand.does(bench::HangMeter{});
    hand.lay("M1", 1.1, 0.8);
    hand.does(bench::ObstructAxle{hand.part("M1"), true, first});
    hand.does(bench::ObstructAxle{hand.part("M1"), false, {}});
    hand.does(MarkOff{"W-1", SheetMark::Wrong});
    hand.does(LookAt{"W-1", 1});
    hand.does(LookAt{"B1", -1});
    hand.does(HandInSheet{});
    hand.does(CallClear{});
    hand.does(NameFault{"W-2", 0});
    hand.does(NameFault{"F2", -1});
}

// Every command there is, some of them more than once.
Attempt everyCommand() {
    Attempt attempt(builtInBench("free"), "free", "0123abcd");
    Hand hand(attempt);
    wireShort(hand);
    hand.does(bench::ChangeCable{hand.cable("W-1").id, 2.5e-6, bench::Sleeve::Black, 0.35, ""});
    hand.does(bench::TurnPart{hand.part("E1"), 1});
    hand.does(bench::MovePart{hand.part("E1"), {0.91, 1.0 / 3.0}});
    hand.set("S4", 1);
    hand.wait(2.0); // the fuse melts
    hand.does(AskHint{"closed \"loop\"\n"});
    hand.does(AskCheck{});
    hand.fit("F2", 10.0);
    hand.does(bench::FreeEnd{hand.cable("W-4").id, 1, {0.1, 0.2}});
    hand.does(Undo{});
    hand.does(Redo{});
    hand.does(bench::JoinEnd{hand.cable("W-4").id, 1, hand.terminal("B1", "minus")});
    handsOn(hand);
    hand.does(bench::RemoveCable{hand.cable("W-5").id});
    hand.does(bench::RemovePart{hand.part("B1")});
    hand.wait(0.5);
    return attempt;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("a record read back is written the same, and resumes and replays the same") {
    const Attempt attempt = everyCommand();
    const std::string text = toJson(attempt.record());
    const auto read = recordFromJson(text);
    if (!read) FAIL(read.refusal().place, " ", read.refusal().expected, " ", read.refusal().found);
    CHECK(toJson(read.value()) == text);
    CHECK(read.value().entries.size() == attempt.record().entries.size());
    CHECK(read.value().slices == attempt.record().slices);
    const auto resumed = resume(read.value());
    REQUIRE(resumed);
    CHECK(sameThings(resumed.value().bench(), attempt.bench()));
    const auto replayed = replay(read.value());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == attempt.stateHash());
}

TEST_CASE("ready-made cables and the seed survive the file") {
    Attempt attempt(builtInBench("pippin"));
    Hand hand(attempt);
    hand.does(bench::RemoveCable{hand.cable("P-06").id});
    hand.does(bench::TakeCable{"P-06", {0.5, 0.5}, {0.6, 0.6}});
    Record record = attempt.record();
    record.seed = 0xfedcba9876543210u;
    const auto read = recordFromJson(toJson(record));
    REQUIRE(read);
    CHECK(read.value().seed == record.seed);
    const auto resumed = resume(read.value());
    REQUIRE(resumed);
    CHECK(sameThings(resumed.value().bench(), attempt.bench()));
    CHECK(resumed.value().record().seed == record.seed);
}

TEST_CASE("a damaged record is refused with its place") {
    const std::string good = toJson(everyCommand().record());

    struct Row {
        const char* what;
        std::string text;
        bench::Why why;
        const char* place;
    };

    const Row rows[] = {
        {"nothing", "", bench::Why::NotJson, "line 1, column 1"},
        {"cut short", good.substr(0, good.size() / 2), bench::Why::NotJson, ""},
        {"a bench instead",
         bench::toJson(builtInBench("free")),
         bench::Why::WrongFormat,
         "/format"},
        {"later version",
         replaced(good, "\"version\":2", "\"version\":3"),
         bench::Why::LaterVersion,
         "/version"},
        {"start damaged",
         replaced(good, "\"board\": {\"width\": ", "\"board\": {\"width\": -"),
         bench::Why::OutOfRange,
         "/start/board/width"},
        {"seed in decimals",
         replaced(good, "\"seed\":\"0\"", "\"seed\":\"0x12\""),
         bench::Why::OutOfRange,
         "/seed"},
        {"an unknown command",
         replaced(good, "lay-part", "lay-down"),
         bench::Why::UnknownWord,
         "/entries/0/do"},
        {"no such terminal",
         replaced(good, "\"from\":[1,\"plus\"]", "\"from\":[1,\"normally open\"]"),
         bench::Why::UnknownWord,
         "/entries/4/from/1"},
        {"a part that is not there yet",
         replaced(good, "\"from\":[1,", "\"from\":[77,"),
         bench::Why::UnknownPart,
         "/entries/4/from/0"},
        {"a place with one number",
         replaced(good, "\"at\":[0.3,0.8]", "\"at\":[0.3]"),
         bench::Why::OutOfRange,
         "/entries/0/at"},
        {"a text for a number",
         replaced(good, "\"turns\":0", "\"turns\":\"none\""),
         bench::Why::WrongType,
         "/entries/0/turns"},
        {"half a turn too many",
         replaced(good, "\"turns\":0", "\"turns\":4"),
         bench::Why::OutOfRange,
         "/entries/0/turns"},
        {"time before the beginning",
         replaced(good, "\"t\":0", "\"t\":-1"),
         bench::Why::OutOfRange,
         "/entries/0/t"},
        {"time that goes back",
         replaced(good, "\"t\":0", "\"t\":100"),
         bench::Why::OutOfRange,
         "/entries/1/t"},
        {"time after the end",
         replaced(good, "\"slices\":300", "\"slices\":100"),
         bench::Why::OutOfRange,
         ""},
        {"a colour nobody sells",
         replaced(good, "\"sleeve\":\"red\"", "\"sleeve\":\"pink\""),
         bench::Why::UnknownWord,
         "/entries/4/sleeve"},
        {"a missing member",
         replaced(good, "\"length\":0.3,\"label\":\"W-1\"", "\"label\":\"W-1\""),
         bench::Why::Missing,
         "/entries/4/length"},
        {"a screw of no terminal",
         replaced(good, "\"screw\":[1,\"plus\"]", "\"screw\":[1,\"third\"]"),
         bench::Why::UnknownWord,
         ""},
        {"a range no meter has",
         replaced(good, "\"range\":\"amperes\"", "\"range\":\"weight\""),
         bench::Why::UnknownWord,
         ""},
        {"an end of no kind",
         replaced(good, "\"kind\":\"ring M6\"", "\"kind\":\"hook\""),
         bench::Why::UnknownWord,
         ""},
        {"a third probe", replaced(good, "\"which\":1", "\"which\":2"), bench::Why::OutOfRange, ""},
        {"a mark that is none",
         replaced(good, "\"mark\":\"wrong\"", "\"mark\":\"perhaps\""),
         bench::Why::UnknownWord,
         ""},
        {"half obstructed",
         replaced(good, "\"obstructed\":true", "\"obstructed\":0.5"),
         bench::Why::WrongType,
         ""},
        {"no such position",
         replaced(good, "\"position\":\"on\"", "\"position\":\"half on\""),
         bench::Why::UnknownWord,
         ""},
    };
    for (const Row& row : rows) {
        CAPTURE(row.what);
        const auto read = recordFromJson(row.text);
        REQUIRE_FALSE(read);
        CHECK(static_cast<int>(read.refusal().why) == static_cast<int>(row.why));
        if (*row.place) CHECK(read.refusal().place == row.place);
        CHECK_FALSE(read.refusal().expected.empty());
    }
}

TEST_CASE("a hostile record neither crashes nor hangs") {
    const std::string good = toJson(everyCommand().record());
    CHECK_FALSE(recordFromJson(std::string(kGreatestRecord_bytes + 1, ' ')));
    CHECK_FALSE(recordFromJson(std::string(1000000, '[')));
    CHECK_FALSE(
        recordFromJson(replaced(good, "\"start\":", "\"start\":" + std::string(9000, '['))));
    CHECK_FALSE(recordFromJson(replaced(good, "\"t\":0", "\"t\":1e400")));
    CHECK_FALSE(recordFromJson(replaced(good, "W-1", "\xff\xfe")));
    CHECK_FALSE(recordFromJson(replaced(good, "free", std::string(100, 'x'))));
    // Far away is a number, and the edges of the board hold it.
    const auto far = recordFromJson(replaced(good, "\"at\":[0.3,0.8]", "\"at\":[1e299,-1e299]"));
    REQUIRE(far);
    CHECK(resume(far.value()));
    // Years of waiting: taken up at once, not run again.
    Record years = Attempt(builtInBench("pippin")).record();
    years.slices = std::int64_t{1} << 52;
    CHECK(resume(years));
    const auto replayed = replay(years);
    REQUIRE_FALSE(replayed);
    CHECK(replayed.refusal().place == "/slices");
}

TEST_CASE("each byte of a record may be wrong") {
    const std::string good = toJson(everyCommand().record());
    const char wrong[] = {'0', '9', '"', ']', '-', 'e', '\0'};
    std::size_t read = 0, taken = 0;
    for (std::size_t i = 0; i < good.size(); i += 7) {
        std::string text = good;
        text[i] = wrong[i % sizeof wrong];
        const auto record = recordFromJson(text);
        if (!record) continue;
        ++read;
        if (resume(record.value())) ++taken;
    }
    CHECK(read > 0);
    CHECK(taken > 0);
}

TEST_CASE("commands that cannot have been done are refused with their entry") {
    Record record = Attempt(builtInBench("free")).record();
    record.entries.push_back({0, bench::LayPart{"B1", {0.3, 0.3}, 0}});
    record.entries.push_back({0, bench::LayPart{"B1", {0.3, 0.3}, 0}});
    const auto resumed = resume(record);
    REQUIRE_FALSE(resumed);
    CHECK(resumed.refusal().why == bench::Why::NotInTray);
    CHECK(resumed.refusal().place == "/entries/1 B1");
    CHECK_FALSE(replay(record));
    record.entries = {{0, Undo{}}};
    CHECK_FALSE(resume(record));
    record.entries = {{5, AskCheck{}}};
    CHECK_FALSE(resume(record)); // after the end
    CHECK_FALSE(replay(record));
}
