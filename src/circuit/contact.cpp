// SPDX-License-Identifier: MIT
#include "circuit/contact.h"

#include "circuit/models.h"

namespace loom::circuit {

bool ContactPart::move(bool closed, double current_A, double time_s) {
    if (gap.closed() == closed) return false;
    if (closed) {
        gap.phase = GapPhase::Closed;
        gap.side = 0;
    } else {
        openGap(gap, current_A, time_s);
    }
    return true;
}

bool Contacts::valid(const Contact& spec) {
    return validOhms(spec.resistance_ohm);
}

Entry Contacts::add(const Contact& spec, Key, Builder& b) {
    ContactPart c;
    c.branch = b.branch(spec.a, spec.b);
    c.resistance_ohm = spec.resistance_ohm < kConflict_ohm ? kConflict_ohm : spec.resistance_ohm;
    c.gap.phase = spec.closed ? GapPhase::Closed : GapPhase::Open;
    all.push_back(c);
    return {lastIndex(all), c.branch};
}

void Contacts::restart(const double*, const double*) {
    for (ContactPart& c : all)
        c.gap.side = 0;
}

void Contacts::stamp(Stage& s) {
    for (const ContactPart& c : all) {
        if (!c.gap.closed()) {
            stampGap(c.gap, c.branch, s);
            continue;
        }
        s.g[c.branch] = 1.0 / c.resistance_ohm;
        s.j[c.branch] = 0.0;
    }
}

void Contacts::updateBranches(Stage& s) {
    for (ContactPart& c : all) {
        if (c.gap.closed())
            s.i[c.branch] = s.g[c.branch] * s.v[c.branch];
        else
            updateGap(c.gap, c.branch, s);
    }
}

void Contacts::markSilent(std::vector<char>& silent) const {
    for (const ContactPart& c : all)
        silent[c.branch] = c.gap.closed();
}

void Contacts::findCrossings(Crossings& first) const {
    for (const ContactPart& c : all)
        first.arc(c.gap, c.branch);
}

bool Contacts::applyEvents(Instant& now) {
    bool jumped = false;
    for (ContactPart& c : all)
        jumped = now.endArc(c.gap, c.branch) || jumped;
    return jumped;
}

void Contacts::carryOver(const Carry& c) {
    const ContactPart& was = c.from.of<Contacts>().all[c.was];
    Gap& gap = all[c.is].gap;
    if (gap.closed()) return;
    gap = was.gap;
    openGap(gap, c.then.i[was.branch], c.now_s);
}

void Contacts::read(const View&, std::uint32_t index, Reading& r) const {
    r.pulledIn = all[index].gap.closed();
}

} // namespace loom::circuit
