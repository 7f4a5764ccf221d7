// SPDX-License-Identifier: MIT
#include "lesson/verdict.h"

#include "lesson/figures.h"
#include "lesson/order.h"
#include "lesson/paths.h"
#include "lesson/trial.h"

#include <algorithm>

namespace loom::lesson {
namespace {

// What a row saw: whether it is as it should be, and what {found} stands for.
struct Seen {
    bool asWanted = false;
    std::string found;
};

std::string filled(const std::string& say, const std::string& found) {
    static const std::string mark = "{found}";
    std::string text = say;
    for (std::size_t at = 0; (at = text.find(mark, at)) != std::string::npos; at += found.size())
        text.replace(at, mark.size(), found);
    return text;
}

std::string told(const Harm& harm) {
    return harm.name + ", " + harm.figures;
}

class Judging {
public:
    Judging(const Exercise& asked, const attempt::Attempt& made)
        : exercise(asked), bench(made.bench()), record(made.record()) {}

    Verdict verdict;

    void look(const Check& check) {
        Judged judged{check.id, true, check.marks, {}};
        verdict.outOf += check.marks;
        for (const Row& row : check.rows) {
            const Seen seen = std::visit([&](const auto& wanted) { return see(wanted); }, row.look);
            if (seen.asWanted) continue;
            judged = {check.id, false, 0, filled(row.say, seen.found)};
            break;
        }
        verdict.marks += judged.marks;
        verdict.checks.push_back(std::move(judged));
    }

private:
    const Exercise& exercise;
    const bench::Bench& bench;
    const attempt::Record& record;

    Trial trial(const Positions& set, const std::optional<Fault>& fault = std::nullopt) const {
        return Trial(bench, exercise.start, set, fault);
    }

    Seen see(const Present& wanted) const {
        std::string missing;
        for (const std::string& ref : wanted.refs)
            if (!bench::findPart(bench, ref)) missing += (missing.empty() ? "" : ", ") + ref;
        return {missing.empty(), missing};
    }

    Seen see(const Passed& wanted) const {
        for (const Judged& judged : verdict.checks)
            if (judged.check == wanted.check) return {judged.passed, {}};
        return {};
    }

    Seen see(const Joined& wanted) const { return {hasWay(wanted), {}}; }

    Seen see(const Apart& wanted) const { return {!hasWay(wanted), {}}; }

    template <class Way> bool hasWay(const Way& way) const {
        return joined(freshCopy(bench, exercise.start, way.set), way.a, way.b, way.through);
    }

    Seen see(const Behaves& wanted) const {
        Trial tried = trial(wanted.set);
        tried.run(wanted.after_s);
        if (wanted.thenAfter_s > 0.0) {
            tried.move(wanted.thenSet);
            tried.run(wanted.thenAfter_s);
        }
        const std::optional<double> value = valueOf(tried, wanted);
        if (!value) return {false, figure(0.0, wanted.quantity)};
        return {*value >= wanted.least && *value <= wanted.most, figure(*value, wanted.quantity)};
    }

    static std::optional<double> valueOf(const Trial& tried, const Behaves& wanted) {
        if (wanted.quantity == Quantity::CableTemp_K) return tried.hottestCable_K();
        if (wanted.of.empty()) return tried.voltage_V(wanted.a, wanted.b);
        return tried.value(wanted.of, wanted.quantity);
    }

    Seen see(const Unharmed& wanted) const {
        Trial tried = trial(wanted.set);
        tried.run(wanted.for_s);
        if (tried.harms().empty()) return {true, {}};
        return {false, told(tried.harms().front())};
    }

    Seen see(const Survives& wanted) const {
        if (!find(bench, wanted.a) || !find(bench, wanted.b)) return {};
        for (const double fault_ohm : wanted.fault_ohm) {
            Trial tried = trial(wanted.set, Fault{wanted.a, wanted.b, fault_ohm});
            tried.runFault(wanted.for_s);
            for (const Harm& harm : tried.harms())
                if (harm.cable) return {false, told(harm)};
        }
        return {true, {}};
    }

    Seen see(const Order& wanted) const {
        const Kept kept = keeps(record, wanted.rule);
        return {kept.kept, kept.found};
    }
};

} // namespace

Verdict judge(const Exercise& exercise, const attempt::Attempt& attempt) {
    Judging judging(exercise, attempt);
    for (const Check& check : exercise.checks)
        judging.look(check);
    return std::move(judging.verdict);
}

} // namespace loom::lesson
