// SPDX-License-Identifier: MIT
#include "assets/embedded.h"
#include "attempt/record_file.h"
#include "bench/file.h"
#include "host/app.h"
#include "host/handover.h"
#include "host/page.h"
#include "host/string_argument.h"
#include "screen/sentences.h"
#include "words/strings.h"

#include <cstdlib>
#include <emscripten.h>

namespace loom::host {

namespace {

const std::string embeddedBench = "bench:"; // "bench:NAME"

std::string fromAddress(const char* name) {
    loom_address(name);
    return stringArgument();
}

std::string setting(const char* name) {
    loom_setting(name);
    return stringArgument();
}

void notice(App& app, std::string sentence) {
    screen::showNotice(app.room, std::move(sentence));
}

// One of assets/benches; false when there is none of that name or it cannot be read.
bool openEmbedded(App& app, const std::string& name) {
    const std::string path = "assets/benches/" + name + ".loom.json";
    const Embedded* file = findEmbedded(path.c_str());
    if (file == nullptr) return false;
    const auto bench = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    if (!bench) return false;
    app.session.openBench(bench.value());
    return true;
}

// From its beginning; an unknown document gives the first exercise. Returns what was begun.
std::string startAfresh(App& app, const std::string& document) {
    if (document == "free" || document == "file") {
        app.session.begin("");
        return "free";
    }
    if (document.rfind(embeddedBench, 0) == 0) {
        const std::string name = document.substr(embeddedBench.size());
        if (openEmbedded(app, name)) return document;
        notice(app, screen::words("open/no-such-bench", {{"name", name}}));
    } else if (app.session.begin(document, app.nextSeed++)) {
        return document;
    } else {
        notice(app, screen::words("open/no-such-exercise", {{"name", document}}));
    }
    if (app.session.course().empty()) return startAfresh(app, "free");
    return startAfresh(app, app.session.course().front().id);
}

std::optional<bench::Refusal> takeUp(App& app, const std::string& text) {
    const auto record = attempt::recordFromJson(text);
    if (!record) return record.refusal();
    return app.session.takeUp(record.value());
}

} // namespace

void showOpened(App& app) {
    ++app.opened;
    app.shown.inHand = {};
    app.clock.rest(seconds());
    app.ready = true;
    wake(app);
}

void openAtStart(App& app) {
    // English for one that there is not.
    if (!words::setLanguage(fromAddress("language"))) words::setLanguage(setting("language"));
    loom_language(words::language().c_str());
    std::string wanted = fromAddress("exercise");
    const std::string bench = fromAddress("bench");
    if (!bench.empty()) wanted = embeddedBench + bench;
    const std::string larger = fromAddress("large");
    if (!larger.empty()) {
        const float factor = std::strtof(larger.c_str(), nullptr);
        if (factor >= 0.5f && factor <= 3.0f) app.larger = factor;
    }
    // Another fault each time; ?seed= gives a certain one.
    const std::string seed = fromAddress("seed");
    app.nextSeed = seed.empty() ? static_cast<std::uint64_t>(emscripten_random() * 1e6f)
                                : std::strtoull(seed.c_str(), nullptr, 10);
    loom_storage_open(wanted.c_str());
}

void documentRead(App& app, const std::string& document, const std::string& text) {
    const bool atStart = !app.ready;
    if (!atStart) app.autosave.writeChanges(app.session.attempt());
    std::string opened = document;
    bool read = false;
    if (!text.empty()) {
        const auto refused = takeUp(app, text);
        read = !refused;
        if (refused) {
            loom_storage_set_aside(document.c_str());
            notice(app,
                   screen::words("open/record-set-aside", {{"why", screen::sentence(*refused)}}));
        }
    }
    if (!read && document.empty() && !app.session.course().empty())
        opened = app.session.course().front().id;
    else if (!read && document.empty())
        opened = "free";
    if (!read) opened = startAfresh(app, opened);
    app.autosave.follow(opened, app.session.attempt());
    showOpened(app);
    if (atStart) loom_link_look();
}

void begin(App& app, const std::string& exercise) {
    const lesson::Exercise* open = app.session.exercise();
    const std::string document = app.autosave.document();
    const bool same = open != nullptr ? open->id == exercise : exercise.empty();
    if (!same) {
        loom_storage_read(exercise.c_str());
        return;
    }
    if (open != nullptr && document.rfind(handed, 0) == 0) {
        loom_storage_read(exercise.c_str()); // from somebody's bench back to the learner's own
        return;
    }
    if (open == nullptr && document != "free") {
        loom_storage_read("free"); // from a file back to the learner's own free bench
        return;
    }
    startAfresh(app, document);
    app.autosave.follow(document, app.session.attempt());
    app.autosave.write(app.session.attempt());
    showOpened(app);
}

namespace {

// Nothing when the text is no attempt at all; what is wrong with it when it is a damaged one.
std::optional<bench::Outcome<attempt::Record>> attemptIn(const std::string& text) {
    auto record = attempt::recordFromJson(text);
    if (record) return record;
    const bench::Why why = record.refusal().why;
    if (why == bench::Why::WrongFormat || why == bench::Why::NotJson) return std::nullopt;
    return record;
}

} // namespace

void openFile(App& app, const std::string& name, const std::string& text) {
    wake(app);
    const auto refuse = [&](const bench::Refusal& refusal) {
        notice(app,
               screen::words("open/file-refused",
                             {{"file", name}, {"why", screen::sentence(refusal)}}));
    };
    if (const auto record = attemptIn(text)) {
        if (!*record) return refuse(record->refusal());
        if (const auto refused = takeUpHanded(app, record->value())) refuse(*refused);
        return;
    }
    const auto bench = bench::fromJson(text);
    if (!bench) return refuse(bench.refusal());
    app.autosave.writeChanges(app.session.attempt());
    app.session.openBench(bench.value());
    app.autosave.follow("file", app.session.attempt());
    app.autosave.write(app.session.attempt());
    showOpened(app);
}

void saveFile(const App& app) {
    const lesson::Exercise* open = app.session.exercise();
    const std::string name = open != nullptr ? open->id : "bench";
    loom_files_save((name + ".loom.json").c_str(),
                    bench::toJson(app.session.attempt().bench()).c_str());
}

} // namespace loom::host
