// SPDX-License-Identifier: MIT
#include "lesson/evidence.h"

#include "attempt/meter_reading.h"
#include "attempt/wear.h"
#include "bench/catalogue.h"
#include "lesson/end_faults.h"

#include <algorithm>
#include <cmath>

namespace loom::lesson {
namespace {

using attempt::Attempt;
using attempt::MeterReading;
using bench::Bench;
using bench::PartClass;
using bench::Phrase;

// Two readings differ for a learner when they lie so many times further apart than both are
// uncertain.
constexpr double kApart = 3.0;
// What is seen at a glance: light, movement, the horn.
constexpr double kGlows = 0.2, kTurns_rad_s = 20.0, kSounds_W = 5.0;

// What somebody at this bench knew at one moment of the record.
struct Sight {
    std::vector<int> goesOn;              // by part: lit, turning which way, pulled in, sounding
    std::optional<MeterReading> measured; // held long enough
    Phrase::List closely;                 // what a look at a part or an end showed
};

using Sights = std::vector<Sight>;

int goesOn(const Attempt& attempt, const bench::Part& part) {
    const circuit::Reading own = attempt.reading(part.id);
    switch (bench::spec(part.kind).partClass) {
    case PartClass::Lamp:
        return own.brightness > kGlows;
    case PartClass::LampSwitch:
        return attempt.reading(part.id, 1).brightness > kGlows;
    case PartClass::Motor:
        return std::fabs(own.speed_rad_s) < kTurns_rad_s ? 0 : own.speed_rad_s > 0.0 ? 1 : -1;
    case PartClass::Relay:
        return own.pulledIn;
    case PartClass::Horn:
        return own.power_W > kSounds_W;
    default:
        return 0;
    }
}

// A part with what is joined to it and how it looks.
Phrase::List lookAtPart(const Bench& bench, const bench::Part& part) {
    Phrase::List seen;
    seen.items.push_back(bench::numeral(static_cast<int>(part.condition)));
    seen.items.push_back(bench::numeral(part.rating));
    for (const bench::Cable& cable : bench.cables)
        for (const bench::CableEnd& end : cable.ends)
            if (end.at && end.at->part == part.id) {
                seen.items.emplace_back(cable.label);
                seen.items.push_back(bench::numeral(end.at->terminal));
            }
    return seen;
}

Phrase::List lookAtEnd(const Bench& bench, const bench::Cable& cable, int end) {
    Phrase::List seen;
    const auto& at = cable.ends[static_cast<std::size_t>(end)].at;
    const bench::Part* part = at ? bench::findPart(bench, at->part) : nullptr;
    if (!part) return seen;
    seen.items.emplace_back(part->ref);
    seen.items.push_back(bench::numeral(at->terminal));
    seen.items.push_back(faultAt(bench, cable, end));
    return seen;
}

Phrase::List lookAt(const Bench& bench, const attempt::LookAt& look) {
    if (look.end < 0) {
        const bench::Part* part = bench::findPart(bench, look.name);
        return part ? lookAtPart(bench, *part) : Phrase::List();
    }
    Phrase::List seen;
    for (const bench::Cable& cable : bench.cables)
        if (cable.label == look.name) {
            const Phrase::List one = lookAtEnd(bench, cable, look.end);
            seen.items.insert(seen.items.end(), one.items.begin(), one.items.end());
        }
    return seen;
}

bool movesMeter(const attempt::Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    return edit && bench::rowOf(*edit).by == bench::By::Meter;
}

bool isDoneByCircuit(const attempt::Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    return edit && attempt::isWear(*edit);
}

// The record's first entries done again on another start; one sight before each of them. Commands
// that cannot be done there are passed over.
class Again {
public:
    Again(const Bench& start, const attempt::Record& record, std::size_t entries)
        : attempt(start, record.exercise, record.exerciseHash, record.seed) {
        for (std::size_t i = 0; i < entries; ++i)
            take(record.entries[i]);
        look(record.entries[entries].slice);
    }

    Sights sights;

private:
    Attempt attempt;
    std::int64_t meterSince = 0;

    Sight& look(std::int64_t slice) {
        attempt.advance(slice - attempt.now_slices());
        Sight sight;
        for (const bench::Part& part : attempt.bench().parts)
            sight.goesOn.push_back(goesOn(attempt, part));
        const MeterReading reading = attempt::meterReading(attempt);
        if (reading.on && slice - meterSince >= attempt::kHeldFor_slices) sight.measured = reading;
        sights.push_back(std::move(sight));
        return sights.back();
    }

    void take(const attempt::Entry& entry) {
        Sight& sight = look(entry.slice);
        if (const auto* close = std::get_if<attempt::LookAt>(&entry.command))
            sight.closely = lookAt(attempt.bench(), *close);
        if (movesMeter(entry.command)) meterSince = entry.slice;
        if (isDoneByCircuit(entry.command) ||
            std::holds_alternative<attempt::Reopened>(entry.command))
            return;
        attempt.ask(entry.command);
    }
};

bool readsAlike(const MeterReading& a, const MeterReading& b) {
    if (a.beyond != b.beyond || a.tone != b.tone || a.live != b.live || a.fuseOpen != b.fuseOpen)
        return false;
    return a.beyond || a.live || a.fuseOpen ||
           std::fabs(a.value - b.value) <= kApart * (a.uncertainty + b.uncertainty);
}

// By what was looked at closely and measured.
bool showsCloser(const Sights& a, const Sights& b) {
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (!(Phrase(a[i].closely) == Phrase(b[i].closely))) return true;
        if (a[i].measured && b[i].measured && !readsAlike(*a[i].measured, *b[i].measured))
            return true;
    }
    return false;
}

bool shows(const Sights& a, const Sights& b) {
    const auto differs = [](const Sight& one, const Sight& other) {
        return one.goesOn != other.goesOn;
    };
    return showsCloser(a, b) ||
           !std::equal(a.begin(), a.end(), b.begin(), [&](const Sight& one, const Sight& other) {
               return !differs(one, other);
           });
}

// The entry that named it rightly; their number when none did.
std::size_t
namingOf(const Exercise& exercise, const HiddenFault& fault, const attempt::Record& record) {
    const auto names = [&](const attempt::Entry& entry) {
        const auto* named = std::get_if<attempt::NameFault>(&entry.command);
        return named && isNamed(fault, exercise.start, named->name, named->end);
    };
    const auto& entries = record.entries;
    return static_cast<std::size_t>(std::find_if(entries.begin(), entries.end(), names) -
                                    entries.begin());
}

} // namespace

Phrase whyNotShown(const Exercise& exercise, const attempt::Record& record) {
    const HiddenFault* hidden = faultOf(exercise, record.seed);
    if (!hidden) return {};
    const std::size_t entries = namingOf(exercise, *hidden, record);
    if (entries == record.entries.size()) return {};
    const Sights here = Again(record.start, record, entries).sights;
    if (!showsCloser(here, Again(exercise.start, record, entries).sights))
        return bench::phrase("found/not-shown");
    int open = 0;
    for (const HiddenFault& other : exercise.faults) {
        if (&other == hidden) continue;
        const auto start = withFault(exercise.start, other);
        if (start && !shows(here, Again(*start, record, entries).sights)) ++open;
    }
    if (open == 0) return {};
    return bench::phrase("found/fits-others", {{"count", bench::numeral(open)}});
}

} // namespace loom::lesson
