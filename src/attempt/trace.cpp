// SPDX-License-Identifier: MIT
#include "attempt/trace.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loom::attempt {

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// The least and greatest of the two, where there is anything.
void widen(double& least, double& greatest, double low, double high) {
    if (std::isnan(low)) return;
    least = std::isnan(least) ? low : std::min(least, low);
    greatest = std::isnan(greatest) ? high : std::max(greatest, high);
}

// The current at which the fuse or the cable opened after slice `since`; 0: it did not.
double openedAt_A(const Attempt& attempt, const Quantity& quantity, std::int64_t since) {
    if (quantity.kind != Quantity::Kind::Current) return 0.0;
    const auto& all = attempt.events();
    for (std::size_t i = all.size(); i-- > 0 && all[i].slice > since;) {
        const circuit::EventKind kind = all[i].kind;
        const bool opens = circuit::opensByCurrent(kind) || kind == circuit::EventKind::CableParted;
        const bool same = (quantity.part && all[i].part == quantity.part) ||
                          (quantity.cable && all[i].cable == quantity.cable);
        if (opens && same) return all[i].first;
    }
    return 0.0;
}

std::optional<circuit::Reading> readingOf(const Attempt& attempt, const Quantity& quantity) {
    if (quantity.cable) {
        if (!bench::findCable(attempt.bench(), quantity.cable)) return std::nullopt;
        return attempt.reading(quantity.cable);
    }
    if (!bench::findPart(attempt.bench(), quantity.part)) return std::nullopt;
    return attempt.reading(quantity.part);
}

} // namespace

const char* unitOf(Quantity::Kind kind) {
    switch (kind) {
    case Quantity::Kind::Voltage:
    case Quantity::Kind::Across:
        return "V";
    case Quantity::Kind::Current:
        return "A";
    case Quantity::Kind::Temperature:
        return "K";
    case Quantity::Kind::Speed:
        return "rad/s";
    case Quantity::Kind::Charge:
        break;
    }
    return "1";
}

std::optional<double> valueOf(const Attempt& attempt, const Quantity& quantity) {
    if (quantity.kind == Quantity::Kind::Voltage)
        return attempt.voltage_V(quantity.terminal, quantity.against);
    const auto reading = readingOf(attempt, quantity);
    if (!reading) return std::nullopt;
    switch (quantity.kind) {
    case Quantity::Kind::Voltage:
    case Quantity::Kind::Across:
        return reading->voltage_V;
    case Quantity::Kind::Current:
        return reading->current_A;
    case Quantity::Kind::Temperature:
        return reading->temp_K;
    case Quantity::Kind::Speed:
        return reading->speed_rad_s;
    case Quantity::Kind::Charge:
        break;
    }
    return reading->charge;
}

bool Trace::watch(const Quantity& quantity) {
    const bool known = std::any_of(
        channels.begin(), channels.end(), [&](const Channel& c) { return c.quantity == quantity; });
    if (known || channels.size() >= kMost) return known;
    channels.emplace_back();
    channels.back().quantity = quantity;
    return true;
}

void Trace::unwatch(const Quantity& quantity) {
    channels.erase(std::remove_if(channels.begin(),
                                  channels.end(),
                                  [&](const Channel& c) { return c.quantity == quantity; }),
                   channels.end());
}

void Trace::forget() {
    channels.clear();
}

std::int64_t Trace::keptAt(std::size_t level) {
    return level == 0 ? kFullRate_slices : kKeptBuckets;
}

void Trace::put(Level& level, std::size_t which, std::int64_t slice, double value) {
    const std::int64_t kept = keptAt(which), bucket = slice / kWidths[which];
    const bool isNew = level.last < level.first || bucket > level.last;
    if (level.last < level.first) level.first = bucket;
    const std::size_t place = static_cast<std::size_t>(bucket % kept);
    if (level.ring.size() < static_cast<std::size_t>(kept) && place >= level.ring.size())
        level.ring.resize(
            std::min(std::max(place + 1, 2 * level.ring.size()), static_cast<std::size_t>(kept)));
    Bucket& there = level.ring[place];
    if (isNew) there = {kNone, kNone};
    widen(there.least, there.greatest, value, value);
    level.last = bucket;
    level.first = std::max(level.first, bucket - kept + 1);
}

// Fills the slices up to `before` with the last value; of each level only what it keeps.
void Trace::hold(Channel& channel, std::int64_t before) {
    for (std::size_t which = 0; which < std::size(kWidths); ++which) {
        Level& level = channel.levels[which];
        const std::int64_t width = kWidths[which], end = before / width;
        put(level, which, channel.lastSlice + 1, channel.lastValue);
        const std::int64_t skipped = std::max(level.last + 1, end - keptAt(which) + 1);
        if (skipped > level.last + 1) level.first = skipped;
        for (std::int64_t bucket = skipped; bucket <= end; ++bucket)
            put(level, which, bucket * width, channel.lastValue);
    }
}

void Trace::sample(const Attempt& attempt) {
    const std::int64_t now = attempt.now_slices();
    for (Channel& channel : channels) {
        const bool started = channel.lastSlice >= channel.firstSlice;
        if (started && now == channel.lastSlice) continue;
        if (started && now < channel.lastSlice) {
            const Quantity quantity = channel.quantity;
            channel = {};
            channel.quantity = quantity;
        } else if (started && now > channel.lastSlice + 1) {
            hold(channel, now - 1);
        }
        const double before = channel.lastValue;
        const double opened_A =
            started ? openedAt_A(attempt, channel.quantity, channel.lastSlice) : 0.0;
        if (channel.lastSlice < channel.firstSlice) channel.firstSlice = now;
        channel.lastValue = valueOf(attempt, channel.quantity).value_or(kNone);
        if (opened_A > 0.0) channel.lastValue = before < 0.0 ? -opened_A : opened_A;
        for (std::size_t which = 0; which < std::size(kWidths); ++which)
            put(channel.levels[which], which, now, channel.lastValue);
        channel.lastSlice = now;
    }
}

std::optional<std::int64_t> Trace::firstSlice() const {
    std::optional<std::int64_t> first;
    for (const Channel& channel : channels) {
        if (channel.lastSlice < channel.firstSlice) continue;
        const std::size_t coarsest = std::size(kWidths) - 1;
        const std::int64_t kept = channel.levels[coarsest].first * kWidths[coarsest];
        const std::int64_t own = std::max(channel.firstSlice, kept);
        first = first ? std::min(*first, own) : own;
    }
    return first;
}

std::optional<std::int64_t> Trace::lastSlice() const {
    std::optional<std::int64_t> last;
    for (const Channel& channel : channels)
        if (channel.lastSlice >= channel.firstSlice)
            last = last ? std::max(*last, channel.lastSlice) : channel.lastSlice;
    return last;
}

std::size_t Trace::levelFor(const Channel& channel, std::int64_t from) {
    const std::int64_t wanted = std::max(from, channel.firstSlice);
    for (std::size_t which = 0; which + 1 < std::size(kWidths); ++which)
        if (channel.levels[which].first * kWidths[which] <= wanted) return which;
    return std::size(kWidths) - 1;
}

std::optional<double> Trace::at(std::size_t i, std::int64_t slice) const {
    const Channel& channel = channels[i];
    if (channel.lastSlice < channel.firstSlice || slice < channel.firstSlice ||
        slice > channel.lastSlice)
        return std::nullopt;
    const std::size_t which = levelFor(channel, slice);
    const Level& level = channel.levels[which];
    const std::int64_t bucket = slice / kWidths[which];
    if (bucket < level.first || bucket > level.last) return std::nullopt;
    const Bucket& there = level.ring[static_cast<std::size_t>(bucket % keptAt(which))];
    if (std::isnan(there.least)) return std::nullopt;
    return std::fabs(there.least) > std::fabs(there.greatest) ? there.least : there.greatest;
}

std::vector<TracePoint>
Trace::points(std::size_t i, std::int64_t from, std::int64_t to, std::size_t mostPoints) const {
    std::vector<TracePoint> out;
    const Channel& channel = channels[i];
    if (channel.lastSlice < channel.firstSlice || to < from || mostPoints == 0) return out;
    const std::size_t which = levelFor(channel, from);
    const Level& level = channel.levels[which];
    const std::int64_t width = kWidths[which];
    const std::int64_t first = std::max(from / width, level.first);
    const std::int64_t last = std::min(to / width, level.last);
    if (last < first) return out;
    const std::int64_t joined = (last - first) / static_cast<std::int64_t>(mostPoints) + 1;
    // Joined by fixed groups of time, so that a window that moves on joins the same ones.
    for (std::int64_t bucket = first; bucket <= last; ++bucket) {
        const Bucket& there = level.ring[static_cast<std::size_t>(bucket % keptAt(which))];
        const bool fresh = out.empty() || bucket / joined != (bucket - 1) / joined;
        if (fresh) out.push_back({bucket * width, 0, kNone, kNone});
        out.back().slices += width;
        widen(out.back().least, out.back().greatest, there.least, there.greatest);
    }
    return out;
}

} // namespace loom::attempt
