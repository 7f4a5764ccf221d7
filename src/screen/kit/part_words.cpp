// SPDX-License-Identifier: MIT
#include "screen/kit/part_words.h"

#include "bench/catalogue.h"
#include "bench/terminal_phrase.h"
#include "bench/wiring.h"
#include "screen/sentences.h"

namespace loom::screen {
namespace {

constexpr double kHorn_V = 24.0; // what "about/horn" says that it is for

// The figures of what a part is made of, by the names that its sentence may ask for.
struct Figures {
    bench::PartKind kind;
    std::string voltage, power, current, charge;

    template <class Any> void operator()(const Any&) {}

    void operator()(const circuit::Battery& of) {
        charge = amount(of.capacity_C / 3600.0, "Ah");
    }

    void operator()(const circuit::Lamp& of) {
        voltage = amount(of.rated_V, "V");
        power = amount(of.rated_W, "W");
    }

    void operator()(const circuit::Relay& of) {
        current = amount(of.contactRating_A, "A");
    }

    void operator()(const circuit::Diode& of) {
        current = amount(of.rated_A, "A");
    }

    void operator()(const circuit::Resistor& of) {
        if (kind == bench::PartKind::Horn) current = amount(kHorn_V / of.resistance_ohm, "A");
    }
};

} // namespace

std::string aboutPart(bench::PartKind kind, double rating) {
    bench::Bench bench;
    bench::Part part;
    part.id = {1};
    part.kind = kind;
    part.rating = rating;
    bench.parts.push_back(part);
    Figures of{kind, {}, {}, {}, {}};
    for (const auto& element : bench::wire(bench).netlist.elements)
        std::visit(of, element.part);
    return words(std::string("about/") + bench::spec(kind).word,
                 {{"voltage", of.voltage},
                  {"power", of.power},
                  {"current", of.current},
                  {"charge", of.charge}});
}

std::string kindWords(bench::PartKind kind) {
    return words(std::string("kind/") + bench::spec(kind).word);
}

std::string sleeveWords(bench::Sleeve sleeve) {
    return words(std::string("sleeve/") + bench::word(sleeve));
}

std::string endWords(bench::EndKind end) {
    return words(std::string("end/") + bench::word(end));
}

std::string terminalWords(const bench::Bench& bench, bench::TerminalRef terminal) {
    return text(bench::terminalPhrase(bench, terminal));
}

std::string refOf(const bench::Bench& bench, bench::PartId id) {
    const bench::Part* part = bench::findPart(bench, id);
    return part ? part->ref : std::string();
}

std::string labelOf(const bench::Bench& bench, bench::CableId id) {
    const bench::Cable* cable = bench::findCable(bench, id);
    return cable ? cable->label : std::string();
}

} // namespace loom::screen
