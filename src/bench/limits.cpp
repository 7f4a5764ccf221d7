// SPDX-License-Identifier: MIT
#include "bench/limits.h"

#include "bench/catalogue.h"

#include <cmath>
#include <cstdint>

namespace loom::bench {
namespace {

// Bytes of the UTF-8 sequence that a byte begins; 0 when none begins so.
std::size_t sequenceLength(unsigned char lead) {
    if (lead < 0x80) return 1;
    if (lead < 0xc2) return 0;
    if (lead < 0xe0) return 2;
    if (lead < 0xf0) return 3;
    return lead < 0xf5 ? 4 : 0;
}

// The code point of a sequence of this length, or nothing when it is malformed.
std::optional<std::uint32_t> codePoint(const char* bytes, std::size_t length) {
    const auto lead = static_cast<unsigned char>(bytes[0]);
    std::uint32_t point = length == 1 ? lead : lead & (0x7fu >> length);
    for (std::size_t i = 1; i < length; ++i) {
        const auto next = static_cast<unsigned char>(bytes[i]);
        if ((next & 0xc0) != 0x80) return std::nullopt;
        point = point << 6 | (next & 0x3fu);
    }
    const bool overlong = (length == 3 && point < 0x800) || (length == 4 && point < 0x10000);
    const bool surrogate = point >= 0xd800 && point <= 0xdfff;
    if (overlong || surrogate || point > 0x10ffff) return std::nullopt;
    return point;
}

bool isControl(std::uint32_t point) {
    return point < 0x20 || (point >= 0x7f && point < 0xa0);
}

// Characters of a UTF-8 text; nothing when it is malformed or holds a control character.
std::optional<std::size_t> plainCharacters(const std::string& text) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < text.size(); ++count) {
        const std::size_t length = sequenceLength(static_cast<unsigned char>(text[i]));
        if (length == 0 || i + length > text.size()) return std::nullopt;
        const std::optional<std::uint32_t> point = codePoint(text.data() + i, length);
        if (!point || isControl(*point)) return std::nullopt;
        i += length;
    }
    return count;
}

Why whyNot(double value) {
    return std::isfinite(value) ? Why::OutOfRange : Why::NotANumber;
}

} // namespace

std::optional<Refusal> whyNotWithin(const Phrase& place, double value, double low, double high) {
    if (value >= low && value <= high) return std::nullopt;
    return Refusal{whyNot(value),
                   place,
                   phrase("n-to-most", {{"n", numeral(low)}, {"most", numeral(high)}}),
                   numeral(value)};
}

std::optional<Refusal> whyNotLength(const Phrase& place, double length_m) {
    if (length_m > 0.0 && length_m <= kLengthMost_m) return std::nullopt;
    return Refusal{whyNot(length_m),
                   place,
                   phrase("0-up-to-metres", {{"most", numeral(kLengthMost_m)}}),
                   numeral(length_m)};
}

std::optional<Refusal> whyNotArea(const Phrase& place, double area_m2) {
    const Phrase expected =
        phrase("n-to-most-mm2",
               {{"n", numeral(kAreaLeast_m2 * 1e6)}, {"most", numeral(kAreaMost_m2 * 1e6)}});
    if (!std::isfinite(area_m2)) return Refusal{Why::NotANumber, place, expected, numeral(area_m2)};
    const double whole_m2 = wholeArea_m2(area_m2);
    if (whole_m2 < kAreaLeast_m2 || whole_m2 > kAreaMost_m2)
        return Refusal{
            Why::OutOfRange, place, expected, phrase("n-mm2", {{"n", numeral(area_m2 * 1e6)}})};
    return std::nullopt;
}

std::optional<Refusal> whyNotName(const Phrase& place, const std::string& name) {
    const Phrase expected = phrase("characters", {{"most", numeral(kNameMost_chars)}});
    const std::optional<std::size_t> count = plainCharacters(name);
    if (!count) return Refusal{Why::OutOfRange, place, expected, phrase("other-characters")};
    if (*count < 1 || *count > kNameMost_chars)
        return Refusal{
            Why::OutOfRange, place, expected, phrase("n-characters", {{"n", numeral(*count)}})};
    return std::nullopt;
}

std::optional<Refusal> whyNotRating(const Phrase& place, PartKind kind, double rating) {
    const std::optional<RatingSpec>& rated = spec(kind).rating;
    if (rated && rated->mayBeZero && rating == 0.0) return std::nullopt;
    return rated ? whyNotWithin(place, rating, rated->least, rated->most)
                 : whyNotWithin(place, rating, 0.0, 0.0);
}

// n hundredths of a mm2 are n / 1e8 m2 and n / 100 mm2; both divisions are correctly rounded, so
// 6 mm2 is the double nearest 6e-6 and the way back gives the same n.
double wholeArea_m2(double area_m2) {
    return std::floor(area_m2 * 1e8 + 0.5) / 1e8;
}

double area_m2FromMm2(double area_mm2) {
    return std::floor(area_mm2 * 1e2 + 0.5) / 1e8;
}

double area_mm2FromM2(double area_m2) {
    return std::floor(area_m2 * 1e8 + 0.5) / 1e2;
}

} // namespace loom::bench
