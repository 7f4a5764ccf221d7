#include "lessons/hand.h"

#include "attempt/record_file.h"
#include "bench/catalogue.h"
#include "bench/ends.h"
#include "words/sentences.h"

#include <fstream>
#include <sstream>

namespace loom::lessontest {

using nlohmann::json;

namespace {

constexpr const char* kUnknown = "no such step: ";

attempt::Attempt begun(const lesson::Exercise& exercise, std::uint64_t seed) {
    attempt::Record record;
    record.exercise = exercise.id;
    record.exerciseHash = exercise.hash;
    record.seed = seed;
    record.start = lesson::startOf(exercise, seed);
    auto made = attempt::resume(record);
    return std::move(made.value());
}

bool isUnknown(const std::string& refused) {
    return refused.rfind(kUnknown, 0) == 0;
}

int endOf(const json& step, std::size_t at) {
    return step.size() > at ? step[at].get<int>() : -1;
}

} // namespace

Hand::Hand(const lesson::Exercise& exercise, const json& placesOfParts, std::uint64_t seed)
    : made(begun(exercise, seed)), places(placesOfParts) {
    if (exercise.plan)
        for (const plan::PlanCable& row : exercise.plan->cables)
            labels.push_back(row.label);
}

std::string Hand::does(const json& step) {
    const std::string what = step[0];
    std::string refused = wires(what, step);
    if (isUnknown(refused)) refused = makes(what, step);
    if (isUnknown(refused)) refused = checks(what, step);
    if (isUnknown(refused)) refused = measures(what, step);
    return isUnknown(refused) ? repeats(what, step) : refused;
}

std::string Hand::wires(const std::string& what, const json& step) {
    if (what == "lay") return lay(step);
    if (what == "take") return take(step);
    if (what == "turn") return turn(step);
    if (what == "fit") return ask(bench::Edit{bench::FitFuse{part(step[1]), step[2]}});
    if (what == "remove") return ask(bench::Edit{bench::RemoveCable{cable(step[1])}});
    if (what == "lift") return ask(bench::Edit{bench::RemovePart{part(step[1])}});
    if (what == "free") return ask(bench::Edit{bench::FreeEnd{cable(step[1]), step[2], {}}});
    if (what == "join")
        return ask(bench::Edit{bench::JoinEnd{cable(step[1]), step[2], terminal(step[3])}});
    if (what != "cable") return kUnknown + what;
    bench::MakeCable make;
    make.from = terminal(step[1]);
    make.to = terminal(step[2]);
    make.area_m2 = step[3].get<double>() * 1e-6;
    make.sleeve = bench::sleeveFromWord(step[4].get<std::string>().c_str()).value();
    return ask(bench::Edit{make});
}

std::string Hand::makes(const std::string& what, const json& step) {
    if (what == "make") return ask(bench::Edit{bench::MakeEndWell{cable(step[1]), step[2]}});
    if (what == "twist") return ask(bench::Edit{bench::TwistEnd{cable(step[1]), step[2]}});
    if (what == "screw") return ask(bench::Edit{bench::TurnScrew{terminal(step[1]), step[2]}});
    if (what != "strip" && what != "push") return kUnknown + what;
    const double length_m = step[3].get<double>() * 1e-3;
    if (what == "strip")
        return ask(bench::Edit{bench::StripEnd{cable(step[1]), step[2], length_m}});
    return ask(bench::Edit{bench::PushEnd{cable(step[1]), step[2], length_m}});
}

std::string Hand::checks(const std::string& what, const json& step) {
    if (what == "look") return ask(attempt::LookAt{step[1], endOf(step, 2)});
    if (what == "hand in") return ask(attempt::HandInSheet{});
    if (what == "call") return ask(attempt::CallClear{});
    if (what == "name") return ask(attempt::NameFault{step[1], endOf(step, 2)});
    if (what == "mark all") return markAll();
    if (what != "mark") return kUnknown + what;
    const bool right = step[2] == "right";
    return ask(
        attempt::MarkOff{step[1], right ? attempt::SheetMark::Right : attempt::SheetMark::Wrong});
}

std::string Hand::measures(const std::string& what, const json& step) {
    if (what == "touch")
        return ask(bench::Edit{bench::Probe{step[1] == "red" ? 0 : 1, {terminal(step[2]), {}, 0}}});
    if (what != "meter") return kUnknown + what;
    const std::vector<std::string> ranges = {"off", "volts", "ohms", "tone", "amperes"};
    std::string refused;
    if (!made.bench().meter) refused = ask(bench::Edit{bench::PlaceMeter{{0.9, 0.6}}});
    for (std::size_t i = 0; i < ranges.size() && refused.empty(); ++i)
        if (step[1] == ranges[i])
            return ask(bench::Edit{bench::SetMeter{static_cast<bench::MeterRange>(i)}});
    return refused.empty() ? "no such range" : refused;
}

std::string Hand::repeats(const std::string& what, const json& step) {
    if (what == "wait") {
        made.advance(static_cast<std::int64_t>(step[1].get<double>() / attempt::kSlice_s));
        return {};
    }
    if (what == "do") return known ? doesAll((*known)[step[1].get<std::string>()]) : "no blocks";
    std::string refused = what == "undo" || what == "redo" ? "" : kUnknown + what;
    for (int i = 0; refused.empty() && i < step[1].get<int>(); ++i)
        refused = what == "undo" ? ask(attempt::Undo{}) : ask(attempt::Redo{});
    return refused;
}

// Every cable looked at from end to end and marked right.
std::string Hand::markAll() {
    std::string refused;
    for (const std::string& label : labels) {
        for (int end = 0; refused.empty() && end < 2; ++end)
            refused = ask(attempt::LookAt{label, end});
        if (refused.empty()) refused = ask(attempt::MarkOff{label, attempt::SheetMark::Right});
    }
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
    return words::inShort(*refused);
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
    const bench::CableId taken{made.bench().lastId};
    const bool byHand = bench::isHandmade(made.bench(), label);
    for (int end = 0; refused.empty() && end < 2; ++end) {
        const bench::TerminalRef to = terminal(step[2 + end]);
        if (byHand && bench::torqueFor(made.bench(), to).right_Nm > 0.0)
            refused = ask(bench::Edit{bench::TurnScrew{to, 0.0}});
        if (refused.empty()) refused = ask(bench::Edit{bench::JoinEnd{taken, end, to}});
        if (byHand && refused.empty()) refused = ask(bench::Edit{bench::MakeEndWell{taken, end}});
    }
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
