// SPDX-License-Identifier: MIT
#include "screen/art/palette.h"

#include <cmath>
#include <cstring>
#include <doctest/doctest.h>

using namespace loom;

namespace {

double channel(ImU32 colour, int shift) {
    return static_cast<double>((colour >> shift) & 255u) / 255.0;
}

// Relative luminance and contrast ratio, WCAG 2.2.
double luminance(ImU32 colour) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(channel(colour, IM_COL32_R_SHIFT)) +
           0.7152 * linear(channel(colour, IM_COL32_G_SHIFT)) +
           0.0722 * linear(channel(colour, IM_COL32_B_SHIFT));
}

double contrast(ImU32 a, ImU32 b) {
    const double la = luminance(a), lb = luminance(b);
    return (std::fmax(la, lb) + 0.05) / (std::fmin(la, lb) + 0.05);
}

double apart(ImU32 a, ImU32 b) {
    double sum = 0.0;
    for (const int shift : {IM_COL32_R_SHIFT, IM_COL32_G_SHIFT, IM_COL32_B_SHIFT})
        sum += std::pow(channel(a, shift) - channel(b, shift), 2.0);
    return std::sqrt(sum);
}

} // namespace

TEST_CASE("contrast is measured as WCAG does") {
    CHECK(contrast(art::rgb(0x000000), art::rgb(0xffffff)) == doctest::Approx(21.0));
}

TEST_CASE("words can be read on what they stand on") {
    const struct {
        const char* what;
        ImU32 ink, ground;
        double least; // WCAG 2.2: 1.4.3 text 4.5, 1.4.11 shapes 3
    } rows[] = {
        {"ink on paper", art::tone::kInk, art::tone::kPaper, 4.5},
        {"soft ink on paper", art::tone::kInkSoft, art::tone::kPaper, 4.5},
        {"names on the board", art::tone::kInk, art::tone::kBoard, 4.5},
        {"captions on the board", art::tone::kInkSoft, art::tone::kBoard, 4.5},
        {"words on the room", art::tone::kOnRoom, art::tone::kRoom, 4.5},
        {"soft words on the raised room", art::tone::kOnRoomSoft, art::tone::kRoomRaised, 4.5},
        {"attention line on paper", art::tone::kAttention, art::tone::kPaper, 3.0},
        {"fault on paper", art::tone::kFault, art::tone::kPaper, 4.5},
        {"outline of a cable on the board", art::rgb(0x14100a), art::tone::kBoard, 3.0},
    };

    for (const auto& row : rows) {
        CAPTURE(row.what);
        CHECK(contrast(row.ink, row.ground) >= row.least);
    }
}

TEST_CASE("the number on every blade can be read, and each rating has its own colour") {
    // ISO 8820 / DIN 72581, fuselayouts.com.
    const double ratings_A[] = {2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0};
    for (const double a : ratings_A) {
        CAPTURE(a);
        CHECK(contrast(art::bladeTone(a).number, art::bladeTone(a).body) >= 4.5);
        for (const double b : ratings_A) {
            if (a != b) CHECK(apart(art::bladeTone(a).body, art::bladeTone(b).body) > 0.12);
        }
    }
    CHECK(contrast(art::bladeTone(12.5).number, art::bladeTone(12.5).body) >=
          4.5); // no colour of its own
}

TEST_CASE("blade colours are those of the standard") {
    const auto red = [](double rating) {
        return channel(art::bladeTone(rating).body, IM_COL32_R_SHIFT);
    };
    const auto green = [](double rating) {
        return channel(art::bladeTone(rating).body, IM_COL32_G_SHIFT);
    };
    const auto blue = [](double rating) {
        return channel(art::bladeTone(rating).body, IM_COL32_B_SHIFT);
    };
    CHECK(red(10.0) > 2.0 * green(10.0)); // red
    CHECK(blue(15.0) > red(15.0) + 0.3);  // blue
    CHECK(green(30.0) > red(30.0) + 0.2); // green
    CHECK(red(20.0) > blue(20.0) + 0.5);  // yellow
    CHECK(green(20.0) > blue(20.0) + 0.4);
    CHECK(red(7.5) > blue(7.5) + 0.2);   // brown
    CHECK(blue(3.0) > green(3.0) + 0.2); // violet
}

TEST_CASE("sleeves differ in colour and in letters") {
    for (int a = 0; a <= static_cast<int>(bench::Sleeve::Brown); ++a) {
        for (int b = 0; b < a; ++b) {
            const art::SleeveTone x = art::sleeveTone(static_cast<bench::Sleeve>(a)),
                                  y = art::sleeveTone(static_cast<bench::Sleeve>(b));
            CAPTURE(x.letters);
            CAPTURE(y.letters);
            CHECK(apart(x.body, y.body) > 0.2);
            CHECK(std::strcmp(x.letters, y.letters) != 0);
        }
    }
}

TEST_CASE("blending and fading keep to their ends") {
    const ImU32 a = art::rgb(0x102030), b = art::rgb(0xf0e0d0);
    CHECK(art::blend(a, b, 0.0f) == a);
    CHECK(art::blend(a, b, 1.0f) == b);
    CHECK(art::blend(a, b, 7.0f) == b);
    CHECK((art::fade(a, 0.0f) & IM_COL32_A_MASK) == 0u);
    CHECK(art::fade(a, 1.0f) == a);
}
