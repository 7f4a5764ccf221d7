// SPDX-License-Identifier: MIT
#include "lesson/session.h"

#include "attempt/record_file.h"

#include <algorithm>

namespace loom::lesson {

Session::Session(std::vector<Exercise> course, bench::Bench bench)
    : exercises(std::move(course)), freeBench(std::move(bench)) {
    begin("");
}

void Session::watch(const attempt::Quantity& quantity) {
    if (traced.watch(quantity)) traced.sample(*sitting);
}

bool Session::begin(const std::string& exercise) {
    const auto it = std::find_if(
        exercises.begin(), exercises.end(), [&](const Exercise& e) { return e.id == exercise; });
    if (it == exercises.end() && !exercise.empty()) return false;
    judged.reset();
    hints.clear();
    traced.forget();
    if (it == exercises.end()) {
        open.reset();
        sitting.emplace(freeBench);
        return true;
    }
    open = static_cast<std::size_t>(it - exercises.begin());
    sitting.emplace(it->start, it->id, it->hash);
    return true;
}

std::optional<bench::Refusal> Session::takeUp(const attempt::Record& record) {
    auto resumed = attempt::resume(record);
    if (!resumed) return resumed.refusal();
    if (!begin(record.exercise))
        return bench::Refusal{
            bench::Why::UnknownWord, "/exercise", "an exercise of this course", record.exercise};
    sitting.emplace(std::move(resumed.value()));
    for (const attempt::Entry& entry : record.entries)
        if (const auto* hint = std::get_if<attempt::AskHint>(&entry.command))
            hints.insert(hint->check);
    return std::nullopt;
}

void Session::openBench(const bench::Bench& bench) {
    begin("");
    sitting.emplace(bench);
}

namespace {

bool isOfTheMeter(const bench::Edit& edit) {
    return std::holds_alternative<bench::PlaceMeter>(edit) ||
           std::holds_alternative<bench::HangMeter>(edit) ||
           std::holds_alternative<bench::SetMeter>(edit) ||
           std::holds_alternative<bench::Probe>(edit) ||
           std::holds_alternative<bench::FitMeterFuse>(edit);
}

// A check looks at the wiring with fresh parts and sets the controls itself: a hint taken, a switch
// turned, something measured or a fuse melted since leave what it said standing.
bool leavesVerdict(const attempt::Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    return std::holds_alternative<attempt::AskHint>(command) ||
           (edit && (std::holds_alternative<bench::Operate>(*edit) || isOfTheMeter(*edit)));
}

} // namespace

std::optional<bench::Refusal> Session::ask(const attempt::Command& command) {
    const bool stands = judged && !verdictIsStale() && leavesVerdict(command);
    if (auto refused = sitting->ask(command)) return refused;
    if (stands) judgedRevision = sitting->revision();
    if (const auto* hint = std::get_if<attempt::AskHint>(&command)) hints.insert(hint->check);
    if (std::holds_alternative<attempt::AskCheck>(command) && exercise()) {
        judged = judge(*exercise(), *sitting);
        judgedRevision = sitting->revision();
    }
    return std::nullopt;
}

void Session::advance(std::int64_t slices) {
    const bool stands = judged && !verdictIsStale();
    while (slices > 0) {
        const std::int64_t step = traced.idle() || sitting->quiet() ? slices : 1;
        sitting->advance(step);
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
