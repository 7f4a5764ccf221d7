// SPDX-License-Identifier: MIT
// Colours of the furniture beyond the workshop's palette, by what they are for. The pairs that carry
// text are listed for the contrast test.
#pragma once

#include "screen/art/palette.h"

namespace loom::screen::tone {

using namespace art::tone;

constexpr ImU32 buttonLine = art::rgb(0x587a7e), buttonHot = art::rgb(0x385659),
                buttonDown = art::rgb(0x243c3f);
constexpr ImU32 trayTop = art::rgb(0x31474a), trayFoot = art::rgb(0x3a5357),
                trayLine = art::rgb(0x54757a);
constexpr ImU32 slot = art::rgb(0x263b3e), slotHot = art::rgb(0x2c4548);
constexpr ImU32 handle = art::rgb(0x8fa5a8);
constexpr ImU32 toolChosen = art::rgb(0x3b5a5e);
constexpr ImU32 offOnRoom = art::rgb(0xa6baba); // words of a button that can do nothing now
constexpr ImU32 offOnPaper = art::rgb(0x6f6a58);
constexpr ImU32 liveWord = art::rgb(0xffd3cb), lampLight = art::rgb(0xff8a7a);
constexpr ImU32 eventPaper = art::rgb(0xf4ead0), eventLine = art::rgb(0xc4ae76);
constexpr ImU32 link = art::rgb(0x6a4a08);
constexpr ImU32 leaf = art::rgb(0xefe6d2); // the chosen leaf's tab
constexpr ImU32 paperHot = art::rgb(0xf3ecda), paperDown = art::rgb(0xe9dfc6);
constexpr ImU32 doneHot = art::rgb(0x23794f), doneDown = art::rgb(0x15573a);
constexpr ImU32 donePale = art::rgb(0xe8f2ea);
constexpr ImU32 markLine = art::rgb(0x7c765f);
constexpr ImU32 planPart = art::rgb(0xf4ede0), frameLine = art::rgb(0xb5a888),
                label = art::rgb(0xfffdf7);
constexpr ImU32 marker = art::rgb(0xdfe35c); // the second person's felt pen
constexpr ImU32 clip = art::rgb(0x1d2526), clipShine = art::rgb(0x39464a);

struct Pair {
    const char* use;
    ImU32 text, ground;
};

// Every pair of letters and ground that the furniture writes with.
constexpr Pair written[] = {
    {"button on the room", onRoom, roomRaised},
    {"button on the room, hot", onRoom, buttonHot},
    {"button on the room, off", offOnRoom, roomRaised},
    {"status", onRoom, roomDeep},
    {"status, live", liveWord, roomDeep},
    {"name in the tray", onRoom, trayFoot},
    {"name in the tray, of what is out", onRoomSoft, trayFoot},
    {"in a slot", onRoom, slot},
    {"tool", onRoom, roomDeep},
    {"tool, chosen", onRoom, toolChosen},
    {"on the hook", onRoomSoft, roomDeep},
    {"badge", ink, onRoom},
    {"paper", ink, paper},
    {"paper, soft", inkSoft, paper},
    {"paper, off", offOnPaper, paper},
    {"note", ink, paperWarm},
    {"note, soft", inkSoft, paperWarm},
    {"main button", paper, done},
    {"main button, hot", paper, doneHot},
    {"done", done, paper},
    {"done on its note", done, donePale},
    {"note of a solved exercise", ink, donePale},
    {"fault", fault, paper},
    {"event", ink, eventPaper},
    {"event's time", inkSoft, eventPaper},
    {"link", link, eventPaper},
    {"leaf", ink, leaf},
    {"paper button, hot", ink, paperHot},
    {"part on the plan", ink, planPart},
    {"part on the plan, soft", inkSoft, planPart},
    {"label on the plan", ink, label},
    {"way of the block", ink, paperWarm},
    {"too small", onRoom, room},
};

} // namespace loom::screen::tone
