// SPDX-License-Identifier: MIT
// Ties between cables and to the frame, and what the yard finds at the axle.
#include "bench/catalogue.h"
#include "bench/edit_rules.h"
#include "bench/limits.h"

#include <algorithm>

namespace loom::bench {
namespace {

std::optional<Refusal> whyNotTie(const Bench& bench, const TieCable& edit) {
    if (!findCable(bench, edit.cable)) return noSuchCable(edit.cable);
    if (edit.other && !findCable(bench, edit.other)) return noSuchCable(edit.other);
    const std::string& label = findCable(bench, edit.cable)->label;
    if (edit.other == edit.cable)
        return Refusal{
            Why::OutOfRange, label, phrase("another-cable-or-the-frame"), phrase("itself")};
    if (auto why = whyNotWithin(label, edit.along, 0.0, 1.0)) return why;
    if (auto why = whyNotWithin(label, edit.otherAlong, 0.0, 1.0)) return why;
    if (auto why = whyNotPoint(label, edit.at_m)) return why;
    if (bench.ties.size() < kTiesMost) return std::nullopt;
    return Refusal{Why::TooMany,
                   phrase("ties"),
                   phrase("n-ties-at-most", {{"n", numeral(kTiesMost)}}),
                   numeral(bench.ties.size())};
}

} // namespace

Outcome<Bench> edited(Bench bench, const TieCable& edit) {
    if (auto why = whyNotTie(bench, edit)) return *why;
    Tie tie;
    tie.id = ++bench.lastId;
    tie.cable = edit.cable;
    tie.along = edit.along;
    tie.other = edit.other;
    if (edit.other) tie.otherAlong = edit.otherAlong;
    tie.at_m = ontoBoard(bench, edit.at_m);
    bench.ties.push_back(tie);
    return bench;
}

Outcome<Bench> edited(Bench bench, const CutTie& edit) {
    const auto tie = std::find_if(bench.ties.begin(), bench.ties.end(), [&](const Tie& other) {
        return other.id == edit.tie;
    });
    if (tie == bench.ties.end())
        return Refusal{Why::UnknownTie,
                       phrase("tie-n", {{"n", numeral(edit.tie)}}),
                       phrase("a-tie-on-the-bench"),
                       phrase("none")};
    bench.ties.erase(tie);
    return bench;
}

Outcome<Bench> edited(Bench bench, const ObstructAxle& edit) {
    Part* motor = partIn(bench, edit.motor);
    if (!motor) return noSuchPart(edit.motor);
    if (!isA(*motor, PartClass::Motor))
        return Refusal{
            Why::OutOfRange, motor->ref, phrase("a-motor"), wordPhrase(spec(motor->kind).word)};
    if (edit.by && !findCable(bench, edit.by)) return noSuchCable(edit.by);
    motor->obstructed = edit.obstructed;
    return bench;
}

} // namespace loom::bench
