// Texts by key, phrases, plural forms, the decimal mark, texts by language and the pseudo-language.
#include "said.h"
#include "words/sentences.h"

#include <algorithm>
#include <cctype>
#include <doctest/doctest.h>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>

namespace {

using namespace loom;
using bench::numeral;
using bench::Phrase;
using bench::phrase;

// Back to English whatever the test did.
struct InLanguage {
    explicit InLanguage(const char* name) { REQUIRE(words::setLanguage(name)); }

    ~InLanguage() { words::setLanguage("en"); }
};

std::string textOf(const std::filesystem::path& path) {
    std::ifstream in(path);
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
}

nlohmann::json english() {
    return nlohmann::json::parse(textOf(LOOM_SOURCE_DIR "/assets/strings/en.json"));
}

// Every literal of the rooms that make phrases.
std::set<std::string> literals() {
    const std::regex literal("\"((?:\\\\.|[^\"\\\\\n])*)\"");
    std::set<std::string> found;
    for (const char* room : {"bench", "attempt", "plan", "lesson", "desk"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(
                 std::string(LOOM_SOURCE_DIR) + "/src/" + room)) {
            const std::string text = textOf(entry.path());
            for (std::sregex_iterator at(text.begin(), text.end(), literal), end; at != end; ++at)
                found.insert((*at)[1]);
        }
    return found;
}

// The keys that stand alone in a call of phrase("…").
std::set<std::string> phrasesCalled() {
    const std::regex call("\\bphrase\\(\"([^\"]+)\"[,)]");
    std::set<std::string> keys;
    for (const char* room : {"bench", "attempt", "plan", "lesson", "desk"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(
                 std::string(LOOM_SOURCE_DIR) + "/src/" + room)) {
            const std::string text = textOf(entry.path());
            for (std::sregex_iterator at(text.begin(), text.end(), call), end; at != end; ++at)
                keys.insert((*at)[1]);
        }
    return keys;
}

bool startsWith(const std::string& text, const std::string& start) {
    return text.compare(0, start.size(), start) == 0;
}

bool endsWith(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

TEST_CASE("every phrase that the rooms make has its words, and every one is made somewhere") {
    const nlohmann::json table = english();
    const std::set<std::string> called = phrasesCalled(), known = literals();
    CHECK(called.size() > 100);
    for (const std::string& key : called) {
        CAPTURE(key);
        CHECK(table.contains("phrase/" + key));
    }
    for (auto it = table.begin(); it != table.end(); ++it) {
        std::string key = it.key();
        if (!startsWith(key, "phrase/")) continue;
        CAPTURE(key);
        key = key.substr(7);
        if (endsWith(key, "/one")) key = key.substr(0, key.size() - 4);
        const bool built =
            startsWith(key, "word/") || startsWith(key, "step/") || startsWith(key, "terminal/");
        CHECK((built || known.count(key)));
    }
}

TEST_CASE("a phrase is told with its slots, nested ones too, and a list with commas") {
    CHECK(Phrase("X1/4") == "X1/4");
    CHECK(phrase("n-to-most", {{"n", numeral(0.5)}, {"most", numeral(25)}}) == "0.5 to 25");
    CHECK(phrase("step/before",
                 {{"step", phrase("step/call/was")}, {"other", phrase("step/run/was")}}) ==
          "the call was made before the button was held");
    CHECK(Phrase(Phrase::List{{"Q1", "K1"}}) == "Q1, K1");
    CHECK(Phrase(Phrase::Amount{640.2, "A"}) == "640 A");
    CHECK(Phrase(Phrase::Amount{357.4, "K"}) == "84 °C");
    CHECK(Phrase(Phrase::Amount{366.5191429188, "turns"}) == "3500 rev/min"); // 3500 / 60 * 2 pi
    CHECK(Phrase(Phrase::Amount{0.987, "share"}) == "99 %");
    CHECK(numeral(1234567) == "1234567");
    CHECK(Phrase().empty());
}

TEST_CASE("a mark and the card round alike") {
    CHECK(Phrase(Phrase::Amount{5.0, "A"}) == words::amount(5.0, "A"));
    CHECK(words::amount(5.0, "A") == "5 A");
}

TEST_CASE("one is told in the singular") {
    CHECK(phrase("ends", {{"count", numeral(1)}}) == "1 end");
    CHECK(phrase("ends", {{"count", numeral(3)}}) == "3 ends");
    CHECK(phrase("found/measurements", {{"count", numeral(1)}}) == "1 measurement");
    CHECK(words::words("sheet/missed-count", {{"count", "1"}}) == "One cable was missed.");
    CHECK(words::words("sheet/missed-count", {{"count", "21"}}) == "21 cables were missed.");
    const InLanguage back("en");
    REQUIRE(words::setStrings(R"({"phrase/ends": "{count} ends", "phrase/ends/one": "an end"})"));
    CHECK(phrase("ends", {{"count", numeral(1)}}) == "1 ends"); // no language/plural: one form
}

TEST_CASE("another language has its own order of words and decimal mark") {
    const InLanguage back("en");
    REQUIRE(words::setStrings(R"({"language/decimal": ",",
                                  "phrase/n-to-most": "bis {most} ab {n}"})"));
    CHECK(words::amount(0.75, "mm²") == "0,75 mm²");
    CHECK(phrase("n-to-most", {{"n", numeral(0.5)}, {"most", numeral(25)}}) == "bis 25 ab 0,5");
}

TEST_CASE("a file's own text is told in the language there is, else in English") {
    const Phrase title =
        Phrase::Text{{{"en", "Lamp of {name}"}, {"de", "Lampe"}}, {{"name", "E1"}}};
    CHECK(title == "Lamp of E1");
    const InLanguage pseudo(words::kPseudo);
    CHECK(title == "[Lampoo] [ofo] E1");
}

TEST_CASE("an event is told with its two numbers and their units, and whose name is not known") {
    attempt::BenchEvent event;
    event.kind = circuit::EventKind::FuseMelted;
    event.name = "F2";
    event.first = 38.14;
    event.second = 0.2;
    CHECK(words::sentence(event) == "F2 opened at once, at 38.1 A.");
    event.second = 2.4;
    CHECK(words::sentence(event) == "F2 opened: 38.1 A, 2.4 s after it went over its rating.");
    event.kind = circuit::EventKind::SleeveSmoking;
    event.name = "P-14";
    event.second = 473.15;
    CHECK(words::sentence(event) == "P-14 is smoking: 38.1 A, 200 °C.");
    event.name.clear();
    CHECK(words::sentence(event) ==
          words::words("remark/something") + " is smoking: 38.1 A, 200 °C.");
}

TEST_CASE("there is English, the pseudo-language is not among the languages, and no other is set") {
    CHECK(words::languages() == std::vector<std::string>{"en"});
    CHECK(words::language() == "en");
    CHECK(words::languageTitle("en") == "English");
    CHECK(words::languageTitle("none").empty());
    CHECK_FALSE(words::setLanguage("none"));
    CHECK(words::language() == "en");
}

TEST_CASE(
    "the pseudo-language brackets and lengthens each word and leaves slots, numbers and signs") {
    CHECK(words::lengthened("Take {it} off") == "[Takeoo] {it} [offoo]");
    CHECK(words::lengthened("{a} · {b}") == "{a} · {b}");
    CHECK(words::lengthened("{name}’s coil") == "{name}[’so] [coiloo]");
    CHECK(words::lengthened("key is\nin") == "[keyoo] [iso]\n[ino]");
    CHECK(words::lengthened("12 34") == "12 34");
}

// A word that is neither in brackets nor a number, a unit or one of these names.
std::string unbracketed(const std::string& text) {
    static const std::regex bracketed("\\[[^\\]]*\\]");
    std::istringstream left(std::regex_replace(text, bracketed, ""));
    static const std::set<std::string> allowed{"NAME", "PLACE", "FOUND", "A", "V", "mA", "s", "°C"};
    for (std::string word; left >> word;) {
        word.erase(
            std::remove_if(word.begin(),
                           word.end(),
                           [](char c) { return std::ispunct(static_cast<unsigned char>(c)); }),
            word.end());
        const bool letters =
            std::any_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'z'; });
        if (letters && !allowed.count(word)) return word;
    }
    return "";
}

TEST_CASE("in the pseudo-language every refusal, event and remark is bracketed throughout") {
    const InLanguage pseudo(words::kPseudo);
    for (int why = 0; why <= static_cast<int>(bench::Why::UnknownWord); ++why) {
        const bench::Refusal refusal{
            static_cast<bench::Why>(why), "PLACE", phrase("a-part-on-the-bench"), "FOUND"};
        CHECK(unbracketed(words::sentence(refusal)) == "");
        CHECK(unbracketed(words::inShort(refusal)) == "");
    }
    for (int kind = 0; kind <= static_cast<int>(circuit::EventKind::CableTouched); ++kind) {
        attempt::BenchEvent event;
        event.kind = static_cast<circuit::EventKind>(kind);
        event.name = "NAME";
        event.first = 0.5;
        event.second = 400.0;
        CHECK(unbracketed(words::sentence(event)) == "");
    }
    const nlohmann::json table = english();
    for (auto it = table.begin(); it != table.end(); ++it) {
        if (!startsWith(it.key(), "phrase/")) continue;
        CAPTURE(it.key());
        std::string told = words::words(it.key());
        told = std::regex_replace(told, std::regex("\\{[a-z]+\\}"), "1");
        CHECK(unbracketed(told) == "");
    }
    CHECK(unbracketed("[onlyoo] half") == "half");
}

} // namespace
