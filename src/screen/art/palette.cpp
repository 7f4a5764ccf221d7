// SPDX-License-Identifier: MIT
#include "screen/art/palette.h"

namespace loom::art {

namespace {

unsigned channel(ImU32 colour, int shift) {
    return (colour >> shift) & 255u;
}

float within01(float share) {
    return share > 0.0f ? (share < 1.0f ? share : 1.0f) : 0.0f;
}

} // namespace

ImU32 fade(ImU32 colour, float share) {
    const float alpha = static_cast<float>(channel(colour, IM_COL32_A_SHIFT)) * within01(share);
    return (colour & ~IM_COL32_A_MASK) | (static_cast<ImU32>(alpha + 0.5f) << IM_COL32_A_SHIFT);
}

ImU32 blend(ImU32 a, ImU32 b, float share) {
    const float s = within01(share);
    ImU32 out = 0;
    for (int shift = 0; shift < 32; shift += 8) {
        const float from = static_cast<float>(channel(a, shift));
        const float to = static_cast<float>(channel(b, shift));
        out |= static_cast<ImU32>(from + (to - from) * s + 0.5f) << shift;
    }
    return out;
}

SleeveTone sleeveTone(bench::Sleeve sleeve) {
    switch (sleeve) {
    case bench::Sleeve::Black:
        return {rgb(0x20292b), "BK"};
    case bench::Sleeve::Red:
        return {rgb(0xc8392c), "RD"};
    case bench::Sleeve::White:
        return {rgb(0xe9ebe7), "WH"};
    case bench::Sleeve::Grey:
        return {rgb(0x87928f), "GY"};
    case bench::Sleeve::Orange:
        return {rgb(0xe07b1f), "OG"};
    case bench::Sleeve::Violet:
        return {rgb(0x7a4c9e), "VT"};
    case bench::Sleeve::Green:
        return {rgb(0x2f8a4c), "GN"};
    case bench::Sleeve::Yellow:
        return {rgb(0xe6c22e), "YE"};
    case bench::Sleeve::Blue:
        return {rgb(0x2f5fb0), "BU"};
    case bench::Sleeve::Brown:
        return {rgb(0x7d4f2c), "BN"};
    }
    return {rgb(0x20292b), "BK"};
}

BladeTone bladeTone(double rating_A) {
    struct Row {
        double rating_A;
        unsigned body, number;
    };

    static const Row rows[] = {
        {2.0, 0x8a8f90, 0x101617},
        {3.0, 0x6b3f8f, 0xffffff},
        {4.0, 0xe79ab0, 0x101617},
        {5.0, 0xc9a878, 0x101617},
        {7.5, 0x7b4a2a, 0xffffff},
        {10.0, 0xb8322a, 0xffffff},
        {15.0, 0x2f62b3, 0xffffff},
        {20.0, 0xe8c832, 0x101617},
        {25.0, 0xeceeea, 0x101617},
        {30.0, 0x267a45, 0xffffff},
        {40.0, 0xdf7a22, 0x101617},
    };
    for (const Row& row : rows) {
        if (rating_A > row.rating_A - 0.01 && rating_A < row.rating_A + 0.01)
            return {rgb(row.body), rgb(row.number)};
    }
    return {rgb(0xcfd6d6), rgb(0x101617)};
}

} // namespace loom::art
