// SPDX-License-Identifier: MIT
#include "screen/art/wrap.h"

#include <algorithm>
#include <array>

namespace loom::art {
namespace {

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

bool isUnit(std::string_view word) {
    while (!word.empty() &&
           (word.back() == '.' || word.back() == ',' || word.back() == ':' || word.back() == ';'))
        word.remove_suffix(1);
    static constexpr std::array<std::string_view, 17> kUnits{"V",
                                                             "mV",
                                                             "kV",
                                                             "A",
                                                             "mA",
                                                             "W",
                                                             "mW",
                                                             "kW",
                                                             "Ω",
                                                             "mΩ",
                                                             "kΩ",
                                                             "°C",
                                                             "s",
                                                             "ms",
                                                             "m",
                                                             "mm²",
                                                             "%"};
    return std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end();
}

// The end of the word that starts at `at`: up to the next space where a line may break.
std::size_t breakAfter(std::string_view text, std::size_t at) {
    for (std::size_t i = at; i < text.size(); ++i) {
        if (text[i] != ' ') continue;
        if (i == 0 || !isDigit(text[i - 1])) return i;
        const std::size_t next = std::min(text.find(' ', i + 1), text.size());
        if (!isUnit(text.substr(i + 1, next - i - 1))) return i;
    }
    return text.size();
}

// How many bytes of a word fit, at least one letter.
std::size_t fitting(ImFont* font, float size, float width_px, std::string_view word) {
    std::size_t end = nextLetter(word, 0);
    while (end < word.size()) {
        const std::size_t next = nextLetter(word, end);
        if (lineWidth(font, size, word.substr(0, next)) > width_px) break;
        end = next;
    }
    return std::min(end, word.size());
}

void wrapLine(ImFont* font,
              float size,
              float width_px,
              std::string_view text,
              std::vector<std::string_view>& lines) {
    while (!text.empty()) {
        std::size_t end = breakAfter(text, 0);
        if (lineWidth(font, size, text.substr(0, end)) > width_px) {
            end = fitting(font, size, width_px, text.substr(0, end));
        } else {
            while (end < text.size()) {
                const std::size_t next = breakAfter(text, end + 1);
                if (lineWidth(font, size, text.substr(0, next)) > width_px) break;
                end = next;
            }
        }
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end);
        while (!text.empty() && text.front() == ' ')
            text.remove_prefix(1);
    }
}

} // namespace

float lineWidth(ImFont* font, float size, std::string_view text) {
    return font->CalcTextSizeA(size, 1e9f, 0.0f, text.data(), text.data() + text.size()).x;
}

std::size_t nextLetter(std::string_view text, std::size_t at) {
    do
        ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0) == 0x80);
    return at;
}

std::vector<std::string_view>
wrapped(ImFont* font, float size, float width_px, std::string_view text) {
    std::vector<std::string_view> lines;
    while (true) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        if (end == 0)
            lines.push_back(text.substr(0, 0));
        else
            wrapLine(font, size, width_px, text.substr(0, end), lines);
        if (end == text.size()) return lines;
        text.remove_prefix(end + 1);
    }
}

} // namespace loom::art
