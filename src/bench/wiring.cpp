// SPDX-License-Identifier: MIT
// The electrical data of every kind of part, one function a kind. The figures are Pippin's, our
// own design; where another source is meant it stands beside the figure.
#include "bench/wiring.h"

#include "bench/catalogue.h"
#include "bench/wiring_cables.h"

#include <algorithm>
#include <iterator>

namespace loom::bench {
namespace {

// Cold drop of a blade fuse at its rating, over the ratings. Source: cold resistances of a maker's
// sheet (Littelfuse ATOF 287, quoted in public part libraries): 31.1 mohm at 3 A, 17.85 at 5 A,
// 7.70 at 10 A, 4.80 at 15 A, 3.38 at 20 A, 1.97 at 30 A, 1.44 at 40 A. Between: a straight line.
struct ColdDrop {
    double rating_A, drop_V;
};

constexpr ColdDrop kBladeDrops[] = {{3, 93.3e-3},
                                    {5, 89.3e-3},
                                    {10, 77.0e-3},
                                    {15, 72.0e-3},
                                    {20, 67.6e-3},
                                    {30, 59.1e-3},
                                    {40, 57.6e-3}};

double bladeDrop_V(double rating_A) {
    const ColdDrop* last = std::end(kBladeDrops) - 1;
    if (rating_A <= kBladeDrops[0].rating_A) return kBladeDrops[0].drop_V;
    if (rating_A >= last->rating_A) return last->drop_V;
    const ColdDrop* above = kBladeDrops;
    while (above->rating_A < rating_A)
        ++above;
    const ColdDrop* below = above - 1;
    const double share = (rating_A - below->rating_A) / (above->rating_A - below->rating_A);
    return below->drop_V + share * (above->drop_V - below->drop_V);
}

// A strip fuse's goes inversely with the rating; 1.1 mohm at 50 A as designed for Pippin.
constexpr double kStripDrop_V = 1.1e-3 * 50.0;

// A breaker's goes inversely with the rating too; from memory.
constexpr double kBreakerDrop_V = 0.1;

constexpr double kIsolator_ohm = 0.4e-3;
constexpr double kSmallSwitch_ohm =
    10e-3; // rocker, button, selector, toggle; common practice, no source
constexpr double kHorn_ohm = 24.0 / 2.5;     // 24 V, 2.5 A
constexpr double kLiveLamp_W = 24.0 * 20e-3; // 24 V, 20 mA

// A key is tag, number and element: tag 1 a part, 2 a cable, 3 what an end does to its neighbour,
// 4 the meter.
constexpr int kTagShift = 56, kNumberShift = 8;
constexpr circuit::Key kPartTag = 1, kCableTag = 2, kStrandTag = 3, kMeterTag = 4;

circuit::Key key(circuit::Key tag, std::uint32_t number, int element) {
    return tag << kTagShift | static_cast<circuit::Key>(number) << kNumberShift |
           static_cast<circuit::Key>(element & 0xff);
}

std::uint32_t numberOf(circuit::Key key) {
    return static_cast<std::uint32_t>(key >> kNumberShift);
}

// Writes one part's elements. Terminals are given by their index in the catalogue.
class PartWriter {
public:
    PartWriter(const Part& subject,
               const std::vector<circuit::Node>& nodesOfTerminals,
               circuit::Netlist& target)
        : part(subject), nodes(nodesOfTerminals), netlist(target) {}

    void write() {
        switch (part.kind) {
        case PartKind::Battery:
            return battery();
        case PartKind::Isolator:
            return contact(0, 0, 1, isAt(2), kIsolator_ohm);
        case PartKind::StripFuse:
            return fuse(circuit::FuseStyle::Strip, kStripDrop_V, broken());
        case PartKind::BladeHolder:
            return fuse(circuit::FuseStyle::Blade, bladeDrop_V(part.rating), broken());
        case PartKind::Block:
            return; // metal only: its nodes are all there is
        case PartKind::Relay:
            return relay();
        case PartKind::Rocker:
            return rocker();
        case PartKind::PushButton:
        case PartKind::Toggle:
            return contact(0, 0, 1, isAt(1), kSmallSwitch_ohm);
        case PartKind::Selector:
            contact(0, 1, 0, isAt(2), kSmallSwitch_ohm);
            return contact(1, 1, 2, isAt(0), kSmallSwitch_ohm);
        case PartKind::Headlamp:
            return lamp(
                0, 0, 1, 21.0, part.rating > 0.0 ? part.rating : spec(part.kind).rating->zeroIs);
        case PartKind::Horn:
            return resistor(kHorn_ohm);
        case PartKind::Resistor:
            return resistor(part.rating);
        case PartKind::Diode:
            return diode();
        case PartKind::Motor:
            return motor();
        case PartKind::Breaker:
            return fuse(circuit::FuseStyle::Breaker, kBreakerDrop_V, !isAt(1));
        }
    }

private:
    const Part& part;
    const std::vector<circuit::Node>& nodes;
    circuit::Netlist& netlist;

    bool broken() const { return part.condition == Condition::Open; }

    // A switch that is open inside closes at no position.
    bool isAt(int position) const { return part.position == position && !broken(); }

    void add(int element, const circuit::Part& content) {
        netlist.elements.push_back({partKey(part.id, element), content});
    }

    // The node of a terminal, or one of nobody else's when the part is open inside.
    circuit::Node inside(int terminal) { return broken() ? netlist.nodeCount++ : nodes[terminal]; }

    void battery() {
        circuit::Battery battery;
        battery.plus = inside(0);
        battery.minus = nodes[1];
        battery.charge = part.charge;
        add(0, battery);
    }

    void contact(int element, int a, int b, bool closed, double resistance_ohm) {
        circuit::Contact contact;
        contact.a = nodes[a];
        contact.b = nodes[b];
        contact.closed = closed;
        contact.resistance_ohm = resistance_ohm;
        add(element, contact);
    }

    // A holder without a fuse is open and has no element.
    void fuse(circuit::FuseStyle style, double coldDrop_V, bool open) {
        if (part.rating <= 0.0) return;
        circuit::Fuse fuse;
        fuse.a = nodes[0];
        fuse.b = nodes[1];
        fuse.style = style;
        fuse.rating_A = part.rating;
        fuse.cold_ohm = coldDrop_V / part.rating;
        fuse.blown = open;
        add(0, fuse);
    }

    // Open: the coil is burnt through, the contacts are not.
    void relay() {
        circuit::Relay relay;
        relay.common = nodes[0];
        relay.normallyOpen = nodes[1];
        relay.normallyClosed = nodes[2];
        relay.coilA = inside(3);
        relay.coilB = nodes[4];
        relay.welded = part.condition == Condition::Welded;
        add(0, relay);
    }

    // Open: the live lamp is gone, the contact works.
    void rocker() {
        contact(0, 0, 1, part.position == 1, kSmallSwitch_ohm);
        lamp(1, 1, 2, kLiveLamp_W, 24.0);
    }

    void lamp(int element, int a, int b, double rated_W, double rated_V) {
        circuit::Lamp lamp;
        lamp.a = nodes[a];
        lamp.b = nodes[b];
        lamp.rated_W = rated_W;
        lamp.rated_V = rated_V;
        lamp.broken = broken();
        add(element, lamp);
    }

    void resistor(double resistance_ohm) {
        circuit::Resistor resistor;
        resistor.a = inside(0);
        resistor.b = nodes[1];
        resistor.resistance_ohm = resistance_ohm;
        add(0, resistor);
    }

    void diode() {
        circuit::Diode diode;
        diode.anode = inside(0);
        diode.cathode = nodes[1];
        add(0, diode);
    }

    void motor() {
        circuit::Motor motor;
        motor.a = inside(0);
        motor.b = nodes[1];
        motor.jammed = part.obstructed;
        add(0, motor);
    }
};

// Terminals of one metal share a node; each other gets the next.
std::vector<circuit::Node> nodesOf(const PartSpec& kind, circuit::Node first) {
    std::vector<circuit::Node> nodes;
    for (const TerminalSpec& terminal : kind.terminals)
        nodes.push_back(first + static_cast<circuit::Node>(terminal.node));
    return nodes;
}

circuit::Node metalsOf(const PartSpec& kind) {
    int count = 0;
    for (const TerminalSpec& terminal : kind.terminals)
        count = std::max(count, terminal.node + 1);
    return static_cast<circuit::Node>(count);
}

} // namespace

circuit::Key partKey(PartId part, int element) {
    return key(kPartTag, part.number, element);
}

circuit::Key cableKey(CableId cable) {
    return key(kCableTag, cable.number, 0);
}

circuit::Key strandKey(CableId cable, int end) {
    return key(kStrandTag, cable.number, end);
}

circuit::Key meterKey(MeterElement element) {
    return key(kMeterTag, 0, static_cast<int>(element));
}

PartId partOf(circuit::Key key) {
    return key >> kTagShift == kPartTag ? PartId{numberOf(key)} : PartId{};
}

CableId cableOf(circuit::Key key) {
    return key >> kTagShift == kCableTag ? CableId{numberOf(key)} : CableId{};
}

std::optional<EndRef> strandOf(circuit::Key key) {
    if (key >> kTagShift != kStrandTag) return std::nullopt;
    return EndRef{CableId{numberOf(key)}, static_cast<int>(key & 1)};
}

Wiring wire(const Bench& bench) {
    Wiring wiring;
    for (const Part& part : bench.parts) {
        wiring.nodes.push_back(nodesOf(spec(part.kind), wiring.netlist.nodeCount));
        wiring.netlist.nodeCount += metalsOf(spec(part.kind));
    }
    for (std::size_t i = 0; i < bench.parts.size(); ++i)
        PartWriter(bench.parts[i], wiring.nodes[i], wiring.netlist).write();
    writeCables(bench, wiring);
    writeMeter(bench, wiring);
    return wiring;
}

std::optional<circuit::Node>
nodeOf(const Bench& bench, const Wiring& wiring, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    if (!part) return std::nullopt;
    const auto index = static_cast<std::size_t>(part - bench.parts.data());
    if (index >= wiring.nodes.size()) return std::nullopt;
    const std::vector<circuit::Node>& nodes = wiring.nodes[index];
    if (terminal.terminal >= nodes.size()) return std::nullopt;
    return nodes[terminal.terminal];
}

} // namespace loom::bench
