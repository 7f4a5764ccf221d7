// SPDX-License-Identifier: MIT
#include "desk/line_reader.h"

#include "desk/numbers.h"

#include <algorithm>

namespace loom::desk {

void LineReader::refuse(const bench::Phrase& expected, const bench::Phrase& found) {
    if (!trouble) trouble = bench::Refusal{bench::Why::UnknownWord, line.place, expected, found};
}

std::string LineReader::next(const char* expected) {
    if (!ended()) return line.words[at++];
    refuse(expected, peek());
    return {};
}

bool LineReader::skip(const char* word) {
    if (ended() || line.words[at] != word) return false;
    ++at;
    return true;
}

double LineReader::number(const char* expected) {
    const std::string text = next(expected);
    const auto value = numberFrom(text);
    if (!value) refuse(expected, text);
    return value.value_or(0.0);
}

int LineReader::whole(const char* expected, int least, int most) {
    const double value = number(expected);
    for (int i = least; i <= most; ++i)
        if (value == i) return i;
    refuse(expected, inDigits(value));
    return least;
}

std::string LineReader::phrase(std::initializer_list<const char*> stops) {
    std::string text;
    for (; !ended(); ++at) {
        const std::string& word = line.words[at];
        const auto is = [&](const char* stop) { return word == stop; };
        if (std::any_of(stops.begin(), stops.end(), is)) break;
        text += (text.empty() ? "" : " ") + word;
    }
    return text;
}

bench::PartId LineReader::part() {
    return take(partNamed(bench, next("a part's reference")));
}

bench::CableId LineReader::cable() {
    return take(cableNamed(bench, next("a cable's label")));
}

int LineReader::end() {
    return whole("end 1 or 2", 1, 2) - 1;
}

bench::Point LineReader::point() {
    const double x_m = number("metres from the left edge");
    return {x_m, number("metres from the top edge")};
}

bench::Point LineReader::pointOrMiddle() {
    return ended() ? bench::Point{bench.board_m.x_m / 2, bench.board_m.y_m / 2} : point();
}

} // namespace loom::desk
