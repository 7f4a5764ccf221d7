// SPDX-License-Identifier: MIT
// A bench on which every end is made by hand, and steps of making one in short.
#pragma once

#include "bench/ends.h"
#include "sample_benches.h"

#include <algorithm>

namespace loom::bench {

// B1, X1, Q1, K1 and S4 laid, nothing wired.
inline Bench handsOn() {
    Bench bench = trayOnly();
    bench.kit.handmade = {"*"};
    bench = laid(bench, "B1", 0.2, 0.2);
    bench = laid(bench, "X1", 0.8, 0.8);
    bench = laid(bench, "Q1", 0.5, 0.2);
    bench = laid(bench, "K1", 0.8, 0.2);
    return laid(bench, "S4", 0.2, 0.8);
}

// The bench with one cable between two terminals, nothing done to its ends; screws are opened.
inline Bench cut(Bench bench, TerminalRef from, TerminalRef to, const char* label = "W-1") {
    for (const TerminalRef at : {from, to})
        if (torqueFor(bench, at).right_Nm > 0.0) bench = done(bench, TurnScrew{at, 0.0});
    MakeCable make;
    make.from = from;
    make.to = to;
    make.label = label;
    return done(bench, make);
}

inline const Cable& cable(const Bench& bench, const char* label = "W-1") {
    const auto found = std::find_if(
        bench.cables.begin(), bench.cables.end(), [&](const Cable& c) { return c.label == label; });
    REQUIRE(found != bench.cables.end());
    return *found;
}

// One end made in these steps, its screw tightened with this (0: none).
struct Making {
    double strip_m = 0.01, pushed_m = 0.01;
    bool twist = true, press = true;
    double torque_Nm = 0.5;
};

inline Bench made(Bench bench, int end, const Making& making, const char* label = "W-1") {
    const CableId id = cable(bench, label).id;
    bench = done(bench, StripEnd{id, end, making.strip_m});
    if (making.twist && making.strip_m > 0.0) bench = done(bench, TwistEnd{id, end});
    const CableEnd now = cable(bench, label).ends[end];
    if (making.press && now.kind != EndKind::Bare && making.strip_m > 0.0)
        bench = done(bench, PressEnd{id, end, now.kind});
    const bool stud = now.kind == EndKind::RingM6 || now.kind == EndKind::RingM8;
    if (!stud) bench = done(bench, PushEnd{id, end, making.pushed_m});
    if (making.torque_Nm > 0.0) bench = done(bench, TurnScrew{*now.at, making.torque_Nm});
    return bench;
}

inline bool has(const EndState& state, EndFault fault) {
    return std::find(state.faults.begin(), state.faults.end(), fault) != state.faults.end();
}

} // namespace loom::bench
