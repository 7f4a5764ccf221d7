// SPDX-License-Identifier: MIT
// The moving cable. Each point is a body of unit mass that does not turn, each link a distance
// joint of fixed length. From each point to the one after next goes a joint that wants to be two
// links long (the spring of the cable) and may not get shorter than its least bend allows. Held
// points are static bodies put where they go, so a pull reaches the chain only through the
// correction of positions, which adds no energy: no speed of the hand makes it explode.
// Ten times a link's mass at the end does explode at one step a frame; hence the short steps.
#include "yard/strand.h"
#include "yard/vec.h"

#include <algorithm>
#include <box2d/box2d.h>

namespace loom::yard {

namespace {

constexpr double kGreatestSpeed_m_s = 8.0; // of a point
constexpr double kOpens_per_s = 2.0;
constexpr float kLip_per_s = 12.0f;
constexpr double kTorn = 1.25, kTautened = 1.1; // of a link's length
constexpr int kTautenPasses = 16;

b2Vec2 inUnits(Point p) {
    return {static_cast<float>(p.x_m * kUnits_per_m), static_cast<float>(p.y_m * kUnits_per_m)};
}

Point inMetres(b2Vec2 v) {
    return {v.x / kUnits_per_m, v.y / kUnits_per_m};
}

float inUnits(double length_m) {
    return static_cast<float>(length_m * kUnits_per_m);
}

// The distance between the ends of two links of length a and b on a circle of radius r.
//   each link is a chord: half angle asin(a / 2r); the two turn by the sum of both
//   distance^2 = a^2 + b^2 + 2 a b cos(turn)
double bentSpan_m(double a, double b, double r_m) {
    const double sa = std::min(0.94, a / (2.0 * r_m)), sb = std::min(0.94, b / (2.0 * r_m));
    const double ca = std::sqrt(1.0 - sa * sa), cb = std::sqrt(1.0 - sb * sb);
    const double cosTurn = ca * cb - sa * sb;
    return std::sqrt(std::max(0.0, a * a + b * b + 2.0 * a * b * cosTurn));
}

bool isTorn(const Strand& strand) {
    for (std::size_t i = 0; i < strand.links_m.size(); ++i)
        if (apart_m(strand.points_m[i], strand.points_m[i + 1]) > kTorn * strand.links_m[i])
            return true;
    return false;
}

// Follow the leader, from one end to the other and back: what iterations did not reach when the
// hand was faster than they are.
void tauten(Strand& strand, const std::vector<bool>& held) {
    const auto follow = [&](std::size_t leader, std::size_t i, double link_m) {
        const Point way = strand.points_m[i] - strand.points_m[leader];
        if (!held[i] && norm(way) > kTautened * link_m)
            strand.points_m[i] = strand.points_m[leader] + (kTautened * link_m / norm(way)) * way;
    };
    const std::size_t links = strand.links_m.size();
    for (std::size_t i = 0; i < links; ++i)
        follow(i, i + 1, strand.links_m[i]);
    for (std::size_t i = links; i > 0; --i)
        follow(i, i - 1, strand.links_m[i - 1]);
}

} // namespace

struct Chain::Inside {
    b2World& world;
    std::vector<b2Body*> bodies;
    std::vector<b2DistanceJoint*> links, bends; // null between two held points
    std::vector<double> ease;                   // share of the least bend that is asked for

    b2DistanceJoint* join(std::size_t a, std::size_t b) {
        if (bodies[a]->GetType() == b2_staticBody && bodies[b]->GetType() == b2_staticBody)
            return nullptr;
        b2DistanceJointDef def;
        def.bodyA = bodies[a];
        def.bodyB = bodies[b];
        return static_cast<b2DistanceJoint*>(world.CreateJoint(&def));
    }

    void fitLink(std::size_t i, double length_m) {
        const float length = inUnits(length_m);
        links[i]->SetMaxLength(std::max(length, links[i]->GetMinLength()));
        links[i]->SetMinLength(length);
        links[i]->SetMaxLength(length);
        links[i]->SetLength(length);
    }

    void fitBend(std::size_t i, double a_m, double b_m, double leastBend_m) {
        if (!bends[i]) return;
        bends[i]->SetLength(inUnits(a_m + b_m));
        bends[i]->SetMaxLength(inUnits(2.0 * (a_m + b_m))); // the links see to that
        bends[i]->SetMinLength(inUnits(ease[i] * bentSpan_m(a_m, b_m, leastBend_m)));
    }
};

Chain::Chain(b2World& world, const Strand& strand, const std::vector<Pin>& pins, const Feel& feel)
    : in(new Inside{world, {}, {}, {}, {}}) {
    const std::size_t count = strand.points_m.size();
    const b2MassData unitMass{1.0f, {0.0f, 0.0f}, 0.0f};
    std::vector<bool> held(count, false);
    for (const Pin& pin : pins)
        held[pin.point] = true;
    for (std::size_t i = 0; i < count; ++i) {
        b2BodyDef def;
        def.type = held[i] ? b2_staticBody : b2_dynamicBody;
        def.position = inUnits(strand.points_m[i]);
        def.fixedRotation = true;
        in->bodies.push_back(world.CreateBody(&def));
        if (!held[i]) in->bodies.back()->SetMassData(&unitMass);
    }
    for (std::size_t i = 0; i + 1 < count; ++i) {
        in->links.push_back(in->join(i, i + 1));
        if (in->links[i]) in->fitLink(i, strand.links_m[i]);
    }
    for (std::size_t i = 0; i + 2 < count; ++i) {
        const double a = strand.links_m[i], b = strand.links_m[i + 1];
        // What is bent more tightly already may stay so: clamps close together leave no choice.
        const double now = apart_m(strand.points_m[i], strand.points_m[i + 2]);
        in->ease.push_back(std::min(1.0, 0.98 * now / bentSpan_m(a, b, feel.leastBend_m)));
        in->bends.push_back(in->join(i, i + 2));
        if (!in->bends[i]) continue;
        in->bends[i]->SetStiffness(static_cast<float>(feel.spring_per_s2));
        in->bends[i]->SetDamping(static_cast<float>(0.3 * std::sqrt(feel.spring_per_s2)));
        in->fitBend(i, a, b, feel.leastBend_m);
    }
}

Chain::~Chain() {
    if (!in) return;
    for (b2Body* body : in->bodies)
        in->world.DestroyBody(body); // with its joints
}

Chain::Chain(Chain&&) noexcept = default;

Chain& Chain::operator=(Chain&& other) noexcept {
    std::swap(in, other.in);
    return *this;
}

void Chain::lend(const Strand& strand,
                 const std::vector<Pin>& pins,
                 const Feel& feel,
                 double step_s) {
    for (const Pin& pin : pins)
        in->bodies[pin.point]->SetTransform(inUnits(pin.at_m), 0.0f);
    for (std::size_t i = 0; i < in->links.size(); ++i) {
        if (!in->links[i] || in->links[i]->GetLength() == inUnits(strand.links_m[i])) continue;
        in->fitLink(i, strand.links_m[i]);
        if (i > 0) in->fitBend(i - 1, strand.links_m[i - 1], strand.links_m[i], feel.leastBend_m);
        if (i + 1 < in->links.size())
            in->fitBend(i, strand.links_m[i], strand.links_m[i + 1], feel.leastBend_m);
    }
    // A bend that was too tight at first opens, if there is room for it.
    for (std::size_t i = 0; i < in->bends.size(); ++i) {
        if (in->ease[i] >= 1.0) continue;
        in->ease[i] = std::min(1.0, in->ease[i] + kOpens_per_s * step_s);
        in->fitBend(i, strand.links_m[i], strand.links_m[i + 1], feel.leastBend_m);
    }
    const float lean = inUnits(feel.lean_m_s2 * step_s);
    const float friction = inUnits(feel.friction_m_s2 * step_s);
    const float keep = static_cast<float>(std::max(0.0, 1.0 - feel.drag_per_s * step_s));
    const float most = inUnits(kGreatestSpeed_m_s);
    for (b2Body* body : in->bodies) {
        if (body->GetType() != b2_dynamicBody) continue;
        b2Vec2 v = keep * body->GetLinearVelocity();
        v.y += lean;
        const float speed = v.Length();
        const float slowed = std::min(std::max(0.0f, speed - friction), most);
        v *= speed > 0.0f ? slowed / speed : 0.0f;
        const b2Vec2 at = body->GetPosition(), edge = inUnits(feel.board_m);
        // A lip round the board brings back what slides over its edge.
        v.x = std::min(std::max(v.x, -kLip_per_s * at.x), kLip_per_s * (edge.x - at.x));
        v.y = std::min(std::max(v.y, -kLip_per_s * at.y), kLip_per_s * (edge.y - at.y));
        body->SetLinearVelocity(v);
    }
}

void Chain::fetch(Strand& strand, double stick_m) const {
    std::vector<bool> held(in->bodies.size());
    for (std::size_t i = 0; i < in->bodies.size(); ++i) {
        b2Body* body = in->bodies[i];
        held[i] = body->GetType() == b2_staticBody;
        const Point now = inMetres(body->GetPosition());
        if (held[i] || apart_m(strand.points_m[i], now) > stick_m) {
            strand.points_m[i] = now;
            continue;
        }
        body->SetTransform(inUnits(strand.points_m[i]), 0.0f);
        body->SetLinearVelocity({0.0f, 0.0f});
    }
    const bool wasTorn = isTorn(strand);
    for (int pass = 0; pass < kTautenPasses && isTorn(strand); ++pass)
        tauten(strand, held);
    for (std::size_t i = 0; wasTorn && i < in->bodies.size(); ++i)
        if (!held[i]) in->bodies[i]->SetTransform(inUnits(strand.points_m[i]), 0.0f);
}

b2Body* Chain::body(std::size_t point) const {
    return in->bodies[point];
}

} // namespace loom::yard
