// SPDX-License-Identifier: MIT
#include "host/autosave.h"

#include "attempt/record_file.h"
#include "host/page.h"

#include <utility>

namespace loom::host {

namespace {
// Short, so that a browser killed at any moment loses next to nothing; long enough that a burst of
// edits is one write.
constexpr int kDebounce_ms = 150;
} // namespace

Autosave::Stand Autosave::standOf(const attempt::Attempt& attempt) {
    return {attempt.revision(), attempt.record().entries.size()};
}

void Autosave::follow(std::string document, const attempt::Attempt& attempt) {
    if (document != name) loom_storage_point(document.c_str());
    name = std::move(document);
    written = standOf(attempt);
    ++mark;
    kept.reset();
    trouble = Trouble::None;
}

void Autosave::look(const attempt::Attempt& attempt) {
    if (trouble == Trouble::Overtaken) return;
    if (standOf(attempt) != written) loom_storage_soon(kDebounce_ms);
}

void Autosave::writeChanges(const attempt::Attempt& attempt, bool leaving) {
    if (standOf(attempt) != written) write(attempt, leaving);
}

void Autosave::write(const attempt::Attempt& attempt, bool leaving) {
    if (trouble == Trouble::Overtaken || name.empty()) return;
    written = standOf(attempt);
    const std::string text = attempt::toJson(attempt.record());
    loom_storage_write(name.c_str(), text.c_str(), ++mark, leaving ? 1 : 0);
}

void Autosave::check() const {
    loom_storage_check(name.c_str(), mark);
}

void Autosave::notSaved(int which, bool overtaken) {
    if (which == mark) trouble = overtaken ? Trouble::Overtaken : Trouble::Failed;
}

void Autosave::saved(int which) {
    if (which != mark) return;
    kept = written.revision;
    if (trouble == Trouble::Failed) trouble = Trouble::None;
}

} // namespace loom::host
