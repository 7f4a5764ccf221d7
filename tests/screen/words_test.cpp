// SPDX-License-Identifier: MIT
// Words: each key the sources use is there and each one there is used; a sentence for every refusal
// and event; numbers as people read them; letters that can be read.
#include "bench/catalogue.h"
#include "screen/kit/part_words.h"
#include "screen/kit/tones.h"
#include "screen/sentences.h"
#include "screen/tray/cells.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <filesystem>
#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

using namespace loom;

namespace {

std::string textOf(const std::filesystem::path& path) {
    std::ifstream in(path);
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
}

std::string sources() {
    std::string all;
    for (const char* room : {"screen", "host", "words", "plan", "desk"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(
                 std::string(LOOM_SOURCE_DIR) + "/src/" + room))
            if (entry.path().extension() == ".cpp") all += textOf(entry.path()) + "\n";
    return all;
}

nlohmann::json english() {
    return nlohmann::json::parse(textOf(LOOM_SOURCE_DIR "/assets/strings/en.json"));
}

// The first argument of each call words("…"). Where a conditional chooses, all of its strings.
std::set<std::string> keysCalled(const std::string& text) {
    std::set<std::string> keys;
    const std::string call = "words(";
    for (std::size_t at = text.find(call); at != std::string::npos; at = text.find(call, at + 1)) {
        std::size_t i = at + call.size();
        int depth = 0;
        while (i < text.size() && depth >= 0 &&
               !(depth == 0 && (text[i] == ',' || text[i] == '{'))) {
            if (text[i] == '(') ++depth;
            if (text[i] == ')') --depth;
            if (text[i] == '+') break; // a key put together: its own test below
            if (text[i] == '"') {
                const std::size_t end = text.find('"', i + 1);
                const std::string key = text.substr(i + 1, end - i - 1);
                if (key.empty() || key.back() != '/') keys.insert(key);
                i = end;
            }
            ++i;
        }
    }
    return keys;
}

double channel(unsigned value) {
    const double c = value / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

// WCAG 2.2, "relative luminance" and "contrast ratio" (from memory).
double luminance(ImU32 colour) {
    return 0.2126 * channel(colour & 255u) + 0.7152 * channel((colour >> 8) & 255u) +
           0.0722 * channel((colour >> 16) & 255u);
}

double contrast(ImU32 a, ImU32 b) {
    const double la = luminance(a), lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

} // namespace

TEST_CASE("every key that the screen asks for has its words") {
    const nlohmann::json table = english();
    const std::set<std::string> keys = keysCalled(sources());
    CHECK(keys.size() > 100);
    for (const std::string& key : keys) {
        CAPTURE(key);
        CHECK(table.contains(key));
    }
}

TEST_CASE("every word is used somewhere") {
    const std::string text = sources();
    // Keys put together from one of these and a word of the catalogue, of help.cpp or of event.h.
    const std::vector<std::string> together{"kind/",
                                            "about/",
                                            "sleeve/",
                                            "end/",
                                            "position/",
                                            "operate/",
                                            "help/",
                                            "power/step/",
                                            "power/caution/",
                                            "plan/under/",
                                            "event/",
                                            "act/",
                                            "language/"};
    const nlohmann::json table = english();
    for (auto it = table.begin(); it != table.end(); ++it) {
        std::string key = it.key();
        if (key.compare(0, 7, "phrase/") == 0) continue; // tests/words
        if (key.size() > 4 && key.compare(key.size() - 4, 4, "/one") == 0)
            key.resize(key.size() - 4); // its singular
        CAPTURE(key);
        const bool built = std::any_of(together.begin(), together.end(), [&](const std::string& p) {
            return key.compare(0, p.size(), p) == 0 && text.find('"' + p) != std::string::npos;
        });
        CHECK((built || text.find('"' + key + '"') != std::string::npos));
        CHECK(!it->get<std::string>().empty());
    }
}

TEST_CASE("each kind, sleeve, end and control position has its words") {
    for (const bench::PartKind kind : bench::allKinds()) {
        const bench::PartSpec& spec = bench::spec(kind);
        const std::string word = spec.word;
        CAPTURE(word);
        CHECK(screen::hasWords(std::string("kind/") + spec.word));
        CHECK(screen::hasWords(std::string("about/") + spec.word));
        for (const std::string position : spec.positions) {
            CAPTURE(position);
            CHECK(screen::hasWords("position/" + position));
            if (kind != bench::PartKind::Isolator || position != "off")
                CHECK(screen::hasWords(std::string("operate/") + spec.word + "/" + position));
        }
    }
    for (int sleeve = 0; sleeve <= static_cast<int>(bench::Sleeve::Brown); ++sleeve)
        CHECK(screen::sleeveWords(static_cast<bench::Sleeve>(sleeve)).find('/') ==
              std::string::npos);
    for (int end = 0; end <= static_cast<int>(bench::EndKind::Piggyback); ++end)
        CHECK(screen::endWords(static_cast<bench::EndKind>(end)).find('/') == std::string::npos);
}

TEST_CASE("each refusal and each event is one sentence with its facts") {
    std::set<std::string> said;
    for (int why = 0; why <= static_cast<int>(bench::Why::UnknownWord); ++why) {
        const bench::Refusal refusal{static_cast<bench::Why>(why), "PLACE", "EXPECTED", "FOUND"};
        const std::string sentence = screen::sentence(refusal);
        CAPTURE(sentence);
        CHECK(sentence.find("refusal/") == std::string::npos);
        CHECK(sentence.find('{') == std::string::npos);
        CHECK(sentence.back() == '.');
    }
    for (const circuit::EventRow& row : circuit::kEventRows) {
        attempt::BenchEvent event;
        event.kind = row.kind;
        event.name = "NAME";
        event.first = 0.5;
        event.second = 400.0;
        const std::string sentence = screen::sentence(event);
        CAPTURE(sentence);
        CHECK(sentence.find("event/") == std::string::npos);
        CHECK(sentence.find('{') == std::string::npos);
        CHECK(sentence.find("NAME") != std::string::npos);
        CHECK(std::any_of(
            sentence.begin(), sentence.end(), [](char c) { return c >= '0' && c <= '9'; }));
        CHECK(said.insert(sentence).second);
        const std::string act = screen::nextAct(event);
        CAPTURE(act);
        CHECK(act.empty() == (row.weight == circuit::Weight::Ordinary));
        CHECK((act.empty() || (act.find('/') == std::string::npos && act.back() == '.')));
    }
    attempt::BenchEvent pulledIn;
    pulledIn.kind = circuit::EventKind::PulledIn;
    pulledIn.name = "K1";
    pulledIn.first = 17.08;
    CHECK(screen::sentence(pulledIn) == "K1 pulled in at 17.1 V.");
    const attempt::BenchEvent soft{
        0, 0.0, circuit::EventKind::SleeveSoftened, {}, {}, -1, "P-01", 640.2, 357.4};
    CHECK(screen::sentence(soft) == "P-01 is softening: 640 A, 84 °C.");
}

TEST_CASE("the figures of a part are those of the part that lies there") {
    using bench::PartKind;
    CHECK(screen::aboutPart(PartKind::Headlamp, 12.0) == "12 V 21 W");
    CHECK(screen::aboutPart(PartKind::Headlamp, 0.0) == "24 V 21 W");
    CHECK(screen::aboutPart(PartKind::Battery, 0.0) == "12 V 24 Ah, sealed lead-acid");
    CHECK(screen::aboutPart(PartKind::Horn, 0.0) == "24 V 2.5 A");
    CHECK(screen::aboutPart(PartKind::Relay, 0.0) == "24 V coil, changeover contact 70 A");
    for (const bench::PartKind kind : bench::allKinds())
        CHECK(screen::aboutPart(kind, 0.0).find('{') == std::string::npos);
}

TEST_CASE("an event is told as a tradesman would tell it") {
    struct Row {
        circuit::EventKind kind;
        double first, second;
        const char* expect;
    };

    using circuit::EventKind;
    for (const Row& row : {Row{EventKind::FuseMelted, 904.0, 0.6, "N1 opened at once, at 904 A."},
                           Row{EventKind::FuseMelted, -904.0, 0.6, "N1 opened at once, at 904 A."},
                           Row{EventKind::FuseMelted,
                               11.1,
                               8.0,
                               "N1 opened: 11.1 A, 8 s after it went over its rating."},
                           Row{EventKind::DroppedOut, 0.0, 0.0, "N1 dropped out."},
                           Row{EventKind::DroppedOut, -2.1, 0.0, "N1 dropped out at 2.1 V."},
                           Row{EventKind::MotorStopped, -2.5e-3, 0.0, "N1 has stopped."},
                           Row{EventKind::MotorStopped,
                               -40.0,
                               0.0,
                               "N1 has stopped; 40 A still flow through it."}}) {
        attempt::BenchEvent event;
        event.kind = row.kind;
        event.name = "N1";
        event.first = row.first;
        event.second = row.second;
        CHECK(screen::sentence(event) == row.expect);
    }
}

TEST_CASE("amounts are read at a glance") {
    struct Row {
        double value;
        const char *unit, *expect;
    };

    const Row rows[] = {
        {25.08, "V", "25.1 V"},
        {18.44, "A", "18.4 A"},
        {7.5, "A", "7.5 A"},
        {0.075, "A", "75 mA"},
        {0.0004, "A", "0.4 mA"},
        {0.00001, "A", "0 A"},
        {-0.00001, "A", "0 A"},
        {0.0, "V", "0 V"},
        {-12.86, "V", "−12.9 V"},
        {0.09996, "A", "0.1 A"},
        {0.18, "s", "0.18 s"},
        {43.2, "°C", "43 °C"},
        {-0.3, "°C", "0 °C"},
        {0.9, "W", "0.9 W"},
        {99.96, "V", "100 V"},
        {9.996, "V", "10 V"},
        {640.4, "A", "640 A"},
        {1234.0, "A", "1230 A"},
        {1234.0, "W", "1.23 kW"},
        {999.7, "W", "1 kW"},
        {320.0, "ohm", "320 Ω"},
        {0.012, "ohm", "12 mΩ"},
        {4700.0, "ohm", "4.7 kΩ"},
        {365.2, "rad/s", "365 rad/s"},
        {3487.0, "rev/min", "3490 rev/min"},
        {0.75, "mm²", "0.75 mm²"},
        {0.05, "m", "0.05 m"},
        {0.4, "%", "0 %"},
        {std::numeric_limits<double>::quiet_NaN(), "V", "no reading"},
        {std::numeric_limits<double>::infinity(), "A", "no reading"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.value);
        CHECK(screen::amount(row.value, row.unit) == std::string(row.expect));
    }
    CHECK(screen::timeOf(12.43) == "12.4 s");
    CHECK(screen::timeOf(99.96) == "1 min 40 s");
    CHECK(screen::timeOf(185.2) == "3 min 05 s");
    CHECK(screen::celsius(293.15) == "20 °C");
    CHECK(screen::squareMillimetres(0.75e-6) == "0.75 mm²");
}

TEST_CASE("an unknown key shows itself, and other strings take over whole or not at all") {
    CHECK(screen::words("no/such-key") == "no/such-key");
    CHECK_FALSE(screen::setStrings("[1, 2]"));
    CHECK_FALSE(screen::setStrings("{\"close\": 3}"));
    CHECK(screen::words("close") == "Close");
    const std::string own = textOf(LOOM_SOURCE_DIR "/assets/strings/en.json");
    REQUIRE(screen::setStrings("{\"close\": \"Zu {that} {this}\"}"));
    CHECK(screen::words("close", {{"this", "a"}, {"that", "b"}}) == "Zu b a");
    REQUIRE(screen::setStrings(own));
    CHECK(screen::words("close") == "Close");
}

TEST_CASE("all that is written can be read: contrast of at least 4.5 to 1") {
    // WCAG 2.2, 1.4.3.
    for (const screen::tone::Pair& pair : screen::tone::kWritten) {
        const std::string use = pair.use;
        CAPTURE(use);
        CHECK(contrast(pair.text, pair.ground) >= 4.5);
    }
    CHECK(contrast(art::rgb(0xffffff), art::rgb(0x000000)) == doctest::Approx(21.0));
}
