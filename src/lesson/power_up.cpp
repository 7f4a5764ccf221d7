// SPDX-License-Identifier: MIT
#include "lesson/power_up.h"

#include "bench/catalogue.h"
#include "lesson/retrace.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::Bench;

bool standsSo(const Bench& bench, const Positions& set) {
    return std::all_of(set.begin(), set.end(), [&](const auto& asked) {
        const bench::Part* part = bench::findPart(bench, asked.first);
        if (!part) return false;
        const auto& positions = bench::spec(part->kind).positions;
        const auto at = static_cast<std::size_t>(part->position);
        return at < positions.size() && asked.second == positions[at];
    });
}

// Goes along the record with the moments at which what is asked began and went over into `then`.
class Showings {
public:
    Showings(const attempt::Record& record, const Done& asked) : wanted(asked) {
        see(record.start, 0);
        retrace(record, [&](const Turn& turn) { see(turn.after, turn.entry.slice); });
        finish(record.slices);
        std::reverse(found.begin(), found.end());
        if (found.size() > kMostShowings) found.resize(kMostShowings);
    }

    std::vector<Bench> found;

private:
    const Done& wanted;
    std::optional<Bench> begun; // since the first positions stand
    std::int64_t since = 0, thenSince = 0;
    bool inThen = false;

    static bool lasted(std::int64_t slices, double asked_s) {
        return static_cast<double>(slices) * attempt::kSlice_s >= asked_s - 1e-9;
    }

    void finish(std::int64_t slice) {
        if (!begun) return;
        if (inThen ? lasted(slice - thenSince, wanted.thenFor_s)
                   : wanted.thenFor_s <= 0.0 && lasted(slice - since, wanted.for_s))
            found.push_back(std::move(*begun));
        begun.reset();
    }

    void see(const Bench& bench, std::int64_t slice) {
        const bool first = standsSo(bench, wanted.set);
        const bool then = wanted.thenFor_s > 0.0 && standsAfter(bench);
        if (begun && !inThen && !first && then && lasted(slice - since, wanted.for_s)) {
            inThen = true;
            thenSince = slice;
            return;
        }
        if (begun && (inThen ? then : first)) return;
        finish(slice);
        inThen = false;
        if (!first) return;
        begun = bench;
        since = slice;
    }

    // The first positions but for those that `then` moves.
    bool standsAfter(const Bench& bench) const {
        Positions set = wanted.set;
        for (const auto& [ref, word] : wanted.thenSet)
            set[ref] = word;
        return standsSo(bench, set);
    }
};

} // namespace

std::optional<Bench> atPowerUp(const attempt::Record& record) {
    std::optional<Bench> at;
    retrace(record, [&](const Turn& turn) {
        if (bench::isAnyIsolatorOn(turn.after) && !bench::isAnyIsolatorOn(turn.before))
            at = turn.after;
    });
    return at;
}

std::vector<Bench> showings(const attempt::Record& record, const Done& wanted) {
    return Showings(record, wanted).found;
}

} // namespace loom::lesson
