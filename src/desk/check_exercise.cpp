// SPDX-License-Identifier: MIT
// `loomwright check EXERCISE`: makes every single mistake of the worked solution and sees whether the
// marks notice it. What they do not notice has to be proved harmless.
#include "bench/catalogue.h"
#include "desk/commands.h"
#include "desk/exercise_input.h"
#include "desk/mutants.h"
#include "desk/perform.h"
#include "lesson/fault_sweep.h"
#include "lesson/put_away.h"
#include "lesson/trial.h"
#include "lesson/verdict.h"
#include "words/sentences.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace loom::desk {

namespace {

using attempt::Attempt;
using bench::Bench;
using lesson::Exercise;
using lesson::Positions;
using lesson::Quantity;

// Quantities that differ by less than this share, or this much, act alike.
constexpr double kShare = 0.05, kLeast = 0.01, kLeast_rad_s = 5.0;
constexpr double kSettle_s = 0.4;
constexpr double kTouch_V = 1.0;

// Every setting of the controls of a bench.
std::vector<Positions> settingsOf(const Bench& bench) {
    std::vector<Positions> all{{}};
    for (const bench::Part& part : bench.parts) {
        const auto& words = bench::spec(part.kind).positions;
        if (words.empty() || bench::isA(part, bench::PartClass::Battery)) continue;
        std::vector<Positions> more;
        for (const Positions& set : all)
            for (const char* word : words) {
                Positions next = set;
                next[part.ref] = word;
                more.push_back(std::move(next));
            }
        all = std::move(more);
    }
    return all;
}

// The ways of connector blocks that something is joined to, where voltages can be had.
std::vector<plan::Spot> waysOf(const Bench& bench) {
    std::vector<plan::Spot> ways;
    for (const bench::Cable& cable : bench.cables)
        for (const bench::CableEnd& end : cable.ends) {
            const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
            if (part && bench::isA(*part, bench::PartClass::Block))
                ways.push_back(
                    {part->ref, bench::spec(part->kind).terminals[end.at->terminal].word});
        }
    return ways;
}

// How each part acts: its current without sign, a motor's speed, a relay's armature; and the voltage
// of each way against the first.
std::vector<double> actsOf(const lesson::Trial& trial,
                           const std::vector<std::string>& refs,
                           const std::vector<plan::Spot>& ways) {
    std::vector<double> acts;
    for (const plan::Spot& way : ways) {
        acts.push_back(trial.voltage_V(way, ways.front()).value_or(-1e3));
        acts.insert(acts.end(), 2, 0.0);
    }
    for (const std::string& ref : refs) {
        acts.push_back(std::fabs(trial.value(ref, Quantity::Current_A).value_or(-1.0)));
        acts.push_back(trial.value(ref, Quantity::Speed_rad_s).value_or(0.0));
        acts.push_back(trial.value(ref, Quantity::PulledIn).value_or(0.0));
    }
    return acts;
}

bool isAlike(const std::vector<double>& a, const std::vector<double>& b) {
    for (std::size_t i = 0; i < a.size(); ++i) {
        const double least = i % 3 == 1 ? kLeast_rad_s : kLeast; // A or V
        const double most = std::max(std::fabs(a[i]), std::fabs(b[i]));
        if (std::fabs(a[i] - b[i]) > least + kShare * most) return false;
    }
    return true;
}

// An exercise with its worked solution, against which others are held.
class Proof {
public:
    Proof(const Exercise& asked, const Attempt& worked)
        : exercise(asked), solved(ending(worked)), settings(settingsOf(solved)),
          ways(waysOf(solved)) {
        for (const bench::Part& part : solved.parts)
            if (!bench::isA(part, bench::PartClass::Block)) refs.push_back(part.ref);
        for (const Positions& set : settings)
            acts.push_back(actsOf(run(solved, set), refs, ways));
        for (const lesson::Check& check : exercise.checks)
            for (const lesson::Row& row : check.rows)
                if (const auto* wanted = std::get_if<lesson::Protected>(&row.look))
                    protections.push_back(wanted->asked);
    }

    // In every setting each part does what it does in the solution, and no fault harms a cable.
    bool actsAlike(const Attempt& made) const {
        const Bench bench = ending(made);
        for (const std::string& ref : refs)
            if (!bench::findPart(bench, ref)) return false;
        for (std::size_t i = 0; i < settings.size(); ++i)
            if (!isAlike(acts[i], actsOf(run(bench, settings[i]), refs, ways))) return false;
        return std::all_of(
            protections.begin(), protections.end(), [&](const lesson::Protection& asked) {
                return lesson::sweepFaults(bench, exercise.start, asked).threats.empty();
            });
    }

private:
    const Exercise& exercise;
    Bench solved;
    std::vector<Positions> settings;
    std::vector<plan::Spot> ways;
    std::vector<std::string> refs;
    std::vector<std::vector<double>> acts;
    std::vector<lesson::Protection> protections;

    // Where batteries are put away in the end, as it stood when the last of them was there.
    static Bench ending(const Attempt& attempt) { return lesson::judgedBench(attempt.record()); }

    lesson::Trial run(const Bench& bench, const Positions& set) const {
        lesson::Trial trial(bench, exercise.start, set);
        trial.run(kSettle_s);
        return trial;
    }
};

// Whether a command works on a live end, by what the solver says: over 1 V between the place and a
// battery's minus, or a current in the cable.
class LiveWork {
public:
    void see(const Attempt& attempt, const attempt::Command& command) {
        const auto* edit = std::get_if<bench::Edit>(&command);
        if (!edit) return;
        if (const auto* join = std::get_if<bench::JoinEnd>(edit)) look(attempt, join->to);
        if (const auto* cut = std::get_if<bench::MakeCable>(edit)) {
            look(attempt, cut->from);
            look(attempt, cut->to);
        }
    }

    bool any() const { return found; }

private:
    bool found = false;

    void look(const Attempt& attempt, bench::TerminalRef at) {
        const bench::Part* part = bench::findPart(attempt.bench(), at.part);
        if (!part || bench::isA(*part, bench::PartClass::Battery)) return;
        for (const bench::Part& battery : attempt.bench().parts) {
            if (!bench::isA(battery, bench::PartClass::Battery)) continue;
            const auto above_V = attempt.voltage_V(at, {battery.id, 1});
            const auto below_V = attempt.voltage_V(at, {battery.id, 0});
            const bool drives = std::fabs(attempt.reading(battery.id).current_A) > 1e-3;
            found = found || (drives && above_V && below_V && std::fabs(*above_V) > kTouch_V);
        }
    }
};

struct Count {
    std::size_t made = 0, caught = 0, harmless = 0, missed = 0;
};

void add(std::string& text, const char* word, const Count& count) {
    char line[96];
    std::snprintf(line,
                  sizeof line,
                  "%-10s %7zu %7zu %9zu %7zu\n",
                  word,
                  count.made,
                  count.caught,
                  count.harmless,
                  count.missed);
    text += line;
}

std::string failed(const lesson::Verdict& verdict) {
    std::string text;
    for (const lesson::Judged& judged : verdict.checks)
        if (!judged.passed) text += "    " + judged.check + ": " + words::text(judged.say) + "\n";
    return text;
}

} // namespace

Said checkExercise(const std::string& path, bool alarms) {
    const auto read = readExercise(path);
    if (!read) return failure(Unreadable, read.refusal());
    const Exercise& exercise = read.value();
    const auto solution = solutionOf(exercise);
    if (!solution) return failure(Unreadable, inFile(path, solution.refusal()));
    const auto worked = perform(exercise, solution.value());
    if (!worked) return failure(Refused, inFile(path, worked.refusal()));
    const lesson::Verdict full = lesson::judge(exercise, worked.value());
    if (!full.solved())
        return failure(NotSolved,
                       {bench::Why::OutOfRange,
                        path + ": /solution",
                        std::to_string(full.outOf) + " marks",
                        std::to_string(full.marks)});
    const Proof proof(exercise, worked.value());
    const Bench bench = lesson::judgedBench(worked.value().record());
    std::array<Count, std::size(kMutantWords)> counts;
    std::string listed;
    lesson::SeenBefore before;
    for (const Mutant& mutant : mutantsOf(exercise, solution.value(), bench)) {
        Count& count = counts[static_cast<std::size_t>(mutant.kind)];
        LiveWork live;
        const auto made = perform(
            exercise, mutant.lines, 0, true, [&](const Attempt& attempt, const auto& command) {
                live.see(attempt, command);
            });
        if (!made) return failure(Refused, made.refusal());
        ++count.made;
        const lesson::Verdict verdict = lesson::judge(exercise, made.value(), &before);
        if (!verdict.solved()) {
            ++count.caught;
            if (alarms && !live.any() && proof.actsAlike(made.value()))
                listed += "acts alike: " + mutant.what + "\n" + failed(verdict);
        } else if (!live.any() && proof.actsAlike(made.value())) {
            ++count.harmless;
        } else {
            ++count.missed;
            listed += "missed: " + mutant.what + "\n";
        }
    }
    Said said;
    said.out = "mistake       made  caught  harmless  missed\n";
    Count all;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        add(said.out, kMutantWords[i], counts[i]);
        all.made += counts[i].made;
        all.caught += counts[i].caught;
        all.harmless += counts[i].harmless;
        all.missed += counts[i].missed;
    }
    add(said.out, "all", all);
    said.out += listed;
    said.exitCode = all.missed == 0 ? Done : NotSolved;
    return said;
}

} // namespace loom::desk
