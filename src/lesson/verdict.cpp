// SPDX-License-Identifier: MIT
#include "lesson/verdict.h"

#include "bench/catalogue.h"
#include "lesson/end_faults.h"
#include "lesson/evidence.h"
#include "lesson/fault_finding.h"
#include "lesson/fault_sweep.h"
#include "lesson/isolation.h"
#include "lesson/order.h"
#include "lesson/paths.h"
#include "lesson/power_up.h"
#include "lesson/procedure.h"
#include "lesson/put_away.h"
#include "lesson/sheet.h"
#include "lesson/step_phrases.h"
#include "lesson/threat_phrase.h"
#include "lesson/trial.h"
#include "lesson/wiring_key.h"

#include <algorithm>
#include <type_traits>

namespace loom::lesson {
namespace {

using bench::Phrase;
using bench::phrase;

// What a row saw: whether it is as it should be, and what {found} stands for.
using Seen = SeenBefore::Sight;

// Whether it looks at nothing but how the bench is wired, with fresh parts.
template <class Look> bool isOfWiring(const Look& wanted) {
    if constexpr (std::is_same_v<Look, Behaves> || std::is_same_v<Look, Unharmed>)
        return !wanted.asItIs;
    return std::is_same_v<Look, Joined> || std::is_same_v<Look, Apart> ||
           std::is_same_v<Look, Survives> || std::is_same_v<Look, Protected> ||
           std::is_same_v<Look, Isolated>;
}

Phrase describe(const Harm& harm) {
    return phrase("harm",
                  {{"name", harm.name},
                   {"amount", harm.amount},
                   {"time", Phrase::Amount{harm.after_s, "s"}}});
}

Phrase describe(double value, Quantity quantity) {
    switch (quantity) {
    case Quantity::Voltage_V:
        return Phrase::Amount{value, "V"};
    case Quantity::Current_A:
        return Phrase::Amount{value, "A"};
    case Quantity::Power_W:
        return Phrase::Amount{value, "W"};
    case Quantity::Speed_rad_s:
        return Phrase::Amount{value, "turns"};
    case Quantity::PulledIn:
        return bench::numeral(value > 0.5 ? 1 : 0);
    case Quantity::Brightness:
        return Phrase::Amount{value, "share"};
    case Quantity::CableTemp_K:
        return Phrase::Amount{value, "K"};
    }
    return {};
}

// The text of a row with what the row saw.
Phrase withFound(Phrase say, const Phrase& found) {
    if (auto* text = std::get_if<Phrase::Text>(&say.content)) text->slots = {{"found", found}};
    return say;
}

// A phrase about one thing: a part, a cable.
Phrase about(const char* key, const std::string& name) {
    return phrase(key, {{"name", name}});
}

Phrase counted(const char* key, int count) {
    return phrase(key, {{"count", bench::numeral(count)}});
}

// This step of powering up and putting away belongs to the job.
bool asksFor(const Exercise& exercise, plan::Step step) {
    for (const Check& check : exercise.checks)
        for (const Row& row : check.rows) {
            const auto* order = std::get_if<InOrder>(&row.look);
            if (!order) continue;
            const auto& steps = order->steps;
            if (steps.empty() || std::find(steps.begin(), steps.end(), step) != steps.end())
                return true;
        }
    return false;
}

class Judging {
public:
    Judging(const Exercise& asked, const attempt::Attempt& made, SeenBefore* earlier)
        : exercise(asked), attempt(made),
          putAway(asksFor(asked, plan::Step::BatteriesOut) ? beforePuttingAway(made.record())
                                                           : std::nullopt),
          bench(putAway ? putAway->bench : made.bench()), record(made.record()) {
        if (asksFor(asked, plan::Step::Run)) poweredUp = atPowerUp(record);
        if (poweredUp && isWiredAlike(*poweredUp)) poweredUp.reset();
        if (earlier) remembered = rememberedIn(*earlier);
    }

    Verdict verdict;

    void look(const Check& check) {
        Judged judged{check.id, true, check.marks, {}};
        verdict.outOf += check.marks;
        for (const Row& row : check.rows) {
            const Seen seen =
                std::visit([&](const auto& wanted) { return seeOnce(row, wanted); }, row.look);
            if (seen.asWanted) continue;
            judged = {check.id, false, 0, withFound(row.say, seen.found)};
            break;
        }
        verdict.marks += judged.marks;
        verdict.checks.push_back(std::move(judged));
    }

private:
    const Exercise& exercise;
    const attempt::Attempt& attempt;
    std::optional<BeforePuttingAway> putAway;
    const bench::Bench& bench; // to be judged: with the batteries still in
    // As it stood then, where the job is to run it and that was otherwise.
    std::optional<bench::Bench> poweredUp;
    const attempt::Record& record;

    // What was seen of this wiring; nullptr where more than that counts.
    std::map<const Row*, Seen>* remembered = nullptr;

    std::map<const Row*, Seen>* rememberedIn(SeenBefore& before) const {
        const std::string key = wiringKey(freshCopy(bench, exercise.start, {}));
        if (key.empty() || poweredUp) return nullptr;
        if (before.byWiring.size() >= kMostWirings && !before.byWiring.count(key))
            before.byWiring.clear();
        return &before.byWiring[key];
    }

    template <class Look> Seen seeOnce(const Row& row, const Look& wanted) const {
        if (!remembered || !isOfWiring(wanted)) return see(wanted);
        const auto known = remembered->find(&row);
        if (known != remembered->end()) return known->second;
        return (*remembered)[&row] = see(wanted);
    }

    bool isWiredAlike(const bench::Bench& other) const {
        return attempt::sameThings(freshCopy(other, exercise.start, {}),
                                   freshCopy(bench, exercise.start, {}));
    }

    Trial trial(const Positions& set, const std::optional<Fault>& fault = std::nullopt) const {
        return Trial(bench, exercise.start, set, fault);
    }

    Trial trial(const Positions& set, bool asItIs) const {
        return asItIs ? Trial(bench, set) : trial(set);
    }

    Seen see(const Present& wanted) const {
        Phrase::List missing;
        for (const std::string& ref : wanted.refs)
            if (!bench::findPart(bench, ref)) missing.items.emplace_back(ref);
        return {missing.items.empty(), missing};
    }

    Seen see(const Wired& wanted) const {
        Phrase::List missing;
        for (const std::string& ref : wanted.refs) {
            const bench::Part* part = bench::findPart(bench, ref);
            const auto leads = [&](const bench::Cable& cable) {
                return part && cable.ends[0].at && cable.ends[1].at &&
                       (cable.ends[0].at->part == part->id || cable.ends[1].at->part == part->id);
            };
            if (std::count_if(bench.cables.begin(), bench.cables.end(), leads) < 2)
                missing.items.emplace_back(ref);
        }
        return {missing.items.empty(), missing};
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
        Trial tried = trial(wanted.set, wanted.asItIs);
        tried.run(wanted.after_s);
        if (wanted.thenAfter_s > 0.0) {
            tried.move(wanted.thenSet);
            tried.run(wanted.thenAfter_s);
        }
        const std::optional<double> value = valueOf(tried, wanted);
        if (!value) return {false, describe(0.0, wanted.quantity)};
        return {*value >= wanted.least && *value <= wanted.most, describe(*value, wanted.quantity)};
    }

    static std::optional<double> valueOf(const Trial& tried, const Behaves& wanted) {
        if (wanted.quantity == Quantity::CableTemp_K) return tried.hottestCable_K();
        if (wanted.of.empty()) return tried.voltage_V(wanted.a, wanted.b);
        return tried.value(wanted.of, wanted.quantity);
    }

    Seen see(const Unharmed& wanted) const {
        Trial tried = trial(wanted.set, wanted.asItIs);
        tried.run(wanted.for_s);
        if (tried.harms().empty()) return {true, {}};
        return {false, describe(tried.harms().front())};
    }

    Seen see(const Survives& wanted) const {
        if (!find(bench, wanted.a) || !find(bench, wanted.b)) return {};
        for (const double fault_ohm : wanted.fault_ohm) {
            Fault fault;
            fault.a.terminal = find(bench, wanted.a);
            fault.b.terminal = find(bench, wanted.b);
            fault.resistance_ohm = fault_ohm;
            Trial tried = trial(wanted.set, fault);
            tried.runFault(wanted.for_s);
            for (const Harm& harm : tried.harms())
                if (harm.cable) return {false, describe(harm)};
        }
        return {true, {}};
    }

    Seen see(const Protected& wanted) const {
        for (const bench::Bench* judged : {poweredUp ? &*poweredUp : nullptr, &bench}) {
            if (!judged) continue;
            const FaultSweep sweep = sweepFaults(*judged, exercise.start, wanted.asked);
            if (!sweep.threats.empty()) return {false, describe(*judged, sweep.threats.front())};
        }
        return {true, {}};
    }

    Seen see(const Isolated& wanted) const {
        const auto live = stillLive(freshCopy(bench, exercise.start, {}), wanted);
        return {!live, live.value_or(Phrase())};
    }

    // With the parts as they were then.
    Seen see(const Done& wanted) const {
        for (const bench::Bench& then : showings(record, wanted)) {
            Trial tried(then, wanted.set);
            tried.run(wanted.for_s);
            if (wanted.thenFor_s > 0.0) {
                tried.move(wanted.thenSet);
                tried.run(wanted.thenFor_s);
            }
            const auto value = tried.value(wanted.of, wanted.quantity);
            if (value && *value >= wanted.least && *value <= wanted.most) return {true, {}};
        }
        return {};
    }

    Seen see(const Order& wanted) const {
        const Kept kept = keeps(putAway ? putAway->record : record, wanted);
        return {kept.kept, kept.found};
    }

    static bool isAsked(const std::vector<std::string>& labels, const std::string& label) {
        return labels.empty() || std::find(labels.begin(), labels.end(), label) != labels.end();
    }

    Seen see(const FollowsPlan& wanted) const {
        if (!exercise.plan) return {};
        for (const bench::Bench* judged : {&bench, poweredUp ? &*poweredUp : nullptr}) {
            if (!judged) continue;
            for (const plan::Difference& difference : plan::differences(*exercise.plan, *judged))
                if (isAsked(wanted.labels, difference.label)) return {false, describe(difference)};
        }
        return {true, {}};
    }

    Seen see(const WellMade& wanted) const {
        const std::vector<Phrase> faults = faultsOf(bench, wanted.labels);
        return {faults.empty(), faults.empty() ? Phrase() : faults.front()};
    }

    Seen see(const InOrder& wanted) const {
        const Procedure procedure = procedureOf(record, exercise.plan ? &*exercise.plan : nullptr);
        int kept = 0, asked = 0;
        Phrase early, open;
        for (const StepSeen& step : procedure.steps()) {
            const auto& steps = wanted.steps;
            if (!steps.empty() && std::find(steps.begin(), steps.end(), step.step) == steps.end())
                continue;
            ++asked;
            if (step.done && !step.early) ++kept;
            if (step.early && early.empty()) early = lesson::describe(step);
            if (!step.done && open.empty()) open = lesson::describe(step);
        }
        const int least = wanted.least > 0 ? wanted.least : std::max(asked, 1);
        return {kept >= least, early.empty() ? open : early};
    }

    Seen see(const CrossChecked& wanted) const {
        if (!exercise.plan) return {};
        const Sheet sheet = sheetOf(record);
        if (!sheet.handedIn) return {false, phrase("found/not-handed-in")};
        for (const SheetFinding& finding : sheetFindings(*exercise.plan, attempt, sheet)) {
            Phrase found = missing(wanted, finding);
            if (!found.empty()) return {false, std::move(found)};
        }
        return {true, {}};
    }

    static Phrase missing(const CrossChecked& wanted, const SheetFinding& finding) {
        using Kind = SheetFinding::Kind;
        if (wanted.everyCable && finding.kind == Kind::NotMarked)
            return phrase("found/no-mark", {{"label", finding.label}});
        if (wanted.noneMissed && finding.kind == Kind::Missed)
            return phrase("found/missed",
                          {{"label", finding.label}, {"difference", finding.difference}});
        if (wanted.noFalseAlarm && finding.kind == Kind::FalseAlarm)
            return phrase("found/false-alarm", {{"label", finding.label}});
        if (wanted.bothEnds && !finding.lookedAtBoth)
            return phrase("found/not-looked", {{"label", finding.label}});
        return {};
    }

    Seen see(const Found& wanted) const {
        const FaultFinding finding = faultFinding(exercise, record);
        if (finding.namings == 0) return {false, phrase("found/none-named")};
        if (!finding.found) return {false, about("found/not-it", finding.lastNamed)};
        if (finding.namings > wanted.mostNamings)
            return {false, counted("found/too-many-named", finding.namings)};
        if (wanted.shown) {
            Phrase open = whyNotShown(exercise, record);
            if (!open.empty()) return {false, std::move(open)};
        }
        const bool few =
            wanted.mostMeasurements == 0 || finding.measurements <= wanted.mostMeasurements;
        return {few, counted("found/measurements", finding.measurements)};
    }

    Seen see(const Sound& wanted) const {
        for (const bench::Part& part : bench.parts) {
            if (part.condition == bench::Condition::Welded)
                return {false, about("found/sticks", part.ref)};
            const bool fuse = bench::isA(part, bench::PartClass::Fuse);
            if (part.condition == bench::Condition::Open || (fuse && part.rating <= 0.0))
                return {false, about("found/open", part.ref)};
            if (bench::isA(part, bench::PartClass::Battery) && part.charge < wanted.leastCharge)
                return {false, about("found/flat", part.ref)};
        }
        for (const bench::Cable& cable : bench.cables)
            if (cable.condition != bench::CableCondition::Sound)
                return {false, about("found/too-hot", cable.label)};
        return {true, {}};
    }
};

} // namespace

Verdict judge(const Exercise& exercise, const attempt::Attempt& attempt, SeenBefore* before) {
    Judging judging(exercise, attempt, before);
    for (const Check& check : exercise.checks)
        judging.look(check);
    return std::move(judging.verdict);
}

} // namespace loom::lesson
