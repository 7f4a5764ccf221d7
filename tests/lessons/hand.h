// A hand that wires as a list of steps says, through the same commands as a learner's. A step is a
// JSON list: ["lay", refs…] ["fit", fuse, A] ["cable", from, to, mm2, colour] ["take", label, from,
// to] ["turn", ref, position] ["free", label, end] ["join", label, end, to] ["remove", label]
// ["lift", ref] ["undo", n] ["redo", n] ["wait", seconds] ["do", name of a block of steps]; by hand
// ["make" or "twist", label, end] ["strip" or "push", label, end, mm] ["screw", terminal, N m]; the sheet
// ["look", name, end] ["mark", label, "right" or "wrong"] ["mark all"] ["hand in"]; ["call"]
// ["name", name, end] ["meter", range] ["touch", "red" or "black", terminal]. Terminals are named as
// in an exercise. A handmade cable that is taken has its ends made well.
#pragma once

#include "attempt/attempt.h"
#include "lesson/exercise.h"

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace loom::lessontest {

class Hand {
public:
    // Places: ref -> [x, y] in metres, where parts are laid. The seed hides a fault, where the
    // exercise has some.
    Hand(const lesson::Exercise& exercise, const nlohmann::json& places, std::uint64_t seed = 0);

    // Blocks: name -> steps, for "do". They outlive the hand.
    void knows(const nlohmann::json& blocks) { known = &blocks; }

    // Empty, or what was refused and why.
    std::string does(const nlohmann::json& step);
    std::string doesAll(const nlohmann::json& steps);

    const attempt::Attempt& attempt() const { return made; }

private:
    attempt::Attempt made;
    const nlohmann::json& places;
    std::vector<std::string> labels; // of the plan
    const nlohmann::json* known = nullptr;

    std::string wires(const std::string& what, const nlohmann::json& step);
    std::string makes(const std::string& what, const nlohmann::json& step);
    std::string checks(const std::string& what, const nlohmann::json& step);
    std::string measures(const std::string& what, const nlohmann::json& step);
    std::string repeats(const std::string& what, const nlohmann::json& step);
    std::string markAll();
    std::string ask(const attempt::Command& command);
    std::string lay(const nlohmann::json& step);
    std::string take(const nlohmann::json& step);
    std::string turn(const nlohmann::json& step);
    bench::TerminalRef terminal(const std::string& name) const;
    bench::PartId part(const std::string& ref) const;
    bench::CableId cable(const std::string& label) const;
};

// A file of the repository, parsed; its text.
std::string textOf(const std::string& path);
nlohmann::json jsonOf(const std::string& path);

} // namespace loom::lessontest
