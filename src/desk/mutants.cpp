// SPDX-License-Identifier: MIT
#include "desk/mutants.h"

#include "bench/catalogue.h"
#include "bench/limits.h"
#include "desk/numbers.h"

#include <algorithm>

namespace loom::desk {

namespace {

using bench::Bench;
using Lines = std::vector<ScriptLine>;
using Words = std::vector<std::string>;

std::string inWords(const Words& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

// A terminal in a line: "E1 in", from word `at` for `count` words.
struct Place {
    std::size_t at = 0, count = 0;
};

class Maker {
public:
    Maker(const lesson::Exercise& asked, const Lines& worked, const Bench& ended)
        : exercise(asked), solution(worked), done(ended) {}

    std::vector<Mutant> make() {
        leaveOut();
        swap();
        add();
        cross();
        resize();
        reverse();
        refit();
        move();
        return std::move(mutants);
    }

private:
    const lesson::Exercise& exercise;
    const Lines& solution;
    const Bench& done;
    std::vector<Mutant> mutants;

    void give(Mutant::Kind kind, std::string what, Lines&& lines) {
        mutants.push_back({kind, std::move(what), std::move(lines)});
    }

    void leaveOut() {
        for (std::size_t i = 0; i < solution.size(); ++i) {
            Lines lines = solution;
            lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i));
            give(Mutant::Kind::LeftOut, "without: " + inWords(solution[i].words), std::move(lines));
        }
    }

    void swap() {
        const std::size_t count = solution.size();
        const bool all = count * (count - 1) / 2 <= kMostPairs;
        for (std::size_t i = 0; i < count; ++i)
            for (std::size_t k = i + 1; k < count; ++k) {
                if (!all && k != i + 1 && i != 0 && k + 1 != count) continue;
                if (solution[i].words == solution[k].words) continue;
                Lines lines = solution;
                std::swap(lines[i].words, lines[k].words);
                give(Mutant::Kind::Swapped,
                     "exchanged: " + inWords(solution[i].words) + " / " +
                         inWords(solution[k].words),
                     std::move(lines));
            }
    }

    // Before the first cable is joined, so that it came in no wrong order.
    void add() {
        std::vector<double> sizes_mm2;
        for (const bench::Reel& reel : exercise.start.kit.reels) {
            const double mm2 = bench::area_mm2FromM2(reel.area_m2);
            if (std::find(sizes_mm2.begin(), sizes_mm2.end(), mm2) == sizes_mm2.end())
                sizes_mm2.push_back(mm2);
        }
        std::vector<Words> terminals;
        for (const bench::Part& part : done.parts)
            for (const bench::TerminalSpec& terminal : bench::spec(part.kind).terminals)
                terminals.push_back(parted(part.ref, terminal.word));
        const auto first = std::find_if(solution.begin(), solution.end(), [](const auto& line) {
            return line.words[0] == "cut" || line.words[0] == "take" || line.words[0] == "join";
        });
        for (const double mm2 : sizes_mm2)
            for (std::size_t a = 0; a < terminals.size(); ++a)
                for (std::size_t b = a + 1; b < terminals.size(); ++b) {
                    ScriptLine line;
                    line.slice = first == solution.end() ? 0 : first->slice;
                    line.place = "added";
                    line.words = {"cut"};
                    append(line.words, terminals[a]);
                    line.words.push_back("to");
                    append(line.words, terminals[b]);
                    append(line.words, {"mm2", inDigits(mm2), "label", "ADDED"});
                    Lines lines = solution;
                    lines.insert(lines.begin() + (first - solution.begin()), line);
                    give(Mutant::Kind::Added, inWords(line.words), std::move(lines));
                }
    }

    static Words parted(const std::string& ref, const std::string& terminal) {
        Words words{ref};
        for (std::size_t from = 0; from <= terminal.size();) {
            const std::size_t blank = std::min(terminal.find(' ', from), terminal.size());
            words.push_back(terminal.substr(from, blank - from));
            from = blank + 1;
        }
        return words;
    }

    static void append(Words& words, const Words& more) {
        words.insert(words.end(), more.begin(), more.end());
    }

    // The terminals that a line names, as far as the parts of the finished bench have them.
    std::vector<Place> placesIn(const Words& words) const {
        std::vector<Place> places;
        for (std::size_t i = 1; i + 1 < words.size(); ++i)
            for (const bench::Part& part : done.parts) {
                if (words[i] != part.ref) continue;
                std::size_t longest = 0;
                for (const bench::TerminalSpec& terminal : bench::spec(part.kind).terminals) {
                    const Words named = parted(part.ref, terminal.word);
                    const auto from = words.begin() + static_cast<std::ptrdiff_t>(i);
                    if (named.size() > longest && named.size() <= words.size() - i &&
                        std::equal(named.begin(), named.end(), from))
                        longest = named.size();
                }
                if (longest > 0) places.push_back({i, longest});
            }
        return places;
    }

    static Words at(const Words& words, const Place& place) {
        const auto from = words.begin() + static_cast<std::ptrdiff_t>(place.at);
        return {from, from + static_cast<std::ptrdiff_t>(place.count)};
    }

    static void put(Words& words, const Place& place, const Words& other) {
        const auto from = words.begin() + static_cast<std::ptrdiff_t>(place.at);
        const auto gap = words.erase(from, from + static_cast<std::ptrdiff_t>(place.count));
        words.insert(gap, other.begin(), other.end());
    }

    static bool joins(const ScriptLine& line) {
        return line.words[0] == "cut" || line.words[0] == "join";
    }

    void cross() {
        for (std::size_t i = 0; i < solution.size(); ++i)
            for (std::size_t k = i + 1; k < solution.size(); ++k) {
                if (!joins(solution[i]) || !joins(solution[k])) continue;
                const auto a = placesIn(solution[i].words), b = placesIn(solution[k].words);
                if (a.empty() || b.empty()) continue;
                const Words farA = at(solution[i].words, a.back());
                const Words farB = at(solution[k].words, b.back());
                if (farA == farB) continue;
                Lines lines = solution;
                put(lines[i].words, a.back(), farB);
                put(lines[k].words, b.back(), farA);
                give(Mutant::Kind::Crossed,
                     inWords(lines[i].words) + " / " + inWords(lines[k].words),
                     std::move(lines));
            }
    }

    void resize() {
        for (std::size_t i = 0; i < solution.size(); ++i) {
            const Words& words = solution[i].words;
            const auto size = std::find(words.begin(), words.end(), "mm2");
            if (words[0] != "cut" || size == words.end()) continue;
            for (const bench::Reel& reel : exercise.start.kit.reels) {
                const std::string mm2 = inDigits(bench::area_mm2FromM2(reel.area_m2));
                if (*(size + 1) == mm2) continue;
                Lines lines = solution;
                lines[i].words[static_cast<std::size_t>(size - words.begin()) + 1] = mm2;
                lines[i].words.push_back("sleeve");
                lines[i].words.push_back(bench::word(reel.sleeve));
                give(Mutant::Kind::Size, inWords(lines[i].words), std::move(lines));
            }
        }
    }

    void reverse() {
        for (const bench::Part& part : done.parts) {
            const auto& terminals = bench::spec(part.kind).terminals;
            if (terminals.size() < 2 || bench::isA(part, bench::PartClass::Block)) continue;
            const Words a = parted(part.ref, terminals[0].word);
            const Words b = parted(part.ref, terminals[1].word);
            Lines lines = solution;
            bool any = false;
            for (ScriptLine& line : lines) {
                const auto places = placesIn(line.words);
                for (auto place = places.rbegin(); place != places.rend(); ++place) {
                    const Words named = at(line.words, *place);
                    if (named != a && named != b) continue;
                    put(line.words, *place, named == a ? b : a);
                    any = true;
                }
            }
            if (any)
                give(Mutant::Kind::Reversed, "the wrong way round: " + part.ref, std::move(lines));
        }
    }

    // A line "F3 fit 3": each other blade; for a fuse that is in already, a line is put before.
    void refit() {
        for (const bench::Part& part : done.parts) {
            if (!bench::isA(part, bench::PartClass::Fuse)) continue;
            for (const double blade : exercise.start.kit.blades_A) {
                if (blade == part.rating || !bench::takesFuse(part.kind, blade)) continue;
                fit(part.ref, inDigits(blade));
            }
            fit(part.ref, "none");
        }
    }

    void fit(const std::string& ref, const std::string& rating) {
        Lines lines = solution;
        const auto at = std::find_if(lines.begin(), lines.end(), [&](const ScriptLine& line) {
            return line.words.size() > 2 && line.words[0] == ref && line.words[1] == "fit";
        });
        const Words words{ref, "fit", rating};
        if (at != lines.end()) {
            at->words = words;
        } else {
            const auto laid = std::find_if(lines.begin(), lines.end(), [&](const ScriptLine& line) {
                return line.words.size() > 1 && line.words[0] == "lay" && line.words[1] == ref;
            });
            ScriptLine line;
            line.slice = laid == lines.end() ? 0 : laid->slice;
            line.place = "fit";
            line.words = words;
            lines.insert(laid == lines.end() ? lines.begin() : laid + 1, line);
        }
        give(Mutant::Kind::Fuse, inWords(words), std::move(lines));
    }

    void move() {
        for (std::size_t i = 0; i < solution.size(); ++i) {
            if (!joins(solution[i])) continue;
            for (const Place& place : placesIn(solution[i].words)) {
                const Words named = at(solution[i].words, place);
                const bench::Part* part = bench::findPart(done, named[0]);
                for (const bench::TerminalSpec& terminal : bench::spec(part->kind).terminals) {
                    const Words other = parted(part->ref, terminal.word);
                    if (other == named) continue;
                    Lines lines = solution;
                    put(lines[i].words, place, other);
                    give(Mutant::Kind::Moved,
                         inWords(solution[i].words) + ": to " + inWords(other),
                         std::move(lines));
                }
            }
        }
    }
};

} // namespace

std::vector<Mutant> mutantsOf(const lesson::Exercise& exercise,
                              const std::vector<ScriptLine>& solution,
                              const Bench& done) {
    return Maker(exercise, solution, done).make();
}

} // namespace loom::desk
