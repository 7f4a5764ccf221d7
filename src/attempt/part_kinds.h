// SPDX-License-Identifier: MIT
// Which kind of part each id in a record stands for, also of parts that were laid later: a record's
// terminals and positions are written as words, and words depend on the kind. Start with the bench
// the record starts from, then follow() each entry in order.
#pragma once

#include "attempt/command.h"

#include <map>
#include <optional>

namespace loom::attempt {

class PartKinds {
public:
    explicit PartKinds(const bench::Bench& start);

    // Ids are counted as apply() hands them out: one for each part laid, cable made or
    // taken, tie made.
    void follow(const Command& command);

    std::optional<bench::PartKind> kindOf(bench::PartId part) const;

private:
    std::map<std::string, bench::PartKind> byRef;
    std::map<bench::PartId, bench::PartKind> byId;
    std::uint32_t lastId = 0;
};

} // namespace loom::attempt
