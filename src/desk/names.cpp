// SPDX-License-Identifier: MIT
#include "desk/names.h"

#include "bench/catalogue.h"
#include "desk/numbers.h"

#include <vector>

namespace loom::desk {

namespace {

using bench::Refusal;
using bench::Why;

std::vector<bench::CableId> labelled(const bench::Bench& bench, const std::string& label) {
    std::vector<bench::CableId> found;
    for (const bench::Cable& cable : bench.cables)
        if (cable.label == label) found.push_back(cable.id);
    return found;
}

std::string terminalsInWords(const bench::Part& part) {
    std::string words;
    for (const bench::TerminalSpec& terminal : bench::spec(part.kind).terminals)
        words += (words.empty() ? "" : ", ") + std::string(terminal.word);
    return words;
}

} // namespace

bench::Outcome<bench::PartId> partNamed(const bench::Bench& bench, const std::string& ref) {
    if (const bench::Part* part = bench::findPart(bench, ref)) return part->id;
    return Refusal{Why::UnknownPart, ref, "the reference of a part on the bench", ref};
}

bench::Outcome<bench::CableId> cableNamed(const bench::Bench& bench, const std::string& label) {
    const auto found = labelled(bench, label);
    if (found.size() == 1) return found[0];
    if (found.size() > 1)
        return Refusal{Why::Duplicate,
                       label,
                       label + "#1 to " + label + "#" + std::to_string(found.size()) +
                           ", for several carry this label",
                       label};
    const std::size_t mark = label.rfind('#');
    if (mark != std::string::npos) {
        const auto same = labelled(bench, label.substr(0, mark));
        const auto count = numberFrom(label.substr(mark + 1));
        for (std::size_t i = 0; count && i < same.size(); ++i)
            if (*count == static_cast<double>(i + 1)) return same[i];
    }
    return Refusal{Why::UnknownCable, label, "the label of a cable on the bench", label};
}

bench::Outcome<bench::TerminalRef>
terminalNamed(const bench::Bench& bench, const std::string& ref, const std::string& word) {
    const auto owner = partNamed(bench, ref);
    if (!owner) return owner.refusal();
    if (const auto exact = bench::findTerminal(bench, ref, word)) return *exact;
    if (const auto upper = bench::findTerminal(bench, ref, word + " upper")) return *upper;
    return Refusal{Why::UnknownTerminal,
                   ref,
                   "one of its terminals: " +
                       terminalsInWords(*bench::findPart(bench, owner.value())),
                   word.empty() ? "none" : word};
}

bench::Outcome<bench::TerminalRef> terminalFor(const bench::Bench& bench,
                                               const bench::Held& held,
                                               const std::string& ref,
                                               const std::string& word) {
    const auto upper = terminalNamed(bench, ref, word);
    const auto lower = bench::findTerminal(bench, ref, word + " lower");
    if (!upper || !lower || !bench::whyNotJoin(bench, held, upper.value())) return upper;
    return bench::whyNotJoin(bench, held, *lower) ? upper : bench::Outcome(*lower);
}

} // namespace loom::desk
