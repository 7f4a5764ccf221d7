// SPDX-License-Identifier: MIT
// Colours of the controls beyond the workshop's palette, by what they are for. The pairs that carry
// text are listed for the contrast test.
#pragma once

#include "screen/art/palette.h"

namespace loom::screen::tone {

using namespace art::tone;

constexpr ImU32 kButtonLine = art::rgb(0x587a7e), kButtonHot = art::rgb(0x385659),
                buttonDown = art::rgb(0x243c3f);
constexpr ImU32 kTrayTop = art::rgb(0x31474a), kTrayFoot = art::rgb(0x3a5357),
                trayLine = art::rgb(0x54757a);
constexpr ImU32 kSlot = art::rgb(0x263b3e), kSlotHot = art::rgb(0x2c4548);
constexpr ImU32 kHandle = art::rgb(0x8fa5a8);
constexpr ImU32 kToolChosen = art::rgb(0x3b5a5e);
constexpr ImU32 kOffOnRoom = art::rgb(0xa6baba); // words of a button that can do nothing now
constexpr ImU32 kOffOnPaper = art::rgb(0x6f6a58);
constexpr ImU32 kLiveWord = art::rgb(0xffd3cb), kLampLight = art::rgb(0xff8a7a);
constexpr ImU32 kEventPaper = art::rgb(0xf4ead0), kEventLine = art::rgb(0xc4ae76);
constexpr ImU32 kLink = art::rgb(0x6a4a08);
constexpr ImU32 kLeaf = art::rgb(0xefe6d2); // the chosen leaf's tab
constexpr ImU32 kPaperHot = art::rgb(0xf3ecda), kPaperDown = art::rgb(0xe9dfc6);
constexpr ImU32 kDoneHot = art::rgb(0x23794f), kDoneDown = art::rgb(0x15573a);
constexpr ImU32 kDonePale = art::rgb(0xe8f2ea);
constexpr ImU32 kMarkLine = art::rgb(0x7c765f);
constexpr ImU32 kPlanPart = art::rgb(0xf4ede0), kFrameLine = art::rgb(0xb5a888),
                label = art::rgb(0xfffdf7);
constexpr ImU32 kMarker = art::rgb(0xdfe35c); // the second person's felt pen
constexpr ImU32 kClip = art::rgb(0x1d2526), kClipShine = art::rgb(0x39464a);

struct Pair {
    const char* use;
    ImU32 text, ground;
};

// Every pair of letters and ground that the controls write with.
constexpr Pair kWritten[] = {
    {"button on the room", kOnRoom, kRoomRaised},
    {"button on the room, hot", kOnRoom, kButtonHot},
    {"button on the room, off", kOffOnRoom, kRoomRaised},
    {"status", kOnRoom, kRoomDeep},
    {"status, live", kLiveWord, kRoomDeep},
    {"name in the tray", kOnRoom, kTrayFoot},
    {"name in the tray, of what is out", kOnRoomSoft, kTrayFoot},
    {"in a slot", kOnRoom, kSlot},
    {"tool", kOnRoom, kRoomDeep},
    {"tool, chosen", kOnRoom, kToolChosen},
    {"on the hook", kOnRoomSoft, kRoomDeep},
    {"badge", kInk, kOnRoom},
    {"paper", kInk, kPaper},
    {"paper, soft", kInkSoft, kPaper},
    {"paper, off", kOffOnPaper, kPaper},
    {"note", kInk, kPaperWarm},
    {"note, soft", kInkSoft, kPaperWarm},
    {"main button", kPaper, kDone},
    {"main button, hot", kPaper, kDoneHot},
    {"done", kDone, kPaper},
    {"done on its note", kDone, kDonePale},
    {"note of a solved exercise", kInk, kDonePale},
    {"fault", kFault, kPaper},
    {"event", kInk, kEventPaper},
    {"event's time", kInkSoft, kEventPaper},
    {"link", kLink, kEventPaper},
    {"leaf", kInk, kLeaf},
    {"paper button, hot", kInk, kPaperHot},
    {"part on the plan", kInk, kPlanPart},
    {"part on the plan, soft", kInkSoft, kPlanPart},
    {"label on the plan", kInk, label},
    {"way of the block", kInk, kPaperWarm},
    {"too small", kOnRoom, kRoom},
};

} // namespace loom::screen::tone
