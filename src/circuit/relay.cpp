// SPDX-License-Identifier: MIT
#include "circuit/relay.h"

#include "circuit/models.h"

namespace loom::circuit {

namespace {

// Error allowed in a step, of the current, as a share of the pull-in current.
constexpr double kAbsolute = 1e-5;

// When the present phase ends by itself; a very large time when it does not.
double phaseEnds_s(const RelayPart& r) {
    switch (r.armature) {
    case Armature::Leaving:
        return r.began_s + kBreakAfter_s;
    case Armature::Crossing:
        return r.began_s + kMakeAfter_s;
    case Armature::Touching:
        return r.began_s + kBounceAfter_s;
    case Armature::Bouncing:
        return r.began_s + kBounceEnds_s;
    case Armature::Letting:
        return r.began_s + kReleaseAfter_s;
    case Armature::Returning:
        return r.began_s + kRestAfter_s;
    case Armature::Rest:
    case Armature::In:
        break;
    }
    return 1e300;
}

double weldPower_W(const RelayPart& r, const ContactPart& no, double i) {
    const bool touchesBadly = r.armature == Armature::Touching || r.armature == Armature::Bouncing;
    if (no.gap.phase == GapPhase::Arcing || (touchesBadly && no.gap.closed()))
        return kArcFootForWeld_V * std::fabs(i);
    const double drop_V = std::fabs(i) * no.resistance_ohm;
    return no.gap.closed() && drop_V > kMelting_V ? drop_V * std::fabs(i) : 0.0;
}

void reportKick(RelayPart& r, Instant& now) {
    const CoilPart& coil = now.models.of<Coils>().all[r.coil];
    const double v = now.at.v[coil.branch], height = std::fabs(v);
    const bool against = v * now.y[coil.current] < 0.0 && height > r.kickThreshold_V;
    if (against) {
        if (!r.kicking) r.kick_V = 0.0;
        r.kicking = true;
        if (height > r.kick_V) r.kick_V = height;
    } else if (r.kicking) {
        r.kicking = false;
        now.add(EventKind::CoilKicked, r.key, r.kick_V);
    }
}

class ArmatureMoves {
public:
    ArmatureMoves(RelayPart& relay, Instant& instant)
        : r(relay), now(instant), no(instant.models.of<Contacts>().all[relay.normallyOpen]),
          nc(instant.models.of<Contacts>().all[relay.normallyClosed]) {}

    bool all() {
        const CoilPart& coil = now.models.of<Coils>().all[r.coil];
        const double i = std::fabs(now.y[coil.current]);
        coil_V = now.at.v[coil.branch];
        if (weld() || r.welded) return changed;
        if (!r.pulled() && i >= r.pullIn_A) pull();
        if (r.pulled() && i <= r.dropOut_A) letGo();
        while (now.time_s >= phaseEnds_s(r))
            arrive();
        return changed;
    }

private:
    bool weld() {
        if (r.welded || !no.gap.closed()) return false;
        if (now.y[r.weldEnergy] < kWeld_J_per_A * r.rating_A) return false;
        r.welded = true;
        r.armature = Armature::In;
        set(nc, false);
        now.add(EventKind::ContactWelded, r.key, now.at.i[no.branch]);
        return true;
    }

    void begin(Armature phase, double since_s) {
        r.armature = phase;
        r.began_s = since_s;
    }

    void pull() {
        if (r.armature == Armature::Letting)
            begin(Armature::In, now.time_s);
        else if (r.armature == Armature::Returning)
            begin(Armature::Crossing, now.time_s - kBreakAfter_s);
        else
            begin(Armature::Leaving, now.time_s);
    }

    void letGo() {
        if (r.armature == Armature::Leaving)
            begin(Armature::Rest, now.time_s);
        else if (r.armature == Armature::Crossing || r.armature == Armature::Bouncing)
            begin(Armature::Returning, now.time_s - kReleaseAfter_s);
        else
            begin(Armature::Letting, now.time_s);
    }

    void arrive() {
        switch (r.armature) {
        case Armature::Leaving:
            r.armature = Armature::Crossing;
            set(nc, false);
            break;
        case Armature::Crossing:
            r.armature = Armature::Touching;
            set(no, true);
            now.add(EventKind::PulledIn, r.key, coil_V);
            break;
        case Armature::Touching:
            r.armature = Armature::Bouncing;
            set(no, false);
            break;
        case Armature::Bouncing:
            r.armature = Armature::In;
            set(no, true);
            break;
        case Armature::Letting:
            r.armature = Armature::Returning;
            set(no, false);
            break;
        case Armature::Returning:
            r.armature = Armature::Rest;
            set(nc, true);
            now.add(EventKind::DroppedOut, r.key, coil_V);
            break;
        case Armature::Rest:
        case Armature::In:
            break;
        }
    }

    void set(ContactPart& c, bool closed) {
        changed = c.move(closed, now.at.i[c.branch], now.time_s) || changed;
    }

    RelayPart& r;
    Instant& now;
    ContactPart &no, &nc;
    double coil_V = 0.0;
    bool changed = false;
};

} // namespace

bool Relays::valid(const Relay& spec) {
    return within(spec.coil_ohm, 1e-3, kGreatest_ohm) && within(spec.coil_H, 1e-9, 1e6) &&
           within(spec.pullIn_V, 1e-9, kGreatest_V) && within(spec.dropOut_V, 0.0, spec.pullIn_V) &&
           validOhms(spec.contact_ohm) && within(spec.contactRating_A, 1e-6, kGreatest_A);
}

Entry Relays::add(const Relay& spec, Key key, Builder& b) {
    RelayPart r;
    r.key = key;
    r.pullIn_A = spec.pullIn_V / spec.coil_ohm;
    Coils& coils = b.models.of<Coils>();
    r.coil = coils.addWarming(spec, kAbsolute * r.pullIn_A, b);
    const auto contact = [&](Node moving, bool closed) {
        const Contact made{spec.common, moving, closed, spec.contact_ohm};
        return b.models.of<Contacts>().add(made, key, b).index;
    };
    r.normallyOpen = contact(spec.normallyOpen, spec.welded);
    // A welded armature stays over at the normally-open side: the other contact cannot make.
    r.normallyClosed = contact(spec.normallyClosed, !spec.welded);
    r.weldEnergy = b.states.add(0.0, 1e-4, 1e-4);
    r.dropOut_A = spec.dropOut_V / spec.coil_ohm;
    r.rating_A = spec.contactRating_A;
    r.kickThreshold_V = 2.0 * spec.pullIn_V;
    r.welded = spec.welded;
    if (spec.welded) r.armature = Armature::In;
    all.push_back(r);
    return {lastIndex(all), coils.all[r.coil].branch};
}

void Relays::updateTemperatures(Stage& s, const Models& models) {
    constexpr double kForgets_s = 0.01;
    for (const RelayPart& r : all) {
        const ContactPart& no = models.of<Contacts>().all[r.normallyOpen];
        const double power = weldPower_W(r, no, s.i[no.branch]);
        const double rate = power > 0.0 ? 0.0 : 1.0 / kForgets_s;
        const double e = (s.base[r.weldEnergy] + s.a_s * power) / (1.0 + s.a_s * rate);
        s.y[r.weldEnergy] = e;
        s.f[r.weldEnergy] = power - rate * e;
    }
}

void Relays::findCrossings(Crossings& first) const {
    const Step& s = first.step;
    for (const RelayPart& r : all) {
        if (r.welded) continue;
        const std::uint32_t coil = first.models.of<Coils>().all[r.coil].current;
        if (!r.pulled())
            first.look([&](double th) { return std::fabs(s.state(coil, th)) - r.pullIn_A; });
        else
            first.look([&](double th) { return r.dropOut_A - std::fabs(s.state(coil, th)); });
        if (first.models.of<Contacts>().all[r.normallyOpen].gap.closed())
            first.rise(r.weldEnergy, kWeld_J_per_A * r.rating_A);
    }
}

bool Relays::applyEvents(Instant& now) {
    bool jumped = false;
    for (RelayPart& r : all) {
        reportKick(r, now);
        jumped = ArmatureMoves(r, now).all() || jumped;
    }
    return jumped;
}

double Relays::nextTimed_s() const {
    double next = 1e300;
    for (const RelayPart& r : all) {
        const double t = phaseEnds_s(r);
        if (t < next) next = t;
    }
    return next;
}

void Relays::carryOver(const Carry& c) {
    const RelayPart& was = c.from.of<Relays>().all[c.was];
    RelayPart& r = all[c.is];
    c.copy(c.from.of<Coils>().all[was.coil].current, c.to.of<Coils>().all[r.coil].current, 2);
    c.copy(was.weldEnergy, r.weldEnergy);
    r.kicking = was.kicking;
    r.kick_V = was.kick_V;
    if (r.welded && !was.welded) return; // put on welded: its contacts are set as made
    r.armature = was.armature;
    r.began_s = was.began_s;
    r.welded = was.welded;
    const std::vector<ContactPart>& older = c.from.of<Contacts>().all;
    std::vector<ContactPart>& newer = c.to.of<Contacts>().all;
    newer[r.normallyOpen].gap = older[was.normallyOpen].gap;
    newer[r.normallyClosed].gap = older[was.normallyClosed].gap;
}

void Relays::addTo(Hash& hash) const {
    for (const RelayPart& r : all) {
        hash.add(static_cast<std::uint64_t>(r.armature));
        hash.add(static_cast<std::uint64_t>(r.welded));
        hash.add(r.began_s);
    }
}

void Relays::read(const View& view, std::uint32_t index, Reading& r) const {
    const RelayPart& relay = all[index];
    const std::vector<ContactPart>& contacts = view.models.of<Contacts>().all;
    r.temp_K = view.y[view.models.of<Coils>().all[relay.coil].temperature];
    r.contactNO_A = view.i[contacts[relay.normallyOpen].branch];
    r.contactNC_A = view.i[contacts[relay.normallyClosed].branch];
    r.pulledIn = relay.in();
}

} // namespace loom::circuit
