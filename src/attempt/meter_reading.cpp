// SPDX-License-Identifier: MIT
#include "attempt/meter_reading.h"

#include "attempt/wear.h"

#include <cmath>

namespace loom::attempt {

namespace {

using bench::MeterElement;
using bench::MeterRange;

constexpr double kCounts = 4000.0;
constexpr double kShare = 0.005, kDigits = 2.0;

// Rounded to the first range that holds it.
void show(MeterReading& reading, double value, double firstRange, double lastRange) {
    double range = firstRange;
    const double size = std::fabs(value);
    while (size >= range && range * 10.0 <= lastRange * 1.001)
        range *= 10.0;
    reading.digit = range / kCounts;
    reading.beyond = !(size < lastRange);
    if (reading.beyond) return;
    const double steps = std::floor(size / reading.digit + 0.5);
    // Whole digits, not their sum of errors; a zero has no sign.
    reading.value = steps == 0.0 ? 0.0 : (value < 0.0 ? -steps : steps) * range / kCounts;
    reading.uncertainty = kShare * std::fabs(reading.value) + kDigits * reading.digit;
}

bool touchesBoth(const bench::Meter& meter) {
    for (const bench::ProbeTip& tip : meter.probes)
        if (!tip.terminal && !tip.cable) return false;
    return true;
}

// From the test current i through Rt: v = E - Rt i lies at the probes, and R = v / i. A voltage from
// outside drives i below 0 when it is over E, and v below 0 when it is the other way round.
void resistance(const Attempt& attempt, bool touching, MeterReading& reading) {
    const bool toneRange = reading.tone;
    reading.tone = false;
    reading.unit = MeterUnit::Ohm;
    const double most_ohm = toneRange ? 400.0 : 40e6;
    const double i_A = touching ? attempt.reading(MeterElement::Through).current_A : 0.0;
    const double v_V = bench::kMeterTest_V - bench::kMeterTest_ohm * i_A;
    constexpr double kNone_A = 1e-9; // rounding in the solver, and leaks
    reading.live = v_V < -kMeterLive_V || i_A < -kNone_A;
    if (reading.live) return;
    const double ohm = i_A > kNone_A ? v_V / i_A : 1e12;
    show(reading, ohm < 0.0 ? 0.0 : ohm, 400.0, most_ohm);
    reading.tone = toneRange && !reading.beyond && ohm < kToneBelow_ohm;
}

} // namespace

MeterReading meterReading(const Attempt& attempt) {
    MeterReading reading;
    const auto& meter = attempt.bench().meter;
    if (!meter || meter->range == MeterRange::Off) return reading;
    reading.on = true;
    const bool touching = touchesBoth(*meter);
    switch (meter->range) {
    case MeterRange::Off:
        break;
    case MeterRange::Volts:
        show(reading, attempt.reading(MeterElement::Volts).voltage_V, 4.0, 400.0);
        break;
    case MeterRange::Amperes:
        reading.unit = MeterUnit::Ampere;
        reading.fuseOpen = meter->fuseOpen;
        show(reading, attempt.reading(MeterElement::Shunt).current_A, 4.0, 40.0);
        break;
    case MeterRange::Tone:
        reading.tone = true;
        [[fallthrough]];
    case MeterRange::Ohms:
        resistance(attempt, touching, reading);
    }
    return reading;
}

namespace {

// Follows the meter through a record.
class Measurements {
public:
    explicit Measurements(const Record& record) : meter(record.start.meter) {
        begin(0);
        for (const Entry& entry : record.entries)
            if (const auto* edit = std::get_if<bench::Edit>(&entry.command))
                std::visit([&](const auto& one) { take(one, entry.slice); }, *edit);
        end(record.slices);
    }

    int count() const { return counted; }

private:
    std::optional<bench::Meter> meter;
    std::int64_t since = 0;
    int counted = 0;

    void begin(std::int64_t slice) { since = slice; }

    void end(std::int64_t slice) {
        const bool measuring = meter && meter->range != MeterRange::Off && touchesBoth(*meter);
        if (measuring && slice - since >= kHeldFor_slices) ++counted;
        begin(slice);
    }

    template <class Edit> void take(const Edit&, std::int64_t) {}

    void take(const bench::PlaceMeter& edit, std::int64_t) {
        if (!meter) meter = bench::Meter{};
        meter->at_m = edit.at_m;
    }

    void take(const bench::HangMeter&, std::int64_t slice) {
        end(slice);
        meter.reset();
    }

    void take(const bench::SetMeter& edit, std::int64_t slice) {
        end(slice);
        if (meter) meter->range = edit.range;
    }

    void take(const bench::Probe& edit, std::int64_t slice) {
        end(slice);
        if (meter && (edit.which == 0 || edit.which == 1))
            meter->probes[static_cast<std::size_t>(edit.which)] = edit.to;
    }

    void take(const bench::RemovePart& edit, std::int64_t slice) {
        dropFrom(slice, [&](const bench::ProbeTip& tip) {
            return tip.terminal && tip.terminal->part == edit.part;
        });
    }

    void take(const bench::RemoveCable& edit, std::int64_t slice) {
        dropFrom(slice, [&](const bench::ProbeTip& tip) { return tip.cable == edit.cable; });
    }

    template <class Gone> void dropFrom(std::int64_t slice, Gone gone) {
        if (!meter || !(gone(meter->probes[0]) || gone(meter->probes[1]))) return;
        end(slice);
        for (bench::ProbeTip& tip : meter->probes)
            if (gone(tip)) tip = {};
    }
};

} // namespace

int measurementsOf(const Record& record) {
    return Measurements(record).count();
}

bool isMeasuring(const Attempt& attempt) {
    const std::vector<Entry>& entries = attempt.record().entries;
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        if (entry->slice + kHeldFor_slices < attempt.now_slices()) return false;
        const auto* edit = std::get_if<bench::Edit>(&entry->command);
        if (edit && bench::rowOf(*edit).by == bench::By::Meter) return true;
    }
    return false;
}

} // namespace loom::attempt
