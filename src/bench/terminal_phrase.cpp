// SPDX-License-Identifier: MIT
#include "bench/terminal_phrase.h"

#include "bench/catalogue.h"

#include <cstdlib>

namespace loom::bench {

Phrase terminalPhrase(const std::string& ref, const std::string& word) {
    // The ways of a block are counted: "3 upper".
    const std::size_t space = word.find(' ');
    const bool counted = space != std::string::npos && word[0] >= '0' && word[0] <= '9';
    const Phrase said = counted ? phrase("terminal/" + word.substr(space + 1),
                                         {{"n", numeral(std::atoi(word.c_str()))}})
                                : phrase("terminal/" + word);
    return phrase("terminal", {{"name", ref}, {"terminal", said}});
}

Phrase terminalPhrase(const Bench& bench, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    if (!part || terminal.terminal >= spec(part->kind).terminals.size())
        return terminalName(bench, terminal);
    return terminalPhrase(part->ref, spec(part->kind).terminals[terminal.terminal].word);
}

} // namespace loom::bench
