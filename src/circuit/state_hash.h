// SPDX-License-Identifier: MIT
// A hash of state, value by value and never of raw memory: FNV-1a over 64-bit words.
#pragma once

#include "circuit/network.h"

#include <cstdint>
#include <cstring>

namespace loom::circuit {

class StateHash {
public:
    void add(std::uint64_t word) {
        for (int k = 0; k < 8; ++k) {
            h ^= (word >> (8 * k)) & 0xFF;
            h *= 1099511628211ull;
        }
    }

    void add(double x) {
        std::uint64_t bits = 0;
        if (x != 0.0) std::memcpy(&bits, &x, sizeof bits); // both zeros alike
        add(bits);
    }

    std::uint64_t value() const { return h; }

private:
    std::uint64_t h = 14695981039346656037ull;
};

// What the models remember beside their states: contacts, armatures, what has melted.
inline void addModes(StateHash& hash, const Network& net) {
    const auto addGap = [&](const Gap& g) {
        hash.add(static_cast<std::uint64_t>(g.phase));
        hash.add(g.opened_s);
    };
    for (const ContactPart& c : net.contacts)
        addGap(c.gap);
    for (const FusePart& f : net.fuses)
        addGap(f.gap);
    for (const LampPart& l : net.lamps)
        addGap(l.gap);
    for (std::size_t k = 0; k < net.cables.size(); ++k) {
        addGap(net.cables.parted[k]);
        hash.add(static_cast<std::uint64_t>(net.cables.state[k]));
    }
    for (const Touch& t : net.touches) {
        hash.add(static_cast<std::uint64_t>(t.cable));
        hash.add(static_cast<std::uint64_t>(t.neighbour));
    }
    for (const RelayPart& r : net.relays) {
        hash.add(static_cast<std::uint64_t>(r.armature));
        hash.add(static_cast<std::uint64_t>(r.welded));
        hash.add(r.began_s);
    }
    for (const MotorPart& m : net.motors) {
        hash.add(static_cast<std::uint64_t>(m.turning + 1));
        hash.add(static_cast<std::uint64_t>(m.jammed));
    }
}

} // namespace loom::circuit
