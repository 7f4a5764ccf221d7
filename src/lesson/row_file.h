// SPDX-License-Identifier: MIT
// Reads one row of a check. RowReader(known members, the exercise as read so far).read(place); what
// is wrong goes to the place's refusal.
#pragma once

#include "bench/checked_json.h"
#include "lesson/exercise.h"
#include "lesson/names_file.h"

namespace loom::lesson {

class RowReader {
public:
    // Both outlive the reader. The exercise has all but its later checks.
    RowReader(const KnownMembers& members, const Exercise& soFar)
        : only(members), exercise(soFar), known(soFar.start) {}

    Row read(const bench::JsonPlace& place) const;

private:
    const KnownMembers& only;
    const Exercise& exercise;
    KnownParts known;

    std::vector<std::string> parts(const bench::JsonPlace& place) const;
    Passed passed(const bench::JsonPlace& place) const;
    template <class Look> Look path(const bench::JsonPlace& place) const;
    Behaves behaves(const bench::JsonPlace& place) const;
    Unharmed unharmed(const bench::JsonPlace& place) const;
    Survives survives(const bench::JsonPlace& place) const;
    Protected isProtected(const bench::JsonPlace& place) const;
    NamedCable namedCable(const bench::JsonPlace& place) const;
    Isolated isolated(const bench::JsonPlace& place) const;
    Done done(const bench::JsonPlace& place) const;
    Order order(const bench::JsonPlace& place) const;
    FollowsPlan followsPlan(const bench::JsonPlace& place) const;
    WellMade wellMade(const bench::JsonPlace& place) const;
    InOrder inOrder(const bench::JsonPlace& place) const;
    CrossChecked crossChecked(const bench::JsonPlace& place) const;
    Found found(const bench::JsonPlace& place) const;
    Sound sound(const bench::JsonPlace& place) const;
    void needPlan(const bench::JsonPlace& place) const;
    std::vector<std::string> labels(const bench::JsonPlace& place) const;
    bool isKnown(const std::string& label) const;

    std::pair<plan::Spot, plan::Spot> between(const bench::JsonPlace& place) const;
    Positions positions(const bench::JsonPlace& owner, const char* member) const;
    void checkPosition(const bench::JsonPlace& place, const std::string& ref) const;
    static std::pair<double, double> limits(const bench::JsonPlace& place);
    static bool partsAsTheyAre(const bench::JsonPlace& place);
    void checkKind(const bench::JsonPlace& place, const std::string& of, Quantity quantity) const;
    void checkOwner(const bench::JsonPlace& place, const Behaves& behaves) const;
};

} // namespace loom::lesson
