// SPDX-License-Identifier: MIT
// The command as its users meet it: what it prints and its exit codes.
#include "attempt/record_file.h"
#include "bench/file.h"
#include "desk/desk.h"
#include "desk/folder.h"
#include "desk/numbers.h"
#include "desk/script.h"
#include "lesson/exercise.h"

#include <nlohmann/json.hpp>
#include <vector>

using namespace loom;
using namespace loom::desk;
using namespace loom::desk::test;

namespace {

struct Table {
    std::vector<std::string> headings;
    std::vector<std::vector<std::string>> rows;
};

std::vector<std::string> parted(const std::string& text, char by) {
    std::vector<std::string> parts{""};
    for (const char c : text) {
        if (c == by)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

Table tableFrom(const std::string& csv) {
    Table table;
    for (const std::string& line : parted(csv, '\n')) {
        if (line.empty()) continue;
        if (table.headings.empty())
            table.headings = parted(line, ',');
        else
            table.rows.push_back(parted(line, ','));
    }
    return table;
}

double last(const Table& table, std::size_t column) {
    REQUIRE_FALSE(table.rows.empty());
    return numberFrom(table.rows.back().at(column)).value_or(-1e9);
}

const std::string firstExercise = LOOM_SOURCE_DIR "/lessons/01-headlamp.json";

// An attempt at the first exercise by a script, as its file.
std::string attemptBy(const char* script) {
    std::FILE* file = std::fopen(firstExercise.c_str(), "rb");
    REQUIRE(file);
    std::string text(1u << 20, ' ');
    text.resize(std::fread(text.data(), 1, text.size(), file));
    std::fclose(file);
    const auto exercise = lesson::exerciseFromJson(text);
    REQUIRE(exercise);
    attempt::Attempt attempt(exercise.value().start, exercise.value().id, exercise.value().hash);
    const auto lines = scriptFrom("s", script);
    REQUIRE(lines);
    for (const ScriptLine& line : lines.value()) {
        CAPTURE(line.place);
        attempt.advance(line.slice - attempt.now_slices());
        const auto command = commandFrom(line, attempt.bench());
        REQUIRE(command);
        REQUIRE_FALSE(attempt.ask(command.value()));
    }
    return attempt::toJson(attempt.record());
}

constexpr const char* kWireHeadlamp = "lay B1 0.2 0.55; lay F3 0.3 0.2; lay S4 0.55 0.2\n"
                                      "lay E1 0.8 0.3; F3 fit 3\n"
                                      "cut F3 out to S4 in sleeve yellow\n"
                                      "cut S4 out to E1 in sleeve yellow\n"
                                      "cut E1 out to B1 minus sleeve black\n";

constexpr const char* kDrive = "0.1 Q1 off; Q1 on; S1 on\n"
                               "0.2 S2 forward; S3 held\n";

} // namespace

TEST_CASE("help tells the commands, the quantities, the parts and the exit codes") {
    for (const char* word : {"--help", "-h", "help"}) {
        const Said said = run({word});
        CHECK(said.exitCode == Done);
        CHECK(said.err.empty());
        for (const char* must : {"loomwright try",
                                 "loomwright new",
                                 "loomwright replay",
                                 "loomwright check",
                                 "--every",
                                 "brightness",
                                 "push-button: in, out; released, held",
                                 "Exit codes"})
            CHECK_MESSAGE(said.out.find(must) != std::string::npos, must);
    }
    CHECK(run({"try", "--help"}).exitCode == Done);
    for (const std::string& line : parted(run({"--help"}).out, '\n'))
        CHECK_MESSAGE(line.size() <= 100, line);
}

TEST_CASE("wrong arguments say what was expected") {
    struct Row {
        std::vector<std::string> arguments;
        const char* err;
    };

    const Row rows[] = {
        {{},
         "loomwright: command: expected try, new, replay, check, mark, record, paper, faults or --help, found "
         "nothing\n"},
        {{"tr"},
         "loomwright: command: expected try, new, replay, check, mark, record, paper, faults or --help, found "
         "tr\n"},
        {{"try"}, "loomwright: try: expected a bench file, found none\n"},
        {{"try", "b"}, "loomwright: try: expected --read and at least one quantity, found none\n"},
        {{"try", "b", "c"}, "loomwright: try: expected one bench file, found a second, c\n"},
        {{"try", "b", "--read"}, "loomwright: --read: expected a quantity, found none\n"},
        {{"try", "b", "--read", "--as", "csv"},
         "loomwright: --read: expected a quantity, found none\n"},
        {{"try", "b", "--as", "xml"}, "loomwright: --as: expected csv or json, found xml\n"},
        {{"try", "b", "--for", "ever"}, "loomwright: --for: expected seconds from 0, found ever\n"},
        {{"try", "b", "--every", "0"},
         "loomwright: --every: expected seconds from 0.01, found 0\n"},
        {{"try", "b", "--for"}, "loomwright: --for: expected seconds, found nothing\n"},
        {{"try", "b", "--speed"},
         "loomwright: try: expected --do, --for, --every, --read, --as or --events, found "
         "--speed\n"},
        {{"new", "big"}, "loomwright: new: expected free or pippin, found big\n"},
        {{"replay"}, "loomwright: replay: expected one attempt file, found 0 arguments\n"},
        {{"check"},
         "loomwright: check: expected an exercise file and an attempt file, found 0 arguments\n"},
    };
    for (const Row& row : rows) {
        const Said said = run(row.arguments);
        CHECK(said.exitCode == WrongUse);
        CHECK(said.out.empty());
        CHECK(said.err == row.err);
    }
}

TEST_CASE("new prints benches that can be read") {
    CHECK(bench::fromJson(run({"new"}).out));
    CHECK(run({"new"}).out == run({"new", "free"}).out);
    const auto pippin = bench::fromJson(run({"new", "pippin"}).out);
    REQUIRE(pippin);
    CHECK(bench::findPart(pippin.value(), std::string("M1")));
}

TEST_CASE("files that cannot be read or are not what they should be") {
    const Folder folder;
    const std::string broken =
        folder.file("broken.loom.json", "{\"format\": \"loomwright bench\",\n");
    const std::string other = folder.file("other.loom.json", "{\"format\": \"letter\"}");
    const std::string bench = folder.file("pippin.loom.json", run({"new", "pippin"}).out);

    struct Row {
        std::vector<std::string> arguments;
        const char* err;
    };

    const std::string script = folder.file("drive.txt", "0.1 Q1 off\n\n0.2 Q1 sideways\n");
    const std::string refused = folder.file("early.txt", "# no key\n0.1 Q1 on\n");
    const Row rows[] = {
        {{"try", folder.name("none.loom.json"), "--read", "M1.speed"},
         "loomwright: none.loom.json: expected a file that can be read, found No such file or "
         "directory\n"},
        {{"try", other, "--read", "M1.speed"},
         "loomwright: other.loom.json: /format: expected loomwright bench, found letter\n"},
        {{"try", bench, "--do", script, "--read", "M1.speed"},
         "loomwright: drive.txt:3: expected Q1 and one of: key out, off, on, found sideways\n"},
        {{"try", bench, "--do", "drive", "--read", "M1.speed"},
         "loomwright: --do: expected a script file or a line such as '0.5 Q1 on', found drive\n"},
        {{"try", bench, "--read", "M1.spped"},
         "loomwright: --read: M1.spped: expected one of: voltage, current, power, temperature, "
         "speed, angle, charge, melting, brightness, open, closed, pulled-in, "
         "normally-open-current, normally-closed-current, found spped\n"},
        {{"try", bench, "--read", "M7.speed"},
         "loomwright: --read: M7.speed: expected parts or a cable that are on the bench at some "
         "time, found M7\n"},
        {{"replay", bench},
         "loomwright: pippin.loom.json: /format: expected loomwright attempt, found loomwright "
         "bench\n"},
    };
    for (const Row& row : rows) {
        const Said said = run(row.arguments);
        CHECK(said.exitCode == Unreadable);
        CHECK(said.out.empty());
        CHECK(withoutFolder(said.err, folder) == row.err);
    }
    const Said cut = run({"try", broken, "--read", "M1.speed"});
    CHECK(cut.exitCode == Unreadable);
    CHECK(cut.err.find("line 2") != std::string::npos);
    const Said said = run({"try", bench, "--do", refused, "--read", "M1.speed"});
    CHECK(said.exitCode == Refused);
    CHECK(withoutFolder(said.err, folder) ==
          "loomwright: early.txt:2: Q1: expected the key in, found key out\n");
}

TEST_CASE("try prints a table of readings as CSV, events on standard error") {
    const Folder folder;
    const std::string bench = folder.file("pippin.loom.json", run({"new", "pippin"}).out);
    const Said said = run({"try",
                           bench,
                           "--do",
                           kDrive,
                           "--for",
                           "1.55",
                           "--every",
                           "0.5",
                           "--read",
                           "M1.speed",
                           "K1.pulled-in",
                           "X1/1-X1/10"});
    CHECK(said.exitCode == Done);
    const Table table = tableFrom(said.out);
    CHECK(table.headings ==
          std::vector<std::string>{"time_s", "M1.speed_rad/s", "K1.pulled-in", "X1/1-X1/10_V"});
    REQUIRE(table.rows.size() == 5);
    const char* times[] = {"0.00", "0.50", "1.00", "1.50", "1.55"};
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(table.rows[i].at(0) == times[i]);
    CHECK(table.rows[0] == std::vector<std::string>{"0.00", "0", "0", ""});
    CHECK(last(table, 1) > 300.0);
    CHECK(table.rows[4][2] == "1");
    CHECK(said.err.find("s: K1 pulled in at 2") != std::string::npos);
    CHECK(said.err.find("s: M1 starts to turn") != std::string::npos);
}

TEST_CASE("try prints JSON that a program can read") {
    const Folder folder;
    const std::string bench = folder.file("pippin.loom.json", run({"new", "pippin"}).out);
    const Said said = run({"try",
                           bench,
                           "--do",
                           kDrive,
                           "--as",
                           "json",
                           "--events",
                           "--read",
                           "M1.speed",
                           "P-06.temperature"});
    CHECK(said.exitCode == Done);
    CHECK(said.err.empty());
    const auto json = nlohmann::json::parse(said.out, nullptr, false);
    REQUIRE_FALSE(json.is_discarded());
    CHECK(json["columns"][1]["name"] == "M1.speed");
    CHECK(json["columns"][1]["unit"] == "rad/s");
    CHECK(json["rows"].size() == 13); // 1 s after the last line at 0.2 s, every 0.1 s
    CHECK(json["rows"][12][0] == 1.2);
    bool pulledIn = false;
    for (const auto& event : json["events"])
        pulledIn |= event["event"] == "pulled-in" && event["name"] == "K1";
    CHECK(pulledIn);
}

TEST_CASE("events stand in the row that follows them") {
    const Folder folder;
    const std::string bench = folder.file("pippin.loom.json", run({"new", "pippin"}).out);
    const Said said =
        run({"try", bench, "--do", kDrive, "--events", "--every", "0.1", "--read", "K1.pulled-in"});
    CHECK(said.err.empty());
    const Table table = tableFrom(said.out);
    CHECK(table.headings.back() == "events");
    for (const auto& row : table.rows) {
        const bool told = row.back().find("K1 pulled in") != std::string::npos;
        CHECK(told == (row[0] == "0.30"));
    }
}

TEST_CASE("a part that comes later has empty cells until then") {
    const Folder folder;
    const std::string bench = folder.file("free.loom.json", run({"new"}).out);
    const Said said = run({"try",
                           bench,
                           "--do",
                           "0.2 lay B1",
                           "--for",
                           "0.3",
                           "--read",
                           "B1.voltage",
                           "B1/plus-B1/minus"});
    CHECK(said.exitCode == Done);
    const Table table = tableFrom(said.out);
    REQUIRE(table.rows.size() == 4);
    CHECK(table.rows[1] == std::vector<std::string>{"0.10", "", ""});
    CHECK(last(table, 1) == doctest::Approx(12.85).epsilon(0.01));
    CHECK(last(table, 2) == doctest::Approx(12.85).epsilon(0.01));
}

TEST_CASE("a bench built by script alone lights its lamp and blows its fuse") {
    const Folder folder;
    const std::string bench = folder.file("free.loom.json", run({"new"}).out);
    const std::string script = folder.file("build.txt",
                                           "lay B1 0.3 0.8\nlay F2 0.3 0.5\nlay S4 0.6 0.5\n"
                                           "lay E1 0.9 0.5\n"
                                           "cut B1 plus to F2 in\ncut F2 out to S4 in\n"
                                           "cut S4 out to E1 in label feed\n"
                                           "cut E1 out to B1 minus sleeve black\n"
                                           "1 S4 on\n"
                                           "3 cut E1 in to E1 out\n");
    const Said said = run({"try",
                           bench,
                           "--do",
                           script,
                           "--for",
                           "6",
                           "--every",
                           "1",
                           "--read",
                           "feed.current",
                           "F2.open"});
    CHECK(said.exitCode == Done);
    const Table table = tableFrom(said.out);
    REQUIRE(table.rows.size() == 7);
    CHECK(numberFrom(table.rows[2][1]).value_or(0) > 0.4);
    CHECK(table.rows[2][2] == "0");
    CHECK(table.rows[6][2] == "1");
    CHECK(said.err.find("s: F2 opened at once, at ") != std::string::npos);
}

TEST_CASE("replay prints the state hash of the attempt") {
    const Folder folder;
    auto bench = bench::fromJson(run({"new", "pippin"}).out);
    REQUIRE(bench);
    attempt::Attempt attempt(bench.value());
    REQUIRE_FALSE(
        attempt.ask(bench::Operate{bench::findPart(attempt.bench(), std::string("S1"))->id, 1}));
    attempt.advance(30);
    const std::string file = folder.file("a.attempt.json", attempt::toJson(attempt.record()));
    const Said said = run({"replay", file});
    CHECK(said.exitCode == Done);
    char hash[32];
    std::snprintf(
        hash, sizeof hash, "%016llx\n", static_cast<unsigned long long>(attempt.stateHash()));
    CHECK(said.out == hash);
}

TEST_CASE("check marks an attempt and says what is wrong") {
    const Folder folder;
    const std::string whole = std::string(kWireHeadlamp) + "20 cut B1 plus to F3 in; 21 S4 on\n";
    const Said solved =
        run({"check", firstExercise, folder.file("a.json", attemptBy(whole.c_str()))});
    CHECK(solved.exitCode == Done);
    CHECK(solved.err.empty());
    CHECK(solved.out ==
          "lights: 3 of 3\ndark: 2 of 2\nprotected: 4 of 4\norder: 1 of 1\nmarks: 10 of 10\n");

    const std::string part = folder.file("b.json", attemptBy(kWireHeadlamp));
    const Said unsolved = run({"check", firstExercise, part});
    CHECK(unsolved.exitCode == NotSolved);
    CHECK(unsolved.out.find("lights: 0 of 3 - Not yet") == 0);
    CHECK(unsolved.out.find("marks: 0 of 10\n") != std::string::npos);
}

TEST_CASE("check will not mark an attempt at something else") {
    const Folder folder;
    const auto bench = bench::fromJson(run({"new"}).out);
    REQUIRE(bench);
    const attempt::Attempt attempt(bench.value());
    const Said said =
        run({"check", firstExercise, folder.file("a.json", attempt::toJson(attempt.record()))});
    CHECK(said.exitCode == Altered);
    CHECK(withoutFolder(said.err, folder) ==
          "loomwright: a.json: /exercise: expected headlamp, found another exercise\n");
    CHECK(said.out.empty());
}

// One line of a text by what stands in it.
std::size_t lineWith(const std::vector<std::string>& lines, const std::string& part) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (lines[i].find(part) != std::string::npos) return i;
    FAIL("no line with " << part);
    return 0;
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t from = 0;
    for (std::size_t end; (end = text.find('\n', from)) != std::string::npos; from = end + 1)
        lines.push_back(text.substr(from, end - from));
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line + "\n";
    return text;
}

TEST_CASE("an attempt that was altered by hand gets no mark, and where is said") {
    const Folder folder;
    const std::string whole = std::string(kWireHeadlamp) + "\n1 cut B1 plus to F3 in sleeve red";
    const std::vector<std::string> lines = linesOf(attemptBy(whole.c_str()));
    const auto checked = [&](const std::vector<std::string>& altered) {
        return run({"check", firstExercise, folder.file("a.json", joined(altered))});
    };
    CHECK(checked(lines).exitCode == Done);
    const std::size_t entries = lineWith(lines, "\"entries\"") + 1;
    const auto refused = [&](const std::vector<std::string>& altered, const std::string& place) {
        const Said said = checked(altered);
        CAPTURE(said.err);
        CHECK(said.exitCode == Altered);
        CHECK(said.out.empty());
        CHECK(said.err.find(place) != std::string::npos);
    };
    const std::size_t fit = lineWith(lines, "\"rating\":3");
    const std::string ofFit = "/entries/" + std::to_string(fit - entries);
    auto altered = lines; // a command deleted
    altered.erase(altered.begin() + static_cast<std::ptrdiff_t>(fit));
    refused(altered, ofFit);
    altered = lines; // two exchanged
    std::swap(altered[entries + 1], altered[entries + 2]);
    refused(altered, "/entries/1");
    altered = lines; // a figure
    altered[fit].replace(altered[fit].find("\"rating\":3"), 10, "\"rating\":15");
    refused(altered, ofFit);
    altered = lines; // a link of the chain taken out
    altered[entries].erase(altered[entries].find(",\"c\":"), 15);
    refused(altered, "/entries/0");
    altered = lines; // more time
    const std::size_t slices = lineWith(lines, "\"slices\"");
    altered[slices].insert(altered[slices].find(",") , "0");
    refused(altered, "/chain");
    altered = lines; // another start
    const std::size_t start = lineWith(lines, "\"width\"");
    altered[start].replace(altered[start].find("1.06"), 4, "1.07");
    refused(altered, "/start");
    altered = lines; // another variant
    const std::size_t seed = lineWith(lines, "\"seed\"");
    altered[seed] = "\"seed\":\"7\",";
    refused(altered, "/entries/0");
}

TEST_CASE("an attempt taken up again after it was altered stays altered") {
    const Folder folder;
    std::vector<std::string> lines = linesOf(attemptBy(kWireHeadlamp));
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(lineWith(lines, "\"rating\":3")));
    const auto read = attempt::recordFromJson(joined(lines));
    REQUIRE(read);
    const auto resumed = attempt::resume(read.value());
    REQUIRE(resumed);
    const Said said = run({"check",
                           firstExercise,
                           folder.file("b.json", attempt::toJson(resumed.value().record()))});
    CHECK(said.exitCode == Altered);
    CHECK(said.err.find("/entries/4") != std::string::npos);
}

TEST_CASE("an attempt of an earlier version is marked, and that it has no chain is said") {
    const Folder folder;
    std::string text = attemptBy(kWireHeadlamp);
    text.replace(text.find("\"version\":2"), 11, "\"version\":1");
    const Said said = run({"check", firstExercise, folder.file("a.json", text)});
    CHECK(said.exitCode == NotSolved);
    CHECK(said.err.find("no chain of hashes") != std::string::npos);
}

TEST_CASE("check makes every single mistake of a worked solution, and the marks miss none") {
    for (const char* name : {"/lessons/01-headlamp.json", "/lessons/02-twenty-four-volts.json"}) {
        CAPTURE(name);
        const Said said = run({"check", std::string(LOOM_SOURCE_DIR) + name});
        CAPTURE(said.out);
        CHECK(said.exitCode == Done);
        CHECK(said.out.find("missed: ") == std::string::npos);
        CHECK(said.out.find("all ") != std::string::npos);
    }
    // Without its checks of danger the first exercise misses some.
    const Folder folder;
    std::FILE* file = std::fopen(firstExercise.c_str(), "rb");
    std::string text(1u << 20, ' ');
    text.resize(std::fread(text.data(), 1, text.size(), file));
    std::fclose(file);
    auto exercise = nlohmann::json::parse(text);
    exercise["checks"].erase(exercise["checks"].begin() + 2); // protected
    const Said missed = run({"check", folder.file("blunt.json", exercise.dump())});
    CHECK(missed.exitCode == NotSolved);
    CHECK(missed.out.find("missed: ") != std::string::npos);
    exercise.erase("solution");
    CHECK(run({"check", folder.file("none.json", exercise.dump())}).exitCode == Unreadable);
}

TEST_CASE("record makes an attempt from the worked solution or a script, which check then marks") {
    const Folder folder;
    for (const char* name : {"/lessons/01-headlamp.json",
                             "/lessons/02-twenty-four-volts.json",
                             "/lessons/03-relay.json",
                             "/lessons/04-pippin.json"}) {
        CAPTURE(name);
        const std::string exercise = std::string(LOOM_SOURCE_DIR) + name;
        const Said recorded = run({"record", exercise});
        REQUIRE(recorded.exitCode == Done);
        const Said marked = run({"check", exercise, folder.file("a.json", recorded.out)});
        CAPTURE(marked.out);
        CHECK(marked.exitCode == Done);
    }
    const Said half = run({"record", firstExercise, folder.file("s.txt", kWireHeadlamp)});
    REQUIRE(half.exitCode == Done);
    CHECK(run({"check", firstExercise, folder.file("b.json", half.out)}).exitCode == NotSolved);
    const Said refused = run({"record", firstExercise, folder.file("t.txt", "lay K9")});
    CHECK(refused.exitCode == Refused);
    CHECK(refused.err.find("t.txt:1") != std::string::npos);
    CHECK(run({"record"}).exitCode == WrongUse);
    CHECK(run({"record", firstExercise, "--seed", "-1"}).exitCode == WrongUse);
}

TEST_CASE("mark makes one table of many attempts, altered ones without a mark") {
    const Folder folder;
    const std::string solved = run({"record", firstExercise}).out;
    std::string altered = solved;
    altered.replace(altered.find("\"rating\":3"), 10, "\"rating\":15");
    const Said said = run({"mark",
                           firstExercise,
                           folder.file("a.json", solved),
                           folder.file("b.json", attemptBy(kWireHeadlamp)),
                           folder.file("c.json", altered),
                           folder.file("d.json", "{")});
    const auto lines = linesOf(withoutFolder(said.out, folder));
    REQUIRE(lines.size() == 5);
    CHECK(lines[0] == "file,marks,of,lights,dark,protected,order,note");
    CHECK(lines[1] == "a.json,10,10,3,2,4,1,");
    CHECK(lines[2].find("b.json,") == 0);
    CHECK(lines[3].find("c.json,,,,,,,") == 0);
    CHECK(lines[3].find("/entries/") != std::string::npos);
    CHECK(lines[4].find("d.json,,,,,,,") == 0);
    CHECK(said.exitCode == Unreadable);
    CHECK(run({"mark", firstExercise}).exitCode == WrongUse);
}

TEST_CASE("faults: a thin cable before every fuse is named, and a sound bench is left in peace") {
    const std::string pippin = LOOM_SOURCE_DIR "/assets/benches/pippin.loom.json";
    const Said all = run({"faults", pippin, "--common", "B1/minus"});
    CHECK(all.exitCode == NotSolved);
    CHECK(all.out.find("P-03 comes before every fuse") != std::string::npos);
    CHECK(all.out.find("P-14 gets too hot") != std::string::npos);
    const Said named = run({"faults", pippin, "--named", "B2/plus", "F1/in"});
    CHECK(named.out.find("P-03 comes") == std::string::npos);
    CHECK(named.out.find("P-01 comes") != std::string::npos);
    CHECK(run({"faults", pippin, "--named", "B2/plus"}).exitCode == WrongUse);
    CHECK(run({"faults", pippin, "--common", "B9/plus"}).exitCode == WrongUse);
    CHECK(run({"faults", "no such file"}).exitCode == Unreadable);
    CHECK(run({"faults"}).exitCode == WrongUse);
}
