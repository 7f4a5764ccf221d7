// SPDX-License-Identifier: MIT
#include "screen/kit/part_words.h"

#include "bench/catalogue.h"
#include "bench/terminal_phrase.h"
#include "screen/sentences.h"

namespace loom::screen {

std::string kindWords(bench::PartKind kind) {
    return words(std::string("kind/") + bench::spec(kind).word);
}

std::string sleeveWords(bench::Sleeve sleeve) {
    return words(std::string("sleeve/") + bench::word(sleeve));
}

std::string endWords(bench::EndKind end) {
    return words(std::string("end/") + bench::word(end));
}

std::string terminalWords(const bench::Bench& bench, bench::TerminalRef terminal) {
    return text(bench::terminalPhrase(bench, terminal));
}

} // namespace loom::screen
