// SPDX-License-Identifier: MIT
#include "desk/quantity.h"

#include "attempt/meter_reading.h"
#include "bench/catalogue.h"
#include "desk/names.h"

#include <cstring>

namespace loom::desk {

namespace {

using bench::ElementClass;
using bench::PartKind;
using bench::Refusal;
using bench::Why;
using circuit::Reading;

constexpr double kZeroCelsius_K = 273.15;

bool anyElement(ElementClass) {
    return true;
}

bool isMotor(ElementClass is) {
    return is == ElementClass::Motor;
}

bool isBattery(ElementClass is) {
    return is == ElementClass::Battery;
}

bool isRelay(ElementClass is) {
    return is == ElementClass::Relay;
}

bool isFuse(ElementClass is) {
    return is == ElementClass::Fuse;
}

bool isLamp(ElementClass is) {
    return is == ElementClass::Lamp;
}

bool canOpen(ElementClass is) {
    return isFuse(is) || isLamp(is);
}

bool isContact(ElementClass is) {
    return is == ElementClass::Contact;
}

std::optional<std::size_t> elementNamed(const bench::PartSpec& kind, const std::string& word) {
    if (word.empty()) return 0;
    for (std::size_t i = 0; i < kind.elements.size(); ++i)
        if (word == kind.elements[i].word) return i;
    return std::nullopt;
}

// "contact or lamp of a rocker, ..."
std::string elementsInWords() {
    std::string words;
    for (const PartKind kind : bench::allKinds()) {
        const bench::PartSpec& spec = bench::spec(kind);
        if (spec.elements.size() < 2) continue;
        for (const bench::ElementSpec& element : spec.elements) {
            const bool first = &element == &spec.elements.front();
            words += (!first ? " or " : words.empty() ? "" : ", ") + std::string(element.word);
        }
        words += std::string(" of a ") + spec.word;
    }
    return words;
}

struct Reference {
    std::string ref, word;
};

std::optional<Reference> reference(const std::string& text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string::npos || slash == 0 || slash + 1 == text.size()) return std::nullopt;
    return Reference{text.substr(0, slash), text.substr(slash + 1)};
}

// The '-' that parts two terminals stands before the second one's '/', and neither side may be
// without a '/': the first such '-' is taken.
std::optional<Quantity> between(const std::string& text) {
    for (std::size_t dash = text.find('-'); dash != std::string::npos;
         dash = text.find('-', dash + 1)) {
        const auto first = reference(text.substr(0, dash));
        const auto second = reference(text.substr(dash + 1));
        if (!first || !second) continue;
        Quantity quantity;
        quantity.unit = "V";
        quantity.firstRef = first->ref;
        quantity.firstWord = first->word;
        quantity.secondRef = second->ref;
        quantity.secondWord = second->word;
        return quantity;
    }
    return std::nullopt;
}

std::string withoutVoltage(const std::string& text) {
    const std::string end = ".voltage";
    const bool has =
        text.size() > end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
    return has ? text.substr(0, text.size() - end.size()) : text;
}

const Measure* measureNamed(const std::string& word) {
    for (const Measure& measure : measures())
        if (word == measure.word) return &measure;
    return nullptr;
}

std::string measuresInWords() {
    std::string words;
    for (const Measure& measure : measures())
        words += (words.empty() ? "" : ", ") + std::string(measure.word);
    return words;
}

bench::Outcome<std::optional<double>> sampleBetween(const Quantity& quantity,
                                                    const attempt::Attempt& attempt) {
    const bench::Bench& bench = attempt.bench();
    if (!isThere(quantity, bench)) return std::optional<double>();
    const auto first = terminalNamed(bench, quantity.firstRef, quantity.firstWord);
    if (!first) return first.refusal();
    const auto second = terminalNamed(bench, quantity.secondRef, quantity.secondWord);
    if (!second) return second.refusal();
    return attempt.voltage_V(first.value(), second.value());
}

// In V, ohm or A; nothing when there is no number on its display.
std::optional<double> shownBy(const attempt::MeterReading& reading) {
    const bool number = reading.on && !reading.beyond && !reading.live && !reading.fuseOpen;
    return number ? std::optional<double>(reading.value) : std::nullopt;
}

Refusal noSuchQuantity(const Quantity& quantity, const std::string& thing) {
    return {Why::UnknownWord, quantity.asked, "a quantity of a " + thing, quantity.measure->word};
}

bench::Outcome<std::optional<double>>
sampleOf(const bench::Part& part, const Quantity& quantity, const attempt::Attempt& attempt) {
    const bench::PartSpec& kind = bench::spec(part.kind);
    const auto element = elementNamed(kind, quantity.element);
    if (!element)
        return Refusal{Why::UnknownWord, quantity.asked, elementsInWords(), quantity.element};
    if (*element >= kind.elements.size() || !quantity.measure->fits(kind.elements[*element].is))
        return noSuchQuantity(quantity, kind.word);
    return std::optional<double>(
        quantity.measure->read(attempt.reading(part.id, static_cast<int>(*element))));
}

} // namespace

const std::vector<Measure>& measures() {
    static const std::vector<Measure> table = {
        {"voltage", "V", anyElement, true, [](const Reading& r) { return r.voltage_V; }},
        {"current", "A", anyElement, true, [](const Reading& r) { return r.current_A; }},
        {"power", "W", anyElement, true, [](const Reading& r) { return r.power_W; }},
        {"temperature",
         "C",
         anyElement,
         true,
         [](const Reading& r) { return r.temp_K - kZeroCelsius_K; }},
        {"speed", "rad/s", isMotor, false, [](const Reading& r) { return r.speed_rad_s; }},
        {"angle", "rad", isMotor, false, [](const Reading& r) { return r.angle_rad; }},
        {"charge", "", isBattery, false, [](const Reading& r) { return r.charge; }},
        {"melting", "", isFuse, false, [](const Reading& r) { return r.melting; }},
        {"brightness", "", isLamp, false, [](const Reading& r) { return r.brightness; }},
        {"open", "", canOpen, true, [](const Reading& r) { return r.open ? 1.0 : 0.0; }},
        {"closed", "", isContact, false, [](const Reading& r) { return r.pulledIn ? 1.0 : 0.0; }},
        {"pulled-in", "", isRelay, false, [](const Reading& r) { return r.pulledIn ? 1.0 : 0.0; }},
        {"normally-open-current",
         "A",
         isRelay,
         false,
         [](const Reading& r) { return r.contactNO_A; }},
        {"normally-closed-current", "A", isRelay, false, [](const Reading& r) {
             return r.contactNC_A;
         }}};
    return table;
}

bench::Outcome<Quantity> quantityFrom(const std::string& text) {
    if (text == "meter") {
        Quantity quantity;
        quantity.asked = text;
        quantity.meter = true;
        return quantity;
    }
    if (auto quantity = between(withoutVoltage(text))) {
        quantity->asked = text;
        return *quantity;
    }
    Quantity quantity;
    quantity.asked = text;
    const std::size_t dot = text.rfind('.');
    if (dot == std::string::npos || dot == 0)
        return Refusal{Why::UnknownWord, text, "NAME.QUANTITY or REF/TERMINAL-REF/TERMINAL", text};
    const std::string word = text.substr(dot + 1);
    quantity.measure = measureNamed(word);
    if (!quantity.measure)
        return Refusal{Why::UnknownWord, text, "one of: " + measuresInWords(), word};
    quantity.unit = quantity.measure->unit;
    quantity.name = text.substr(0, dot);
    const std::size_t inner = quantity.name.rfind('.');
    if (inner != std::string::npos) {
        quantity.element = quantity.name.substr(inner + 1);
        quantity.name.resize(inner);
    }
    return quantity;
}

bool isThere(const Quantity& quantity, const bench::Bench& bench) {
    if (quantity.meter) return bench.meter.has_value();
    if (!quantity.measure)
        return bench::findPart(bench, quantity.firstRef) &&
               bench::findPart(bench, quantity.secondRef);
    return bench::findPart(bench, quantity.name) || cableNamed(bench, quantity.name);
}

bench::Outcome<std::optional<double>> sample(const Quantity& quantity,
                                             const attempt::Attempt& attempt) {
    if (quantity.meter) return shownBy(attempt::meterReading(attempt));
    if (!quantity.measure) return sampleBetween(quantity, attempt);
    const bench::Bench& bench = attempt.bench();
    if (const bench::Part* part = bench::findPart(bench, quantity.name))
        return sampleOf(*part, quantity, attempt);
    const auto cable = cableNamed(bench, quantity.name);
    if (!cable && cable.refusal().why == Why::Duplicate) return cable.refusal();
    if (!cable) return std::optional<double>();
    if (!quantity.measure->ofCables) return noSuchQuantity(quantity, "cable");
    return std::optional<double>(quantity.measure->read(attempt.reading(cable.value())));
}

} // namespace loom::desk
