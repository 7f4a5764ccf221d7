// SPDX-License-Identifier: MIT
#include "yard/yard.h"

#include "yard/findings.h"
#include "yard/rope.h"
#include "yard/slide.h"
#include "yard/spread.h"
#include "yard/vec.h"

#include <algorithm>
#include <box2d/box2d.h>
#include <optional>

namespace loom::yard {

namespace {

// Eight steps in a frame of 1/60 s, each of few iterations: more steps hold a chain better than
// more iterations do.
constexpr double kStep_s = 1.0 / 480.0, kLongestCall_s = 0.1, kSettles_s = 3.0;
constexpr int kVelocityIterations = 2, kPositionIterations = 4, kHurriedIterations = 12;
constexpr double kHurry_m = 0.03; // a hand that far ahead of what it pulls
constexpr double kTiedWithin_m = 0.008;

bool sameSeat(const Seat& a, const Seat& b) {
    return a.kind == b.kind && a.joined == b.joined && a.firmness == b.firmness &&
           a.order == b.order && a.sharing == b.sharing &&
           apart_m(a.terminal_m, b.terminal_m) == 0.0 && apart_m(a.leaves, b.leaves) == 0.0;
}

bool isJoined(const Span& span) {
    return span.ends[0].joined && span.ends[1].joined;
}

} // namespace

struct Yard::Inside {
    // Two ropes tied together.
    struct Knot {
        std::uint32_t id = 0; // of the tie
        bench::CableId a, b;
        double alongA = 0.5, alongB = 0.5;
    };

    struct Grip {
        bench::CableId cable;
        Hold hold;
    };

    b2World world{b2Vec2(0.0f, 0.0f)};
    std::vector<Rope> ropes; // as in the bench
    std::vector<Knot> knots;
    std::vector<bench::Tie> ties;
    std::optional<Grip> grip;
    Findings findings;
    InHand inHand;
    double owed_s = 0.0;
    std::uint64_t revision = 1;
    bool looked = false;

    explicit Inside(const bench::Bench& bench) : findings(bench) {
        world.SetAllowSleeping(false); // the yard itself says who sleeps
        world.SetContinuousPhysics(false);
    }

    Rope* find(bench::CableId id) {
        const auto found = std::find_if(
            ropes.begin(), ropes.end(), [&](const Rope& rope) { return rope.id == id; });
        return found == ropes.end() ? nullptr : &*found;
    }

    void takeUp(const bench::Bench& bench);
    void lay(const bench::Bench& bench, const std::vector<std::size_t>& fresh);
    void tidy(const bench::Bench& bench, const std::vector<std::size_t>& joined);
    void takeUpTies(const bench::Bench& bench);
    std::vector<Hold> holdsOf(bench::CableId cable) const;
    void wakeTied();
    void buildChains();
    void tieChains(const std::vector<bench::CableId>& built);
    void stepOnce();
    void letSleep();
    bool moves() const;
};

void Yard::Inside::takeUp(const bench::Bench& bench) {
    std::vector<Rope> before = std::move(ropes);
    ropes.clear();
    ropes.reserve(bench.cables.size());
    std::vector<std::size_t> fresh, joined;
    std::size_t hint = 0;
    for (const bench::Cable& cable : bench.cables) {
        // The same order as before, as a rule: look on from the last one found.
        std::size_t k = 0;
        while (k < before.size() && !(before[(hint + k) % before.size()].id == cable.id))
            ++k;
        const Span span = spanOf(bench, cable);
        if (k == before.size()) {
            fresh.push_back(ropes.size());
            ropes.emplace_back();
            ropes.back().id = cable.id;
            ropes.back().span = span;
            continue;
        }
        hint = (hint + k) % before.size();
        ropes.push_back(std::move(before[hint]));
        before[hint].id = {};
        Rope& rope = ropes.back();
        rope.feel.board_m = bench.board_m;
        const bool stays = sameSeat(rope.span.ends[0], span.ends[0]) &&
                           sameSeat(rope.span.ends[1], span.ends[1]) &&
                           rope.span.length_m == span.length_m;
        if (stays) continue;
        const bool hung = !isJoined(rope.span);
        seatRope(rope, span);
        if (hung && isJoined(span)) joined.push_back(ropes.size() - 1);
        ++revision;
    }
    if (!fresh.empty() || ropes.size() != before.size()) ++revision;
    lay(bench, fresh);
    tidy(bench, joined);
}

void Yard::Inside::lay(const bench::Bench& bench, const std::vector<std::size_t>& fresh) {
    if (fresh.empty()) return;
    Board board(bench);
    for (const Rope& rope : ropes)
        board.add(rope.strand.points_m); // none yet of a fresh one
    // The second time round each minds those laid after it as well.
    const int rounds = fresh.size() > 1 ? 2 : 1;
    for (int round = 0; round < rounds; ++round)
        for (const std::size_t i : fresh) {
            const bench::Cable& cable = bench.cables[i];
            const Span span = ropes[i].span;
            ropes[i] = layRope(cable.id, span, board.clearest(span, i), cable.area_m2);
            ropes[i].feel.board_m = bench.board_m;
            board.change(i, ropes[i].strand.points_m);
        }
}

// Those whose last end was joined just now, unless something holds them where they are.
void Yard::Inside::tidy(const bench::Bench& bench, const std::vector<std::size_t>& joined) {
    for (const std::size_t i : joined) {
        Rope& rope = ropes[i];
        if (!rope.holds.empty() || rope.isTied || inHand.cable == rope.id) continue;
        Board board(bench);
        for (const Rope& other : ropes)
            board.add(other.strand.points_m);
        const CableLine laid = board.clearest(rope.span, i);
        startSlide(rope, layRope(rope.id, rope.span, laid, bench.cables[i].area_m2));
    }
}

void Yard::Inside::takeUpTies(const bench::Bench& bench) {
    ties = bench.ties;
    const std::vector<Knot> before = std::move(knots);
    knots.clear();
    for (Rope& rope : ropes)
        rope.isTied = false;
    for (const bench::Tie& tie : ties) {
        Rope *a = find(tie.cable), *b = find(tie.other);
        if (!a || !b || a == b) continue;
        a->isTied = b->isTied = true;
        knots.push_back({tie.id, tie.cable, tie.other, tie.along, tie.otherAlong});
        const bool isNew = std::none_of(
            before.begin(), before.end(), [&](const Knot& knot) { return knot.id == tie.id; });
        if (!isNew) continue;
        a->chain.reset(); // to be built anew with the knot
        wakeRope(*a);
        wakeRope(*b);
    }
    for (Rope& rope : ropes) {
        const std::vector<Hold> holds = holdsOf(rope.id);
        const bool same =
            holds.size() == rope.holds.size() &&
            std::equal(
                holds.begin(), holds.end(), rope.holds.begin(), [](const Hold& a, const Hold& b) {
                    return a.along == b.along && apart_m(a.at_m, b.at_m) == 0.0;
                });
        if (!same) holdRope(rope, holds);
    }
}

std::vector<Hold> Yard::Inside::holdsOf(bench::CableId cable) const {
    std::vector<Hold> holds;
    if (grip && grip->cable == cable) holds.push_back(grip->hold);
    for (const bench::Tie& tie : ties)
        if (tie.cable == cable && !tie.other) holds.push_back({tie.along, tie.at_m});
    return holds;
}

// Ropes that are tied together move together.
void Yard::Inside::wakeTied() {
    for (bool more = !knots.empty(); more;) {
        more = false;
        for (const Knot& knot : knots) {
            Rope *a = find(knot.a), *b = find(knot.b);
            if (a->awake == b->awake) continue;
            wakeRope(a->awake ? *b : *a);
            more = true;
        }
    }
}

void Yard::Inside::buildChains() {
    wakeTied();
    // A chain that is built anew loses its knots, so those tied to it are built anew as well.
    for (bool more = !knots.empty(); more;) {
        more = false;
        for (const Knot& knot : knots) {
            Rope *a = find(knot.a), *b = find(knot.b);
            if (!a->awake || a->chain.has_value() == b->chain.has_value()) continue;
            a->chain.reset();
            b->chain.reset();
            more = true;
        }
    }
    std::vector<bench::CableId> built;
    for (Rope& rope : ropes) {
        if (!rope.awake || rope.chain || isSliding(rope)) continue;
        rope.chain.emplace(world, rope.strand, rope.pins, rope.feel);
        built.push_back(rope.id);
    }
    if (!built.empty()) tieChains(built);
}

void Yard::Inside::tieChains(const std::vector<bench::CableId>& built) {
    for (const Knot& knot : knots) {
        if (std::find(built.begin(), built.end(), knot.a) == built.end()) continue;
        const Rope *a = find(knot.a), *b = find(knot.b);
        b2DistanceJointDef def;
        def.bodyA = a->chain->body(pointAt(*a, knot.alongA));
        def.bodyB = b->chain->body(pointAt(*b, knot.alongB));
        def.minLength = 0.0f;
        def.maxLength = static_cast<float>(kUnits_per_m * kTiedWithin_m);
        world.CreateJoint(&def);
    }
}

void Yard::Inside::stepOnce() {
    bool hurries = false;
    for (Rope& rope : ropes) {
        if (!rope.awake || isSliding(rope)) continue;
        applyToBodies(rope, kStep_s);
        hurries = hurries || lag_m(rope) > kHurry_m;
    }
    world.Step(static_cast<float>(kStep_s),
               kVelocityIterations,
               hurries ? kHurriedIterations : kPositionIterations);
    for (Rope& rope : ropes) {
        if (!rope.awake) continue;
        isSliding(rope) ? goOnSliding(rope, kStep_s) : readFromBodies(rope, kStep_s);
    }
}

void Yard::Inside::letSleep() {
    const auto restless = [&](const Rope& rope) {
        return rope.awake && (isSliding(rope) || !isStill(rope));
    };
    for (Rope& rope : ropes) {
        if (!rope.awake || restless(rope)) continue;
        bool tiedToRestless = false;
        for (const Knot& knot : knots)
            tiedToRestless = tiedToRestless || (knot.a == rope.id && restless(*find(knot.b))) ||
                             (knot.b == rope.id && restless(*find(knot.a)));
        if (!tiedToRestless) sleepRope(rope);
    }
}

bool Yard::Inside::moves() const {
    return std::any_of(ropes.begin(), ropes.end(), [](const Rope& rope) { return rope.awake; });
}

Yard::Yard(const bench::Bench& bench) : in(new Inside(bench)) {
    follow(bench);
    if (in->moves()) settle(); // what is tied
}

Yard::~Yard() {
    if (in) in->ropes.clear(); // chains go before the world
}

Yard::Yard(Yard&&) noexcept = default;

Yard& Yard::operator=(Yard&& other) noexcept {
    std::swap(in, other.in);
    return *this;
}

void Yard::follow(const bench::Bench& bench, const InHand& inHand) {
    in->inHand = inHand;
    in->takeUp(bench);
    in->takeUpTies(bench);
    if (in->grip && !in->find(in->grip->cable)) in->grip.reset();
    in->findings.follow(bench);
    in->looked = false;
}

void Yard::step(double seconds) {
    if (in->moves() && seconds > 0.0) {
        in->owed_s += std::min(seconds, kLongestCall_s);
        while (in->owed_s >= kStep_s && in->moves()) {
            in->owed_s -= kStep_s;
            in->buildChains();
            in->stepOnce();
            in->letSleep();
            in->looked = false;
        }
        ++in->revision;
    }
    if (!in->moves()) in->owed_s = 0.0;
    if (in->looked) return;
    in->looked = true;
    in->findings.look(in->ropes, in->grip ? InHand{in->inHand.part, in->grip->cable} : in->inHand);
}

bool Yard::asleep() const {
    return !in->moves() && in->looked;
}

void Yard::settle() {
    for (double left_s = kSettles_s; left_s > 0.0; left_s -= kLongestCall_s) {
        step(kLongestCall_s);
        if (asleep()) return;
    }
    for (Rope& rope : in->ropes)
        sleepRope(rope);
    step(kStep_s);
}

const std::vector<bench::Point>* Yard::strand(bench::CableId cable) const {
    const Rope* rope = in->find(cable);
    return rope ? &rope->strand.points_m : nullptr;
}

const std::vector<double>* Yard::links(bench::CableId cable) const {
    const Rope* rope = in->find(cable);
    return rope ? &rope->strand.links_m : nullptr;
}

std::uint64_t Yard::revision() const {
    return in->revision;
}

void Yard::grip(bench::CableId cable, Point at_m) {
    release();
    Rope* rope = in->find(cable);
    if (!rope || !isFinite(at_m)) return;
    const double along = alongOf(*rope, at_m);
    in->grip = Inside::Grip{cable, {along, rope->strand.points_m[pointAt(*rope, along)]}};
    holdRope(*rope, in->holdsOf(cable));
}

void Yard::pull(Point to_m) {
    Rope* rope = in->grip ? in->find(in->grip->cable) : nullptr;
    if (!rope || !isFinite(to_m)) return;
    in->grip->hold.at_m = withinReach(*rope, in->grip->hold.along, to_m);
    holdRope(*rope, in->holdsOf(rope->id));
}

void Yard::release() {
    if (!in->grip) return;
    Rope* rope = in->find(in->grip->cable);
    in->grip.reset();
    if (!rope) return;
    holdRope(*rope, in->holdsOf(rope->id));
    wakeRope(*rope);
}

std::vector<Finding> Yard::takeFindings() {
    return in->findings.take();
}

} // namespace loom::yard
