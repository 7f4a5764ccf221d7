// SPDX-License-Identifier: MIT
// What each line of a script asks for.
#include "bench/catalogue.h"
#include "bench/limits.h"
#include "desk/line_reader.h"

#include <algorithm>
#include <cstring>

namespace loom::desk {

namespace {

// What a line asks for of parts, cables and controls.
class CommandReader {
public:
    CommandReader(const ScriptLine& read, const bench::Bench& now) : words(read, now), bench(now) {}

    bench::Outcome<attempt::Command> read() {
        const auto handsOn = handsOnCommand(words);
        const attempt::Command command = handsOn ? *handsOn : act();
        if (!words.refusal() && !words.ended()) words.refuse("the end of the line", words.peek());
        if (words.refusal()) return *words.refusal();
        return command;
    }

private:
    LineReader words;
    const bench::Bench& bench;

    bench::TerminalRef terminal(const bench::Held& held, std::initializer_list<const char*> stops) {
        const std::string ref = words.next("a part's reference");
        return words.take(terminalFor(bench, held, ref, words.phrase(stops)));
    }

    bench::Held held(bench::CableId cable, int end) const {
        const bench::Cable* found = bench::findCable(bench, cable);
        return {cable, end, found ? found->ends[end].kind : bench::EndKind::Bare};
    }

    attempt::Command act() {
        if (words.skip("lay")) return lay();
        if (words.skip("move")) return move();
        if (words.skip("turn")) return turn();
        if (words.skip("remove")) return remove();
        if (words.skip("cut")) return cut();
        if (words.skip("join")) return join();
        return control();
    }

    attempt::Command lay() {
        bench::LayPart lay;
        lay.ref = words.next("a part's reference");
        lay.at_m = words.pointOrMiddle();
        if (!words.ended()) lay.quarterTurns = words.whole("0 to 3 quarter turns", 0, 3);
        return lay;
    }

    attempt::Command move() {
        const bench::PartId moved = words.part();
        return bench::MovePart{moved, words.point()};
    }

    attempt::Command turn() {
        const bench::PartId turned = words.part();
        return bench::TurnPart{turned, words.whole("0 to 3 quarter turns", 0, 3)};
    }

    attempt::Command remove() {
        const std::string name = words.next("a part's reference or a cable's label");
        if (const bench::Part* found = bench::findPart(bench, name))
            return bench::RemovePart{found->id};
        return bench::RemoveCable{words.take(cableNamed(bench, name))};
    }

    attempt::Command join() {
        const bench::CableId joined = words.cable();
        const int which = words.end();
        return bench::JoinEnd{joined, which, terminal(held(joined, which), {})};
    }

    attempt::Command cut() {
        bench::MakeCable make;
        make.from = terminal({}, {"to"});
        if (!words.skip("to")) words.refuse("'to' and another terminal", words.peek());
        make.to = terminal({}, {"mm2", "sleeve", "length", "label"});
        while (!words.ended() && !words.refusal())
            property(make);
        return make;
    }

    void property(bench::MakeCable& make) {
        if (words.skip("mm2")) {
            make.area_m2 = bench::area_m2FromMm2(words.number("a cross-section in mm2"));
        } else if (words.skip("length")) {
            make.length_m = words.number("a length in metres");
        } else if (words.skip("label")) {
            make.label = words.next("a label");
        } else if (words.skip("sleeve")) {
            const std::string word = words.next("a colour");
            const auto sleeve = bench::sleeveFromWord(word.c_str());
            if (!sleeve) words.refuse("a sleeve colour such as red or black", word);
            make.sleeve = sleeve.value_or(bench::Sleeve::Red);
        } else {
            words.refuse("mm2, sleeve, length or label", words.peek());
        }
    }

    // "F2 fit 10", "Q1 key out"
    attempt::Command control() {
        const std::string name = words.next("a command");
        const bench::Part* found = bench::findPart(bench, name);
        if (!found) {
            words.refuse("a part's reference, or lay, move, turn, remove, take, cut, join, free, "
                         "undo, redo, or another command of `loomwright --help`",
                         name);
            return attempt::Undo{};
        }
        if (words.skip("fit")) return fit(*found);
        return operate(*found);
    }

    attempt::Command fit(const bench::Part& holder) {
        const double rating_A = words.skip("none") ? 0.0 : words.number("a rating in A, or none");
        return bench::FitFuse{holder.id, rating_A};
    }

    attempt::Command operate(const bench::Part& found) {
        const std::string word = words.phrase({});
        const auto& positions = bench::spec(found.kind).positions;
        std::string expected;
        for (std::size_t i = 0; i < positions.size(); ++i) {
            if (word == positions[i]) return bench::Operate{found.id, static_cast<int>(i)};
            expected += (i ? ", " : "") + std::string(positions[i]);
        }
        words.refuse(found.ref + " and one of: " + (expected.empty() ? "nothing to set" : expected),
                     word.empty() ? "the end of the line" : word);
        return attempt::Undo{};
    }
};

} // namespace

bench::Outcome<attempt::Command> commandFrom(const ScriptLine& line, const bench::Bench& bench) {
    return CommandReader(line, bench).read();
}

} // namespace loom::desk
