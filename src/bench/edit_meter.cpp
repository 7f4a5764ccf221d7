// SPDX-License-Identifier: MIT
// The hand meter: on the board or on its hook, its range, its probes and its fuse.
#include "bench/catalogue.h"
#include "bench/edit_rules.h"
#include "bench/joining.h"

namespace loom::bench {
namespace {

Refusal meterHangs() {
    return {
        Why::MeterAway, phrase("meter"), phrase("the-meter-off-its-hook"), phrase("on-its-hook")};
}

std::optional<Refusal> whyNotTouch(const Bench& bench, const ProbeTip& tip) {
    if (tip.terminal && tip.cable)
        return Refusal{Why::OutOfRange,
                       phrase("meter"),
                       phrase("a-terminal-or-a-cable-s-end"),
                       phrase("both")};
    if (tip.terminal) return whyNotTerminal(bench, *tip.terminal);
    return tip.cable ? whyNotEnd(bench, tip.cable, tip.end) : std::nullopt;
}

} // namespace

Outcome<Bench> edited(Bench bench, const PlaceMeter& edit) {
    if (auto why = whyNotPoint(phrase("meter"), edit.at_m)) return *why;
    if (!bench.meter) bench.meter = Meter{};
    bench.meter->at_m = ontoBoard(bench, edit.at_m);
    return bench;
}

Outcome<Bench> edited(Bench bench, const HangMeter&) {
    bench.meter.reset();
    return bench;
}

Outcome<Bench> edited(Bench bench, const SetMeter& edit) {
    if (!bench.meter) return meterHangs();
    bench.meter->range = edit.range;
    return bench;
}

Outcome<Bench> edited(Bench bench, const Probe& edit) {
    if (!bench.meter) return meterHangs();
    if (edit.which != 0 && edit.which != 1)
        return Refusal{
            Why::OutOfRange, phrase("meter"), phrase("probe-0-or-1"), numeral(edit.which)};
    if (auto why = whyNotTouch(bench, edit.to)) return *why;
    ProbeTip tip = edit.to;
    if (!tip.cable) tip.end = 0;
    bench.meter->probes[static_cast<std::size_t>(edit.which)] = tip;
    return bench;
}

Outcome<Bench> edited(Bench bench, const FitMeterFuse&) {
    if (!bench.meter) return meterHangs();
    bench.meter->fuseOpen = false;
    return bench;
}

Outcome<Bench> edited(Bench bench, const WearMeter&) {
    if (!bench.meter) return meterHangs();
    bench.meter->fuseOpen = true;
    return bench;
}

} // namespace loom::bench
