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

constexpr double kLitFrom = 0.05; // of the rated light

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

    void voltage(const char* key) const { fact(key, amount(reading.voltage_V, "V")); }

    void current() const { fact("fact/current", amount(std::fabs(reading.current_A), "A")); }

    void temperature() const { fact("fact/temperature", celsius(reading.temp_K)); }

    void position() const {
        const bench::PartSpec& spec = bench::spec(part.kind);
        const auto at = static_cast<std::size_t>(part.position);
        if (at < spec.positions.size())
            fact("fact/position", words(std::string("position/") + spec.positions[at]));
    }
};

void gives(const About& about) {
    const double current_A = about.reading.current_A;
    about.fact(current_A < -0.5e-3 ? "fact/charged-with" : "fact/gives",
               amount(std::fabs(current_A), "A"));
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
}

void liveLamp(const About& about) {
    const circuit::Reading lamp = about.attempt.reading(about.part.id, 1);
    if (about.part.condition == Condition::Open)
        about.fault("fact/live-lamp", words("state/filament"));
    else
        about.fact("fact/live-lamp",
                   words(lamp.brightness > kLitFrom ? "state/lit" : "state/dark"));
}

void forwardAndReverse(const About& about) {
    about.fact("fact/to-forward", amount(std::fabs(about.reading.current_A), "A"));
    about.fact("fact/to-reverse",
               amount(std::fabs(about.attempt.reading(about.part.id, 1).current_A), "A"));
}

void speed(const About& about) {
    const double speed_rad_s = about.reading.speed_rad_s;
    constexpr double kPerMinute = 60.0 / 6.283185307179586;
    if (std::fabs(speed_rad_s) < 0.05)
        about.fact("fact/speed", words("state/still"));
    else
        about.fact("fact/speed",
                   amount(std::fabs(speed_rad_s), "rad/s") + " · " +
                       amount(std::fabs(speed_rad_s) * kPerMinute, words("unit/rpm").c_str()));
    if (std::fabs(speed_rad_s) >= 0.05)
        about.fact("fact/turns", words(speed_rad_s > 0.0 ? "state/forward" : "state/reverse"));
}

void ends(const About& about) {
    std::size_t count = 0;
    const std::size_t terminals = bench::spec(about.part.kind).terminals.size();
    for (std::size_t i = 0; i < terminals; ++i)
        count += bench::endsAt(about.attempt.bench(), {about.part.id, static_cast<std::uint8_t>(i)})
                     .size();
    about.fact("fact/ends", std::to_string(count));
}

void tell(bench::Fact fact, const About& about) {
    const bool open = about.part.condition == Condition::Open;
    switch (fact) {
    case bench::Fact::Position:
        return about.position();
    case bench::Fact::Filament:
        return open ? about.fault("fact/state", words("state/filament")) : void();
    case bench::Fact::Burnt:
        return open ? about.fault("fact/state", words("state/burnt")) : void();
    case bench::Fact::Voltage:
        return about.voltage("fact/voltage");
    case bench::Fact::Across:
        return about.voltage("fact/across");
    case bench::Fact::Forward:
        return about.voltage("fact/forward");
    case bench::Fact::Gives:
        return gives(about);
    case bench::Fact::Current:
        return about.current();
    case bench::Fact::ForwardAndReverse:
        return forwardAndReverse(about);
    case bench::Fact::Power:
        return about.fact("fact/power", amount(about.reading.power_W, "W"));
    case bench::Fact::Charge:
        return about.gauge("fact/charge", about.reading.charge, 2.0);
    case bench::Fact::Brightness:
        return about.gauge("fact/brightness", about.reading.brightness, 1.0);
    case bench::Fact::LiveLamp:
        return liveLamp(about);
    case bench::Fact::Speed:
        return speed(about);
    case bench::Fact::Fuse:
        return fuse(about);
    case bench::Fact::Relay:
        return relay(about);
    case bench::Fact::Ends:
        return ends(about);
    case bench::Fact::Temperature:
        return about.temperature();
    }
}

// What setting the control there is called. An isolator's middle position is reached from both
// sides and called by where it comes from.
std::string operateWords(const bench::Part& part, int position) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    if (spec.control == bench::ControlKind::Key && position == 1)
        return words(part.position == 0 ? "operate/key-in" : "operate/isolator-off");
    return words(std::string("operate/") + spec.word + "/" +
                 spec.positions[static_cast<std::size_t>(position)]);
}

void addControls(const bench::Part& part, CardText& card) {
    const int count = static_cast<int>(bench::spec(part.kind).positions.size());
    for (int position = count - 1; position >= 0; --position) {
        const bool key = bench::spec(part.kind).control == bench::ControlKind::Key;
        if (position == part.position || (key && std::abs(position - part.position) > 1)) continue;
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
    card.title = words("card/part", {{"kind", kindWords(part.kind)}, {"part", part.ref}});
    const bench::PartSpec& spec = bench::spec(part.kind);
    card.second = aboutPart(part.kind, part.rating);
    if (spec.ratingOnCard) card.second = amount(part.rating, spec.rating->unit);
    const About about{attempt, part, attempt.reading(part.id), card};
    for (const bench::Fact fact : spec.facts)
        tell(fact, about);
    addControls(part, card);
    addFuses(attempt.bench(), part, card);
    card.actions.push_back(
        {"card/turn",
         words("card/turn"),
         Do{bench::Edit{bench::TurnPart{part.id, (part.quarterTurns + 1) % 4}}}});
    card.actions.push_back(
        {"card/remove", words("card/remove"), Do{bench::Edit{bench::RemovePart{part.id}}}, true});
}

} // namespace loom::screen
