// SPDX-License-Identifier: MIT
// Quantities over time. watch() what is wanted, sample() once a slice while time runs, read with
// points() or at(). The last two minutes are kept slice by slice; what is older is thinned to the
// least and greatest of 10, 100, then 1000 slices, so that peaks stay and memory is bounded.
// Sampling costs nothing while nothing is watched. It is no part of the record.
#pragma once

#include "attempt/attempt.h"

#include <optional>
#include <vector>

namespace loom::attempt {

// What is watched. Only the ids of its kind of thing are set.
struct Quantity {
    enum class Kind {
        Voltage,     // of `terminal` against `against`
        Across,      // the part's own voltage: a minus b, coil a minus coil b
        Current,     // through the part or the cable
        Temperature, // of the cable, fuse, lamp or motor [K]
        Speed,       // of the motor [rad/s]
        Charge       // of the battery, 0..1
    } kind = Kind::Current;
    bench::PartId part;
    bench::CableId cable;
    bench::TerminalRef terminal, against;

    friend bool operator==(const Quantity& l, const Quantity& r) {
        return l.kind == r.kind && l.part == r.part && l.cable == r.cable &&
               l.terminal == r.terminal && l.against == r.against;
    }
};

// "V", "A", "K", "rad/s"; "1" for a charge.
const char* unitOf(Quantity::Kind kind);
// Now; nothing when the thing is gone or no metal path joins the two terminals.
std::optional<double> valueOf(const Attempt& attempt, const Quantity& quantity);

// The least and greatest over some slices beginning with `slice`; equal at full rate. Not a number
// where there was nothing to read.
struct TracePoint {
    std::int64_t slice = 0, slices = 1;
    double least = 0.0, greatest = 0.0;
};

class Trace {
public:
    static constexpr std::size_t kMost = 4;                 // quantities at a time
    static constexpr std::int64_t kFullRate_slices = 12000; // kept slice by slice
    static constexpr std::int64_t kKeptBuckets = 6000;      // of each coarser level
    static constexpr std::int64_t kWidths[] = {1, 10, 100, 1000};

    // Whether it is watched now, or was already; not when there are as many as there can be.
    bool watch(const Quantity& quantity);
    void unwatch(const Quantity& quantity);
    void forget(); // everything: another attempt begins

    bool idle() const { return channels.empty(); }

    std::size_t size() const { return channels.size(); }

    const Quantity& quantity(std::size_t i) const { return channels[i].quantity; }

    // After each slice. What opened within it is kept with the current of that instant, which the
    // reading no longer tells. What was skipped while the attempt rested holds the last value; an attempt
    // earlier than the last sample is another one, whose trace begins anew.
    void sample(const Attempt& attempt);

    // The first and last slice of anything kept; nothing before the first sample.
    std::optional<std::int64_t> firstSlice() const;
    std::optional<std::int64_t> lastSlice() const;

    // The value then, at full rate the exact one, in thinned time the greatest in size.
    std::optional<double> at(std::size_t i, std::int64_t slice) const;
    // From the finest level that reaches back to `from` (or as far as there is anything), joined so
    // that there are no more than `mostPoints`. In order; times of no sample are left out.
    std::vector<TracePoint>
    points(std::size_t i, std::int64_t from, std::int64_t to, std::size_t mostPoints) const;

private:
    struct Bucket {
        double least = 0.0, greatest = 0.0;
    };

    // A ring of buckets, the n-th of time at n modulo its length.
    struct Level {
        std::vector<Bucket> ring;
        std::int64_t first = 0, last = -1; // of the buckets kept
    };

    struct Channel {
        Quantity quantity;
        Level levels[4];
        std::int64_t firstSlice = 0, lastSlice = -1;
        double lastValue = 0.0;
    };

    static std::int64_t keptAt(std::size_t level);
    static void put(Level& level, std::size_t which, std::int64_t slice, double value);
    static void hold(Channel& channel, std::int64_t before);
    static std::size_t levelFor(const Channel& channel, std::int64_t from);

    std::vector<Channel> channels;
};

} // namespace loom::attempt
