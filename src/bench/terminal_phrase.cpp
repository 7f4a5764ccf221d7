// SPDX-License-Identifier: MIT
#include "bench/terminal_phrase.h"

#include "bench/catalogue.h"

namespace loom::bench {

namespace {

Phrase holePhrase(const std::string& word) {
    for (const PartKind kind : allKinds())
        for (const TerminalSpec& terminal : spec(kind).terminals)
            if (*terminal.hole && terminal.word == word)
                return phrase(std::string("terminal/") + terminal.hole,
                              {{"n", numeral(terminal.node + 1)}});
    return phrase("terminal/" + word);
}

} // namespace

Phrase terminalPhrase(const std::string& ref, const std::string& word) {
    return phrase("terminal", {{"name", ref}, {"terminal", holePhrase(word)}});
}

Phrase terminalPhrase(const Bench& bench, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    if (!part || terminal.terminal >= spec(part->kind).terminals.size())
        return terminalName(bench, terminal);
    return terminalPhrase(part->ref, spec(part->kind).terminals[terminal.terminal].word);
}

} // namespace loom::bench
