// SPDX-License-Identifier: MIT
#include "yard/seat.h"

#include "bench/catalogue.h"
#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

Seat seatOf(const bench::Bench& bench, const bench::Cable& cable, int end) {
    const bench::CableEnd& from = cable.ends[static_cast<std::size_t>(end)];
    Seat seat;
    seat.kind = from.kind;
    seat.firmness = 0.0;
    const bench::Part* part = from.at ? bench::findPart(bench, from.at->part) : nullptr;
    const bench::PartSpec* spec = part ? &bench::spec(part->kind) : nullptr;
    if (!spec || from.at->terminal >= spec->terminals.size()) {
        seat.terminal_m = from.loose_m;
        return seat;
    }
    seat.joined = true;
    seat.terminal_m = bench::terminalAt(bench, *from.at);
    seat.leaves = leaveDirection(part->kind, from.at->terminal, part->quarterTurns);
    const bench::TerminalKind kind = spec->terminals[from.at->terminal].kind;
    const bool isStud = kind == bench::TerminalKind::StudM6 || kind == bench::TerminalKind::StudM8;
    seat.firmness = isStud ? 0.62 : 1.0;
    seat.sharing = 0;
    for (const bench::Cable& other : bench.cables)
        for (int e = 0; e < 2; ++e) {
            if (other.ends[static_cast<std::size_t>(e)].at != from.at) continue;
            if (other.id == cable.id && e == end) seat.order = seat.sharing;
            ++seat.sharing;
        }
    return seat;
}

} // namespace

double sleeveWidth_m(double area_m2) {
    const double area_mm2 = std::min(std::max(area_m2 * 1e6, 0.2), 120.0);
    return 5.75e-3 * std::pow(area_mm2, 0.316);
}

bench::Point leaveDirection(bench::PartKind kind, int terminal, int quarterTurns) {
    const bench::PartSpec& spec = bench::spec(kind);
    if (terminal < 0 || terminal >= static_cast<int>(spec.terminals.size())) return {0.0, 1.0};
    const bench::TerminalSpec& t = spec.terminals[static_cast<std::size_t>(terminal)];
    const double toSide_m = spec.width_m / 2 - std::fabs(t.x_m);
    const double toEnd_m = spec.height_m / 2 - std::fabs(t.y_m);
    bench::Point way = toSide_m < toEnd_m ? bench::Point{t.x_m < 0 ? -1.0 : 1.0, 0.0}
                                          : bench::Point{0.0, t.y_m < 0 ? -1.0 : 1.0};
    for (int turn = quarterTurns & 3; turn > 0; --turn)
        way = turned(way);
    return way;
}

Span spanOf(const bench::Bench& bench, const bench::Cable& cable) {
    Span span;
    span.ends[0] = seatOf(bench, cable, 0);
    span.ends[1] = seatOf(bench, cable, 1);
    span.length_m = cable.length_m;
    span.width_m = sleeveWidth_m(cable.area_m2);
    span.seed = cable.id.number;
    return span;
}

bench::Point seatedAt_m(const Seat& seat) {
    if (!seat.joined) return seat.terminal_m;
    double aside_m = 0.0, out_m = 0.0;
    switch (seat.kind) {
    case bench::EndKind::Bare:
    case bench::EndKind::Ferrule:
        aside_m = 0.0072 * (seat.order - 0.5 * (seat.sharing - 1));
        break;
    case bench::EndKind::Spade:
    case bench::EndKind::Piggyback:
        aside_m = kSpareTab_m * seat.order;
        out_m = 0.003 * seat.order;
        break;
    default:
        break;
    }
    return seat.terminal_m + aside_m * turned(seat.leaves) + out_m * seat.leaves;
}

double sleeveStart_m(const Seat& seat, double width_m) {
    switch (seat.kind) {
    case bench::EndKind::RingM6:
    case bench::EndKind::RingM8:
        return kRingSleeve_m;
    case bench::EndKind::Spade:
    case bench::EndKind::Piggyback:
        return kBootEnd_m - 0.003;
    case bench::EndKind::Ferrule:
        return (seat.joined ? 0.0 : kFerrulePin_m) + kFerruleCollar_m - 0.002;
    case bench::EndKind::Bare:
        return seat.joined ? -0.2 * width_m : kBareCopper_m - 0.001;
    }
    return 0.0;
}

} // namespace loom::yard
