#include "lessons/hand.h"

#include "bench/catalogue.h"

#include <fstream>
#include <sstream>

namespace loom::lessontest {

using nlohmann::json;

Hand::Hand(const lesson::Exercise& exercise, const json& placesOfParts)
    : made(exercise.start, exercise.id, exercise.hash), places(placesOfParts) {}

std::string Hand::does(const json& step) {
    const std::string what = step[0];
    if (what == "lay") return lay(step);
    if (what == "take") return take(step);
    if (what == "turn") return turn(step);
    if (what == "fit") return ask(bench::Edit{bench::FitFuse{part(step[1]), step[2]}});
    if (what == "remove") return ask(bench::Edit{bench::RemoveCable{cable(step[1])}});
    if (what == "free") return ask(bench::Edit{bench::FreeEnd{cable(step[1]), step[2], {}}});
    if (what == "join")
        return ask(bench::Edit{bench::JoinEnd{cable(step[1]), step[2], terminal(step[3])}});
    if (what == "cable") {
        bench::MakeCable make;
        make.from = terminal(step[1]);
        make.to = terminal(step[2]);
        make.area_m2 = step[3].get<double>() * 1e-6;
        make.sleeve = bench::sleeveFromWord(step[4].get<std::string>().c_str()).value();
        return ask(bench::Edit{make});
    }
    if (what == "wait") {
        made.advance(static_cast<std::int64_t>(step[1].get<double>() / attempt::slice_s));
        return {};
    }
    std::string refused = what == "undo" || what == "redo" ? "" : "no such step: " + what;
    for (int i = 0; refused.empty() && i < step[1].get<int>(); ++i)
        refused = what == "undo" ? ask(attempt::Undo{}) : ask(attempt::Redo{});
    return refused;
}

std::string Hand::doesAll(const json& steps) {
    for (const json& step : steps) {
        const std::string refused = does(step);
        if (!refused.empty()) return step.dump() + ": " + refused;
    }
    return {};
}

std::string Hand::ask(const attempt::Command& command) {
    const auto refused = made.ask(command);
    if (!refused) return {};
    return refused->place + ": expected " + refused->expected + ", found " + refused->found;
}

std::string Hand::lay(const json& step) {
    for (std::size_t i = 1; i < step.size(); ++i) {
        const std::string ref = step[i];
        const bench::Point at{places[ref][0], places[ref][1]};
        const std::string refused = ask(bench::Edit{bench::LayPart{ref, at, 0}});
        if (!refused.empty()) return refused;
    }
    return {};
}

std::string Hand::take(const json& step) {
    const std::string label = step[1];
    std::string refused = ask(bench::Edit{bench::TakeCable{label, {0.5, 0.5}, {0.6, 0.5}}});
    for (int end = 0; refused.empty() && end < 2; ++end)
        refused = ask(bench::Edit{bench::JoinEnd{cable(label), end, terminal(step[2 + end])}});
    return refused;
}

std::string Hand::turn(const json& step) {
    const bench::Part* control = bench::findPart(made.bench(), step[1].get<std::string>());
    if (!control) return "no such part";
    const auto& words = bench::spec(control->kind).positions;
    for (std::size_t i = 0; i < words.size(); ++i)
        if (step[2] == words[i])
            return ask(bench::Edit{bench::Operate{control->id, static_cast<int>(i)}});
    return "no such position";
}

bench::TerminalRef Hand::terminal(const std::string& name) const {
    const std::size_t space = name.find(' ');
    return bench::findTerminal(made.bench(), name.substr(0, space), name.substr(space + 1))
        .value_or(bench::TerminalRef{});
}

bench::PartId Hand::part(const std::string& ref) const {
    const bench::Part* found = bench::findPart(made.bench(), ref);
    return found ? found->id : bench::PartId{};
}

bench::CableId Hand::cable(const std::string& label) const {
    for (const bench::Cable& cable : made.bench().cables)
        if (cable.label == label) return cable.id;
    return {};
}

std::string textOf(const std::string& path) {
    std::ifstream file(std::string(LOOM_SOURCE_DIR) + "/" + path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

json jsonOf(const std::string& path) {
    return json::parse(textOf(path), nullptr, false);
}

} // namespace loom::lessontest
