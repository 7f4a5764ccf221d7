// SPDX-License-Identifier: MIT
// Reads one row of a check. RowReader(known members, the exercise as read so far).read(place); what
// is wrong goes to the place's refusal.
#pragma once

#include "bench/checked_json.h"
#include "lesson/exercise.h"

#include <initializer_list>

namespace loom::lesson {

// A text of 1 to 400 bytes without control characters.
std::string sentence(const bench::JsonPlace& place);

// Refuses a member of an object that is none of these: a slip in an optional name would otherwise
// go unnoticed.
struct KnownMembers {
    const nlohmann::json& document;
    void operator()(const bench::JsonPlace& place, std::initializer_list<const char*> names) const;
};

class RowReader {
public:
    // Both outlive the reader. The exercise has its start and the earlier checks.
    RowReader(const KnownMembers& members, const Exercise& soFar)
        : only(members), exercise(soFar) {}

    Row read(const bench::JsonPlace& place) const;

private:
    const KnownMembers& only;
    const Exercise& exercise;

    Present present(const bench::JsonPlace& place) const;
    Passed passed(const bench::JsonPlace& place) const;
    template <class Look> Look path(const bench::JsonPlace& place) const;
    Behaves behaves(const bench::JsonPlace& place) const;
    Unharmed unharmed(const bench::JsonPlace& place) const;
    Survives survives(const bench::JsonPlace& place) const;
    Order order(const bench::JsonPlace& place) const;

    // The kind of the part with this ref, at the start or in the kit; refused when there is none.
    std::optional<bench::PartKind> kindOf(const bench::JsonPlace& place,
                                          const std::string& ref) const;
    std::string ref(const bench::JsonPlace& place) const;
    Spot spot(const bench::JsonPlace& place) const;
    std::pair<Spot, Spot> between(const bench::JsonPlace& place) const;
    Positions positions(const bench::JsonPlace& owner, const char* member) const;
    void checkPosition(const bench::JsonPlace& place, const std::string& ref) const;
    void checkOwner(const bench::JsonPlace& place, const Behaves& behaves) const;
};

} // namespace loom::lesson
