// A hand that wires as a list of steps says, through the same commands as a learner's. A step is a
// JSON list: ["lay", refs…] ["fit", fuse, A] ["cable", from, to, mm2, colour] ["take", label, from,
// to] ["turn", ref, position] ["free", label, end] ["join", label, end, to] ["remove", label]
// ["undo", n] ["redo", n] ["wait", seconds]. Terminals are named as in an exercise.
#pragma once

#include "attempt/attempt.h"
#include "lesson/exercise.h"

#include <nlohmann/json.hpp>
#include <string>

namespace loom::lessontest {

class Hand {
public:
    // Places: ref -> [x, y] in metres, where parts are laid.
    Hand(const lesson::Exercise& exercise, const nlohmann::json& places);

    // Empty, or what was refused and why.
    std::string does(const nlohmann::json& step);
    std::string doesAll(const nlohmann::json& steps);

    const attempt::Attempt& attempt() const { return made; }

private:
    attempt::Attempt made;
    const nlohmann::json& places;

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
