// SPDX-License-Identifier: MIT
#include "lesson/session.h"

#include "attempt/record_file.h"

#include <algorithm>

namespace loom::lesson {

Session::Session(std::vector<Exercise> course, bench::Bench bench)
    : exercises(std::move(course)), freeBench(std::move(bench)), world(freeBench) {
    begin("");
}

// The one way in for every attempt, new or taken up.
void Session::sitDown(attempt::Attempt attempt) {
    sitting.emplace(std::move(attempt));
    judged.reset();
    seen = {};
    hints.clear();
    traced.forget();
    markedRevision.reset();
    const Exercise* asked = exercise();
    const plan::Plan* plan = asked != nullptr && asked->plan ? &*asked->plan : nullptr;
    powering.emplace(procedureOf(sitting->record(), plan));
    world = yard::Yard(sitting->bench());
    worldRevision = sitting->revision();
    carrying = false;
}

bool Session::watch(const attempt::Quantity& quantity) {
    if (!traced.watch(quantity)) return false;
    traced.sample(*sitting);
    return true;
}

bool Session::begin(const std::string& exercise, std::uint64_t seed) {
    const auto it = std::find_if(
        exercises.begin(), exercises.end(), [&](const Exercise& e) { return e.id == exercise; });
    if (it == exercises.end() && !exercise.empty()) return false;
    if (it == exercises.end()) {
        open.reset();
        sitDown(attempt::Attempt(freeBench));
        return true;
    }
    open = static_cast<std::size_t>(it - exercises.begin());
    sitDown(attempt::Attempt(startOf(*it, seed), it->id, it->hash, seed));
    return true;
}

std::optional<bench::Refusal> Session::takeUp(const attempt::Record& record) {
    auto resumed = attempt::resume(record);
    if (!resumed) return resumed.refusal();
    if (!begin(record.exercise))
        return bench::Refusal{bench::Why::UnknownWord,
                              "/exercise",
                              bench::phrase("an-exercise-of-this-course"),
                              record.exercise};
    sitDown(std::move(resumed.value()));
    for (const attempt::Entry& entry : record.entries)
        if (const auto* hint = std::get_if<attempt::AskHint>(&entry.command))
            hints.insert(hint->check);
    judgeAsThen(record);
    return std::nullopt;
}

void Session::openBench(const bench::Bench& bench) {
    open.reset();
    sitDown(attempt::Attempt(bench));
}

const Sheet& Session::sheet() const {
    if (markedRevision != sitting->revision()) {
        marked = sheetOf(sitting->record());
        markedRevision = sitting->revision();
    }
    return marked;
}

void Session::followBench() {
    if (carrying || worldRevision == sitting->revision()) return;
    world.follow(sitting->bench());
    worldRevision = sitting->revision();
}

void Session::carry(const bench::Bench& shown, const yard::InHand& inHand) {
    const bool held = inHand.part || inHand.cable;
    carrying = carrying || held;
    if (held) return world.follow(shown, inHand);
    if (!carrying) return;
    carrying = false;
    world.follow(sitting->bench());
    worldRevision = sitting->revision();
}

void Session::moveYard(double seconds) {
    followBench();
    if (world.asleep()) return;
    world.step(seconds);
    takeFindings();
}

void Session::settleYard() {
    followBench();
    if (world.asleep()) return;
    world.settle();
    takeFindings();
}

void Session::takeFindings() {
    for (const yard::Finding& found : world.takeFindings()) {
        const bool obstructed = found.kind == yard::Finding::Kind::AxleObstructed;
        if (found.kind == yard::Finding::Kind::BatteryShifted)
            ask(bench::Edit{bench::MovePart{found.part, found.to_m}});
        else
            ask(bench::Edit{bench::ObstructAxle{found.part, obstructed, found.byCable}});
    }
}

namespace {

// Most rows look at the wiring with fresh parts and set the controls themselves: a hint taken, a
// switch turned, something measured or a fuse melted since leave what a check said standing. Rows that
// look at the parts as they are say what was so when it was asked.
bool leavesVerdict(const attempt::Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    if (!edit)
        return std::holds_alternative<attempt::AskHint>(command) ||
               std::holds_alternative<attempt::Reopened>(command);
    const bench::By by = bench::rowOf(*edit).by;
    return std::holds_alternative<bench::Operate>(*edit) || by == bench::By::Meter ||
           by == bench::By::Circuit;
}

} // namespace

// The last check of a record gives its verdict again, on the attempt as it stood then.
void Session::judgeAsThen(const attempt::Record& record) {
    std::size_t after = record.entries.size();
    while (after > 0 &&
           !std::holds_alternative<attempt::AskCheck>(record.entries[after - 1].command))
        --after;
    if (after == 0 || !exercise()) return;
    attempt::Record then = record;
    then.entries.resize(after);
    then.slices = then.entries.back().slice;
    const auto stood = attempt::resume(then);
    if (!stood) return;
    judged = judge(*exercise(), stood.value(), &seen);
    bool stands = true;
    for (std::size_t i = after; i < record.entries.size(); ++i)
        stands = stands && leavesVerdict(record.entries[i].command);
    judgedRevision = stands ? sitting->revision() : 0; // 0 is of none
}

std::optional<bench::Refusal> Session::ask(const attempt::Command& command) {
    const bool stands = judged && !verdictIsStale() && leavesVerdict(command);
    if (auto refused = sitting->ask(command)) return refused;
    powering->look(*sitting, &command);
    if (stands) judgedRevision = sitting->revision();
    if (const auto* hint = std::get_if<attempt::AskHint>(&command)) hints.insert(hint->check);
    if (std::holds_alternative<attempt::AskCheck>(command) && exercise()) {
        judged = judge(*exercise(), *sitting, &seen);
        judgedRevision = sitting->revision();
    }
    return std::nullopt;
}

void Session::advance(std::int64_t slices) {
    const bool stands = judged && !verdictIsStale();
    while (slices > 0) {
        const std::int64_t step = traced.idle() || sitting->quiet() ? slices : 1;
        sitting->advance(step);
        powering->look(*sitting, nullptr);
        traced.sample(*sitting);
        slices -= step;
    }
    if (stands) judgedRevision = sitting->revision();
}

const Exercise* Session::exercise() const {
    return open ? &exercises[*open] : nullptr;
}

bool Session::verdictIsStale() const {
    return judged && judgedRevision != sitting->revision();
}

} // namespace loom::lesson
