// SPDX-License-Identifier: MIT
#include "desk/said.h"

#include "words/sentences.h"

namespace loom::desk {

bench::Refusal inFile(const std::string& file, bench::Refusal refusal) {
    refusal.place = bench::phrase("in-file", {{"file", file}, {"place", refusal.place}});
    return refusal;
}

Said failure(ExitCode code, const bench::Refusal& refusal) {
    return {code, "", "loomwright: " + words::inShort(refusal) + "\n"};
}

} // namespace loom::desk
