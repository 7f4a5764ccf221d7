// SPDX-License-Identifier: MIT
// Readings and controls of a part, kind by kind.
#include "bench/catalogue.h"
#include "screen/card/parts.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <cmath>

namespace loom::screen {
namespace {

using bench::Condition;
using bench::PartKind;

constexpr double litFrom = 0.05; // of the rated light

struct About {
    const attempt::Attempt& attempt;
    const bench::Part& part;
    circuit::Reading reading;
    CardText& card;

    void fact(const char* key, std::string value) const {
        card.facts.push_back({words(key), std::move(value)});
    }

    void fault(const char* key, std::string value) const {
        Fact said{words(key), std::move(value)};
        said.fault = true;
        card.facts.push_back(std::move(said));
    }

    void gauge(const char* key, double share, double tooMuch) const {
        Fact said{words(key), amount(share * 100.0, "%")};
        said.share = share;
        said.tooMuch = tooMuch;
        card.facts.push_back(std::move(said));
    }

    void voltage() const { fact("fact/voltage", amount(reading.voltage_V, "V")); }

    void current() const { fact("fact/current", amount(std::fabs(reading.current_A), "A")); }

    void power() const { fact("fact/power", amount(reading.power_W, "W")); }

    void temperature() const { fact("fact/temperature", celsius(reading.temp_K)); }

    void position() const {
        const bench::PartSpec& spec = bench::spec(part.kind);
        const auto at = static_cast<std::size_t>(part.position);
        if (at < spec.positions.size())
            fact("fact/position", words(std::string("position/") + spec.positions[at]));
    }
};

void battery(const About& about) {
    about.voltage();
    const double current_A = about.reading.current_A;
    about.fact(current_A < -0.5e-3 ? "fact/charged-with" : "fact/gives",
               amount(std::fabs(current_A), "A"));
    about.gauge("fact/charge", about.reading.charge, 2.0);
    about.temperature();
}

void fuse(const About& about) {
    const bool open = about.part.condition == Condition::Open || about.reading.open;
    if (about.part.rating <= 0.0) return about.fact("fact/fitted", words("fact/none"));
    about.fact("fact/fitted", amount(about.part.rating, "A"));
    if (open) return about.fault("fact/state", words("state/melted"));
    about.current();
    about.gauge("fact/melting", about.reading.melting, 0.8);
    about.temperature();
}

void relay(const About& about) {
    if (about.part.condition == Condition::Open)
        about.fault("fact/state", words("state/coil-burnt"));
    else if (about.part.condition == Condition::Welded)
        about.fault("fact/state", words("state/welded"));
    else
        about.fact("fact/state",
                   words(about.reading.pulledIn ? "state/pulled-in" : "state/at-rest"));
    about.fact("fact/coil",
               amount(about.reading.voltage_V, "V") + " · " +
                   amount(std::fabs(about.reading.current_A), "A"));
    about.fact("fact/contact-no", amount(std::fabs(about.reading.contactNO_A), "A"));
    about.fact("fact/contact-nc", amount(std::fabs(about.reading.contactNC_A), "A"));
    about.temperature();
}

void rocker(const About& about) {
    about.position();
    about.current();
    const circuit::Reading lamp = about.attempt.reading(about.part.id, 1);
    if (about.part.condition == Condition::Open)
        about.fault("fact/live-lamp", words("state/filament"));
    else
        about.fact("fact/live-lamp", words(lamp.brightness > litFrom ? "state/lit" : "state/dark"));
}

void selector(const About& about) {
    about.position();
    about.fact("fact/to-forward", amount(std::fabs(about.reading.current_A), "A"));
    about.fact("fact/to-reverse",
               amount(std::fabs(about.attempt.reading(about.part.id, 1).current_A), "A"));
}

void contact(const About& about) {
    about.position();
    about.current();
    about.fact("fact/across", amount(about.reading.voltage_V, "V"));
}

void headlamp(const About& about) {
    if (about.part.condition == Condition::Open) about.fault("fact/state", words("state/filament"));
    about.voltage();
    about.current();
    about.power();
    about.gauge("fact/brightness", about.reading.brightness, 1.0);
}

void load(const About& about) {
    if (about.part.condition == Condition::Open) about.fault("fact/state", words("state/burnt"));
    about.voltage();
    about.current();
    about.power();
    about.temperature();
}

void diode(const About& about) {
    if (about.part.condition == Condition::Open) about.fault("fact/state", words("state/burnt"));
    about.fact("fact/forward", amount(about.reading.voltage_V, "V"));
    about.current();
    about.temperature();
}

void motor(const About& about) {
    if (about.part.condition == Condition::Open) about.fault("fact/state", words("state/burnt"));
    const double speed_rad_s = about.reading.speed_rad_s;
    constexpr double perMinute = 60.0 / 6.283185307179586;
    if (std::fabs(speed_rad_s) < 0.05)
        about.fact("fact/speed", words("state/still"));
    else
        about.fact("fact/speed",
                   amount(std::fabs(speed_rad_s), "rad/s") + " · " +
                       amount(std::fabs(speed_rad_s) * perMinute, words("unit/rpm").c_str()));
    if (std::fabs(speed_rad_s) >= 0.05)
        about.fact("fact/turns", words(speed_rad_s > 0.0 ? "state/forward" : "state/reverse"));
    about.voltage();
    about.current();
    about.power();
    about.temperature();
}

void block(const About& about) {
    std::size_t ends = 0;
    const std::size_t terminals = bench::spec(about.part.kind).terminals.size();
    for (std::size_t i = 0; i < terminals; ++i)
        ends += bench::endsAt(about.attempt.bench(), {about.part.id, static_cast<std::uint8_t>(i)})
                    .size();
    about.fact("fact/ends", std::to_string(ends));
}

void tell(const About& about) {
    switch (about.part.kind) {
    case PartKind::Battery:
        return battery(about);
    case PartKind::StripFuse:
    case PartKind::BladeHolder:
        return fuse(about);
    case PartKind::Relay:
        return relay(about);
    case PartKind::Rocker:
        return rocker(about);
    case PartKind::Selector:
        return selector(about);
    case PartKind::Isolator:
    case PartKind::PushButton:
    case PartKind::Toggle:
        return contact(about);
    case PartKind::Headlamp:
        return headlamp(about);
    case PartKind::Horn:
    case PartKind::Resistor:
        return load(about);
    case PartKind::Diode:
        return diode(about);
    case PartKind::Motor:
        return motor(about);
    case PartKind::Block:
        return block(about);
    }
}

// What setting the control there is called. An isolator's middle position is reached from both
// sides and called by where it comes from.
std::string operateWords(const bench::Part& part, int position) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    if (part.kind == PartKind::Isolator && position == 1)
        return words(part.position == 0 ? "operate/key-in" : "operate/isolator-off");
    return words(std::string("operate/") + spec.word + "/" +
                 spec.positions[static_cast<std::size_t>(position)]);
}

void addControls(const bench::Part& part, CardText& card) {
    const int count = static_cast<int>(bench::spec(part.kind).positions.size());
    for (int position = count - 1; position >= 0; --position) {
        const bool isolator = part.kind == PartKind::Isolator;
        if (position == part.position || (isolator && std::abs(position - part.position) > 1))
            continue;
        card.actions.push_back({"card/position/" + std::to_string(position),
                                operateWords(part, position),
                                Do{bench::Edit{bench::Operate{part.id, position}}}});
    }
}

// The one that is in and whole is not offered again.
void addFuses(const bench::Bench& bench, const bench::Part& part, CardText& card) {
    const bool whole = part.condition == Condition::Sound;
    for (const double rating_A : bench::ratingsAtHand(bench, part.id)) {
        if (rating_A == part.rating && whole) continue;
        card.fuses.push_back({"card/blade/" + plainNumber(rating_A),
                              amount(rating_A, "A"),
                              Do{bench::Edit{bench::FitFuse{part.id, rating_A}}}});
    }
    if (part.rating > 0.0 && !bench::ratingsAtHand(bench, part.id).empty())
        card.fuses.push_back({"card/blade/0",
                              words("operate/fuse-out"),
                              Do{bench::Edit{bench::FitFuse{part.id, 0.0}}}});
    if (!card.fuses.empty()) card.fuseHeading = words("card/fit-a-fuse");
}

} // namespace

void tellPart(const attempt::Attempt& attempt, const bench::Part& part, CardText& card) {
    card.item = "part/" + part.ref;
    card.title = words("card/part", {kindWords(part.kind), part.ref});
    card.second = words(std::string("about/") + bench::spec(part.kind).word);
    if (part.kind == PartKind::Resistor) card.second = amount(part.rating, "ohm");
    tell({attempt, part, attempt.reading(part.id), card});
    addControls(part, card);
    addFuses(attempt.bench(), part, card);
    card.actions.push_back({"card/turn",
                            words("card/turn"),
                            Do{bench::Edit{bench::TurnPart{part.id, (part.quarterTurns + 1) % 4}}}});
    card.actions.push_back({"card/remove",
                            words("card/remove"),
                            Do{bench::Edit{bench::RemovePart{part.id}}}, true});
}

} // namespace loom::screen
