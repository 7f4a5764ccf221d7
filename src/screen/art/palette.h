// SPDX-License-Identifier: MIT
// The colours of the workshop. Look one up by what it is for, never by its hue.
// Sleeves and blades carry a letter or a number as well, so that no meaning rests on colour alone.
#pragma once

#include "bench/bench.h"

#include <imgui.h>

namespace loom::art {

constexpr ImU32 rgb(unsigned hex, unsigned alpha = 255) {
    return IM_COL32((hex >> 16) & 255u, (hex >> 8) & 255u, hex & 255u, alpha);
}

// The same colour with its opacity multiplied by share (0..1).
ImU32 fade(ImU32 colour, float share);
// From a (share 0) to b (share 1), opacity included.
ImU32 blend(ImU32 a, ImU32 b, float share);

namespace tone {
constexpr ImU32 kRoom = rgb(0x22383a), kRoomDeep = rgb(0x1a2c2e), kRoomRaised = rgb(0x2d474a),
                roomLine = rgb(0x48666a);
constexpr ImU32 kBoard = rgb(0xe6d6b6), kBoardGrain = rgb(0xd8c49c), kBoardEdge = rgb(0xb39a68);
constexpr ImU32 kPaper = rgb(0xfbf8f0), kPaperLine = rgb(0xcfc6ae), kPaperWarm = rgb(0xf6ecd0);
constexpr ImU32 kInk = rgb(0x1d2b2c), kInkSoft = rgb(0x5d563f);
constexpr ImU32 kOnRoom = rgb(0xf3eddc), kOnRoomSoft = rgb(0xcfe0dc);
constexpr ImU32 kAttention = rgb(0xc97a12); // held, selected, focused, takes the held end
constexpr ImU32 kFault = rgb(0xb3261e);
constexpr ImU32 kDone = rgb(0x1c6b45);
constexpr ImU32 kSteel = rgb(0xaeb6b8), kSteelDark = rgb(0x6d787b);
constexpr ImU32 kBrass = rgb(0xc9a44c), kBrassDark = rgb(0x7d6326), kBrassPale = rgb(0xe6cd85);
constexpr ImU32 kCopper = rgb(0xc8793a);
constexpr ImU32 kShadow = rgb(0x2a1f0d);
constexpr ImU32 kTubeEdge = rgb(0x14100a, 205);
constexpr ImU32 kLabelLine = rgb(0x7c765f);
} // namespace tone

struct SleeveTone {
    ImU32 body;
    const char* letters; // short code printed where colour may not be seen: "RD" (IEC 60757)
};

SleeveTone sleeveTone(bench::Sleeve sleeve);

struct BladeTone {
    ImU32 body;
    ImU32 number; // colour of the number moulded on it, at least 4.5:1 on the body
};

// Colour of a blade fuse of this rating [A]; a rating without a colour of its own is clear grey.
// Source: ISO 8820-3 / DIN 72581 (fuselayouts.com).
BladeTone bladeTone(double rating_A);

} // namespace loom::art
