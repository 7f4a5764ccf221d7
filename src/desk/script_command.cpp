// SPDX-License-Identifier: MIT
// What each line of a script asks for.
#include "bench/catalogue.h"
#include "bench/limits.h"
#include "desk/names.h"
#include "desk/numbers.h"
#include "desk/script.h"

#include <algorithm>
#include <cstring>

namespace loom::desk {

namespace {

using bench::Refusal;
using bench::Why;

// Reads one line's words from left to right; the first thing wrong is kept.
class LineReader {
public:
    LineReader(const ScriptLine& read, const bench::Bench& now) : line(read), bench(now) {}

    bench::Outcome<attempt::Command> read() {
        const attempt::Command command = act();
        if (!trouble && at < line.words.size()) refuse("the end of the line", line.words[at]);
        if (trouble) return *trouble;
        return command;
    }

private:
    const ScriptLine& line;
    const bench::Bench& bench;
    std::size_t at = 0;
    std::optional<Refusal> trouble;

    void refuse(const std::string& expected, const std::string& found) {
        if (!trouble) trouble = Refusal{Why::UnknownWord, line.place, expected, found};
    }

    // A value, or the refusal kept and nothing in its place.
    template <class T> T take(const bench::Outcome<T>& outcome) {
        if (outcome) return outcome.value();
        refuse(outcome.refusal().expected, outcome.refusal().found);
        return {};
    }

    bool ended() const { return at >= line.words.size(); }

    std::string next(const char* expected) {
        if (!ended()) return line.words[at++];
        refuse(expected, "the end of the line");
        return {};
    }

    bool skip(const char* word) {
        if (ended() || line.words[at] != word) return false;
        ++at;
        return true;
    }

    double number(const char* expected) {
        const std::string text = next(expected);
        const auto value = numberFrom(text);
        if (!value) refuse(expected, text);
        return value.value_or(0.0);
    }

    int whole(const char* expected, int least, int most) {
        const double value = number(expected);
        for (int i = least; i <= most; ++i)
            if (value == i) return i;
        refuse(expected, inDigits(value));
        return least;
    }

    // The words up to one of the stops, as one.
    std::string phrase(std::initializer_list<const char*> stops) {
        std::string text;
        for (; !ended(); ++at) {
            const std::string& word = line.words[at];
            const auto is = [&](const char* stop) { return word == stop; };
            if (std::any_of(stops.begin(), stops.end(), is)) break;
            text += (text.empty() ? "" : " ") + word;
        }
        return text;
    }

    bench::PartId part() { return take(partNamed(bench, next("a part's reference"))); }

    bench::CableId cable() { return take(cableNamed(bench, next("a cable's label"))); }

    int end() { return whole("end 1 or 2", 1, 2) - 1; }

    bench::TerminalRef terminal(const bench::Held& held, std::initializer_list<const char*> stops) {
        const std::string ref = next("a part's reference");
        return take(terminalFor(bench, held, ref, phrase(stops)));
    }

    bench::Held held(bench::CableId cable, int end) const {
        const bench::Cable* found = bench::findCable(bench, cable);
        return {cable, end, found ? found->ends[end].kind : bench::EndKind::Bare};
    }

    bench::Point point() {
        const double x_m = number("metres from the left edge");
        return {x_m, number("metres from the top edge")};
    }

    bench::Point pointOrMiddle() {
        return ended() ? bench::Point{bench.board_m.x_m / 2, bench.board_m.y_m / 2} : point();
    }

    attempt::Command act() {
        const std::string word = next("a command");
        if (word == "undo") return attempt::Undo{};
        if (word == "redo") return attempt::Redo{};
        if (word == "lay") return lay();
        if (word == "move") return move();
        if (word == "turn") return turn();
        if (word == "remove") return remove();
        if (word == "take") return takeOut();
        if (word == "cut") return cut();
        if (word == "join") return join();
        if (word == "free") return free();
        --at;
        return control();
    }

    attempt::Command lay() {
        bench::LayPart lay;
        lay.ref = next("a part's reference");
        lay.at_m = pointOrMiddle();
        if (!ended()) lay.quarterTurns = whole("0 to 3 quarter turns", 0, 3);
        return lay;
    }

    attempt::Command move() {
        const bench::PartId moved = part();
        return bench::MovePart{moved, point()};
    }

    attempt::Command turn() {
        const bench::PartId turned = part();
        return bench::TurnPart{turned, whole("0 to 3 quarter turns", 0, 3)};
    }

    attempt::Command remove() {
        const std::string name = next("a part's reference or a cable's label");
        if (const bench::Part* found = bench::findPart(bench, name))
            return bench::RemovePart{found->id};
        return bench::RemoveCable{take(cableNamed(bench, name))};
    }

    attempt::Command takeOut() {
        bench::TakeCable taken;
        taken.label = next("a cable's label");
        taken.first_m = pointOrMiddle();
        taken.second_m = pointOrMiddle();
        return taken;
    }

    attempt::Command join() {
        const bench::CableId joined = cable();
        const int which = end();
        return bench::JoinEnd{joined, which, terminal(held(joined, which), {})};
    }

    attempt::Command free() {
        const bench::CableId freed = cable();
        const int which = end();
        return bench::FreeEnd{freed, which, pointOrMiddle()};
    }

    attempt::Command cut() {
        bench::MakeCable make;
        make.from = terminal({}, {"to"});
        if (!skip("to")) refuse("'to' and another terminal", ended() ? "the end" : line.words[at]);
        make.to = terminal({}, {"mm2", "sleeve", "length", "label"});
        while (!ended() && !trouble)
            property(make);
        return make;
    }

    void property(bench::MakeCable& make) {
        if (skip("mm2")) {
            make.area_m2 = bench::area_m2FromMm2(number("a cross-section in mm2"));
        } else if (skip("length")) {
            make.length_m = number("a length in metres");
        } else if (skip("label")) {
            make.label = next("a label");
        } else if (skip("sleeve")) {
            const std::string word = next("a colour");
            const auto sleeve = bench::sleeveFromWord(word.c_str());
            if (!sleeve) refuse("a sleeve colour such as red or black", word);
            make.sleeve = sleeve.value_or(bench::Sleeve::Red);
        } else {
            refuse("mm2, sleeve, length or label", line.words[at]);
        }
    }

    // "F2 fit 10", "Q1 key out"
    attempt::Command control() {
        const std::string& name = line.words[at];
        const bench::Part* found = bench::findPart(bench, name);
        if (!found) {
            refuse("a part's reference, or lay, move, turn, remove, take, cut, join, free, undo, "
                   "redo",
                   name);
            return attempt::Undo{};
        }
        ++at;
        if (skip("fit")) return fit(*found);
        return operate(*found);
    }

    attempt::Command fit(const bench::Part& holder) {
        const double rating_A = skip("none") ? 0.0 : number("a rating in A, or none");
        return bench::FitFuse{holder.id, rating_A};
    }

    attempt::Command operate(const bench::Part& found) {
        const std::string word = phrase({});
        const auto& positions = bench::spec(found.kind).positions;
        std::string expected;
        for (std::size_t i = 0; i < positions.size(); ++i) {
            if (word == positions[i]) return bench::Operate{found.id, static_cast<int>(i)};
            expected += (i ? ", " : "") + std::string(positions[i]);
        }
        refuse(found.ref + " and one of: " + (expected.empty() ? "nothing to set" : expected),
               word.empty() ? "the end of the line" : word);
        return attempt::Undo{};
    }
};

} // namespace

bench::Outcome<attempt::Command> commandFrom(const ScriptLine& line, const bench::Bench& bench) {
    return LineReader(line, bench).read();
}

} // namespace loom::desk
