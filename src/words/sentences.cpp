// SPDX-License-Identifier: MIT
#include "words/sentences.h"

#include "bench/wiring.h"

#include <cmath>

namespace loom::words {
namespace {

using bench::Phrase;

const char* keyOf(bench::Why why) {
    using bench::Why;
    switch (why) {
    case Why::UnknownPart:
        return "refusal/unknown-part";
    case Why::UnknownCable:
        return "refusal/unknown-cable";
    case Why::UnknownTerminal:
        return "refusal/unknown-terminal";
    case Why::NotInTray:
        return "refusal/not-in-tray";
    case Why::WrongEnd:
        return "refusal/wrong-end";
    case Why::TerminalFull:
        return "refusal/terminal-full";
    case Why::SameTerminal:
        return "refusal/same-terminal";
    case Why::BladeBlocks:
        return "refusal/blade-blocks";
    case Why::NoSuchPosition:
        return "refusal/no-such-position";
    case Why::KeyNotIn:
        return "refusal/key-not-in";
    case Why::ScrewClosed:
        return "refusal/screw-closed";
    case Why::ScrewBroken:
        return "refusal/screw-broken";
    case Why::NotJoined:
        return "refusal/not-joined";
    case Why::NotStripped:
        return "refusal/not-stripped";
    case Why::UnknownTie:
        return "refusal/unknown-tie";
    case Why::MeterAway:
        return "refusal/meter-away";
    case Why::OutOfRange:
        return "refusal/out-of-range";
    case Why::NotANumber:
        return "refusal/not-a-number";
    case Why::TooMany:
        return "refusal/too-many";
    case Why::NothingToUndo:
        return "refusal/nothing-to-undo";
    case Why::NothingToRedo:
        return "refusal/nothing-to-redo";
    case Why::NotJson:
        return "refusal/not-json";
    case Why::WrongFormat:
        return "refusal/wrong-format";
    case Why::LaterVersion:
        return "refusal/later-version";
    case Why::Missing:
        return "refusal/missing";
    case Why::WrongType:
        return "refusal/wrong-type";
    case Why::Duplicate:
        return "refusal/duplicate";
    case Why::UnknownWord:
        return "refusal/unknown-word";
    case Why::Altered:
        return "refusal/altered";
    }
    return "";
}

// Of one of an event's numbers, whichever way round it is; empty for none.
std::string amountOf(double number, circuit::Unit unit) {
    using circuit::Unit;
    switch (unit) {
    case Unit::None:
        return {};
    case Unit::Ampere:
        return amount(std::fabs(number), "A");
    case Unit::Volt:
        return amount(std::fabs(number), "V");
    case Unit::Kelvin:
        return celsius(number);
    case Unit::Second:
        return amount(number, "s");
    case Unit::Share:
        return amount(number, "share");
    }
    return {};
}

// What nobody waits for, or would name a figure for. No source.
constexpr double kAtOnce_s = 1.0, kNoVolts_V = 0.5, kNoCurrent_A = 0.05;

// The key's end where a figure says more in another sentence, or nothing.
const char* variantOf(const attempt::BenchEvent& event) {
    using circuit::EventKind;
    switch (event.kind) {
    case EventKind::FuseMelted:
    case EventKind::BreakerTripped:
        return !attempt::isOfMeter(event) && event.second < kAtOnce_s ? "/at-once" : "";
    case EventKind::DroppedOut:
        return std::fabs(event.first) < kNoVolts_V ? "/unfed" : "";
    case EventKind::MotorStopped:
        return std::fabs(event.first) < kNoCurrent_A ? "/idle" : "";
    default:
        return "";
    }
}

struct PhraseText {
    std::string operator()(const std::string& name) const { return name; }

    std::string operator()(Phrase::Number number) const { return numeral(number.value); }

    std::string operator()(Phrase::Amount read) const { return amount(read.value, read.unit); }

    std::string operator()(const Phrase::Key& phrase) const {
        return words("phrase/" + phrase.key, slotTexts(phrase.slots));
    }

    std::string operator()(const Phrase::List& list) const {
        std::string out;
        for (const Phrase& item : list.items)
            out += (out.empty() ? "" : words("list/comma")) + text(item);
        return out;
    }

    // In English where the file has no other.
    std::string operator()(const Phrase::Text& said) const {
        const auto own = said.byLanguage.find(language());
        const auto english = said.byLanguage.find("en");
        const auto found = own != said.byLanguage.end() ? own : english;
        if (found == said.byLanguage.end()) return {};
        return filledText(language() == kPseudo ? lengthened(found->second) : found->second,
                          slotTexts(said.slots));
    }

private:
    static Slots slotTexts(const std::vector<bench::Slot>& slots) {
        Slots texts;
        for (const bench::Slot& slot : slots)
            texts.emplace_back(slot.name, text(slot.value));
        return texts;
    }
};

std::string nameOf(circuit::Key key, const bench::Bench& bench) {
    if (const bench::Part* part = bench::findPart(bench, bench::partOf(key))) return part->ref;
    if (const bench::Cable* cable = bench::findCable(bench, bench::cableOf(key)))
        return cable->label;
    return words("remark/something");
}

const char* remarkKey(circuit::DiagnosisKind kind) {
    using circuit::DiagnosisKind;
    switch (kind) {
    case DiagnosisKind::Floating:
        return "";
    case DiagnosisKind::Contradictory:
        return "remark/contradictory";
    case DiagnosisKind::BadValue:
        return "remark/bad-value";
    case DiagnosisKind::DidNotSettle:
        return "remark/did-not-settle";
    }
    return "";
}

} // namespace

std::string text(const Phrase& phrase) {
    return std::visit(PhraseText{}, phrase.content);
}

plan::Say printed() {
    return {[](std::string_view key) { return words(key); }, text};
}

std::string sentence(const bench::Refusal& refusal) {
    return words(keyOf(refusal.why),
                 {{"place", text(refusal.place)},
                  {"expected", text(refusal.expected)},
                  {"found", text(refusal.found)}});
}

std::string inShort(const bench::Refusal& refusal) {
    return words("refusal/in-short",
                 {{"place", text(refusal.place)},
                  {"expected", text(refusal.expected)},
                  {"found", text(refusal.found)}});
}

std::string sentence(const attempt::BenchEvent& event) {
    const circuit::EventRow& row = attempt::rowOf(event);
    return words("event/" + std::string(row.word) + variantOf(event),
                 {{"name", event.name.empty() ? words("remark/something") : event.name},
                  {"first", amountOf(event.first, row.first)},
                  {"second", amountOf(event.second, row.second)}});
}

std::string nextAct(const attempt::BenchEvent& event) {
    return attempt::isOrdinary(event)
               ? std::string()
               : words("act/" + std::string(attempt::rowOf(event).word));
}

std::string sentence(const circuit::Diagnosis& diagnosis, const bench::Bench& bench) {
    const std::string key = remarkKey(diagnosis.kind);
    if (key.empty()) return {};
    std::string names;
    for (const circuit::Key element : diagnosis.elements)
        names += (names.empty() ? "" : words("list/comma")) + nameOf(element, bench);
    return words(key, {{"names", names.empty() ? words("remark/some-moment") : names}});
}

} // namespace loom::words
