// SPDX-License-Identifier: MIT
#include "host/handover.h"

#include "attempt/record_file.h"
#include "host/page.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::host {

namespace {

std::string nameOf(const lesson::Session& session) {
    const lesson::Exercise* open = session.exercise();
    return open != nullptr ? open->id : "bench";
}

const lesson::Exercise* exerciseOf(const lesson::Session& session, const std::string& id) {
    const auto& course = session.course();
    const auto found = std::find_if(
        course.begin(), course.end(), [&](const lesson::Exercise& one) { return one.id == id; });
    return found == course.end() ? nullptr : &*found;
}

// The bench as it stands, as the beginning of an attempt. The tray of an exercise is known at the
// other end and left out, so that the link stays short.
attempt::Record asItStands(const lesson::Session& session) {
    const attempt::Record& made = session.attempt().record();
    attempt::Record record;
    record.exercise = made.exercise;
    record.exerciseHash = made.exerciseHash;
    record.seed = made.seed;
    record.start = session.attempt().bench();
    if (session.exercise() != nullptr) record.start.kit = {};
    return record;
}

} // namespace

void handOverFile(const App& app) {
    loom_files_save((nameOf(app.session) + ".attempt.json").c_str(),
                    attempt::toJson(app.session.attempt().record()).c_str());
}

void handOverLink(const App& app) {
    loom_link_make(attempt::toJson(asItStands(app.session)).c_str());
}

void linkMade(App& app, LinkMade how) {
    const char* const said[] = {"link/too-long", "link/copied", "link/not-copied"};
    screen::showNotice(app.room, screen::words(said[static_cast<int>(how)]));
    wake(app);
}

std::optional<bench::Refusal> takeUpHanded(App& app, attempt::Record record) {
    const lesson::Exercise* exercise = exerciseOf(app.session, record.exercise);
    const bench::Kit& kit = record.start.kit;
    const bool noTray = kit.parts.empty() && kit.readyMade.empty() && kit.reels.empty();
    if (exercise != nullptr && noTray) record.start.kit = exercise->start.kit;
    app.autosave.writeChanges(app.session.attempt());
    if (auto refused = app.session.takeUp(record)) return refused;
    app.autosave.follow(handed + nameOf(app.session), app.session.attempt());
    app.autosave.write(app.session.attempt());
    showOpened(app);
    return std::nullopt;
}

void linkRead(App& app, const std::string& text) {
    const auto record = attempt::recordFromJson(text);
    auto refused = record ? takeUpHanded(app, record.value())
                          : std::optional<bench::Refusal>(record.refusal());
    if (refused)
        screen::showNotice(app.room,
                           screen::words("link/refused", {{"why", screen::sentence(*refused)}}));
    wake(app);
}

} // namespace loom::host
