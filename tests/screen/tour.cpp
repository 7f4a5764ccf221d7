// SPDX-License-Identifier: MIT
#include "screen/tour.h"

#include "bench/catalogue.h"
#include "words/strings.h"

namespace loom::test {
namespace {

struct Size {
    int width, height;
};

constexpr Size kSizes[] = {{1280, 800}, {1366, 625}, {768, 1024}};

// Before the stage is made, which draws at once.
int inPseudo() {
    words::setLanguage(words::kPseudo);
    return kSizes[0].width;
}

} // namespace

Tour::Tour() : stage(inPseudo(), kSizes[0].height), names(catalogueNames()) {
    stage.view.reducedMotion = true; // nothing slides
    for (const lesson::Exercise& exercise : stage.session().course())
        addNames(exercise.start, names);
}

Tour::~Tour() {
    words::setLanguage("en");
}

void Tour::learnNames() {
    addNames(benchOf(stage), names);
    const lesson::Exercise* exercise = stage.session().exercise();
    if (exercise && exercise->plan)
        for (const plan::PlanCable& row : exercise->plan->cables)
            names.insert(row.label);
}

void Tour::judge(const std::string& where) {
    watch.clear();
    stage.frame();
    ++looks;
    texts += watch.count();
    for (const std::string& fault : watch.faults(stage, names))
        faults.emplace(fault, where);
}

void Tour::look(const std::string& where, const Prepare& prepare) {
    learnNames();
    for (const Size& size : kSizes) {
        stage.resize(size.width, size.height);
        stage.frame();
        if (prepare) prepare(stage);
        stage.frames(2);
        judge(where + " at " + std::to_string(size.width));
    }
}

void Tour::scroll(const std::string& where, float& at_px) {
    float before = -1.0f;
    for (at_px = 0.0f; at_px > before + 1.0f; at_px += 250.0f) {
        stage.frame();
        before = at_px; // kept within range by the frame
        judge(where);
    }
    at_px = 0.0f;
}

void Tour::leaf(const std::string& where, screen::PaperLeaf leaf, bool courses) {
    const Prepare open = [&](Stage& on) {
        const bool wide = on.view.layout.form == screen::Form::Wide;
        on.ui.paper.pulledIn = !wide;
        on.ui.paper.coursesOpen = courses;
        on.ui.paper.plan.leaf = leaf;
        on.ui.paper.plan.wide =
            wide && (leaf == screen::PaperLeaf::Plan || leaf == screen::PaperLeaf::Sheet);
        on.frames(2);
        scroll(where, on.ui.paper.scroll);
    };
    look(where, open);
    stage.ui.paper.pulledIn = stage.ui.paper.coursesOpen = stage.ui.paper.plan.wide = false;
    stage.ui.paper.plan.leaf = screen::PaperLeaf::Job;
    stage.frame();
}

void Tour::cards(const std::string& where) {
    const bench::Bench bench = benchOf(stage);
    std::vector<screen::Chosen> all;
    for (const bench::Cable& cable : bench.cables)
        all.emplace_back(cable.id);
    for (const bench::Part& part : bench.parts) {
        all.emplace_back(part.id);
        for (std::size_t t = 0; t < bench::spec(part.kind).terminals.size(); ++t)
            all.emplace_back(bench::TerminalRef{part.id, static_cast<std::uint8_t>(t)});
    }
    for (const screen::Chosen& chosen : all) {
        stage.ui.board.chosen = chosen;
        stage.frames(2);
        if (!seenCards.insert(stage.labelOf("card/sheet")).second) continue;
        look(where + ", card", [&](Stage& on) { on.ui.board.chosen = chosen; });
    }
    stage.ui.board.chosen = {};
    stage.frame();
}

void Tour::take(const lesson::Exercise& exercise,
                const nlohmann::json& file,
                const nlohmann::json& steps,
                std::uint64_t seed) {
    lessontest::Hand hand(exercise, file["places"], seed);
    if (file.contains("blocks")) hand.knows(file["blocks"]);
    hand.doesAll(steps);
    stage.takeUp(hand.attempt().record());
}

bench::PartId Tour::part(const std::string& ref) const {
    const bench::Part* found = bench::findPart(benchOf(stage), ref);
    return found ? found->id : bench::PartId{};
}

} // namespace loom::test
