// SPDX-License-Identifier: MIT
// The words of a record file that are nowhere else: its format, and one for each command.
#pragma once

namespace loom::attempt::words {

inline constexpr const char* format = "loomwright attempt";

inline constexpr const char* layPart = "lay-part";
inline constexpr const char* movePart = "move-part";
inline constexpr const char* turnPart = "turn-part";
inline constexpr const char* removePart = "remove-part";
inline constexpr const char* makeCable = "make-cable";
inline constexpr const char* takeCable = "take-cable";
inline constexpr const char* removeCable = "remove-cable";
inline constexpr const char* joinEnd = "join-end";
inline constexpr const char* freeEnd = "free-end";
inline constexpr const char* changeCable = "change-cable";
inline constexpr const char* fitFuse = "fit-fuse";
inline constexpr const char* operate = "operate";
inline constexpr const char* wearPart = "wear-part";
inline constexpr const char* wearCable = "wear-cable";
inline constexpr const char* stripEnd = "strip-end";
inline constexpr const char* twistEnd = "twist-end";
inline constexpr const char* pressEnd = "press-end";
inline constexpr const char* pushEnd = "push-end";
inline constexpr const char* turnScrew = "turn-screw";
inline constexpr const char* mendScrew = "mend-screw";
inline constexpr const char* tugEnd = "tug-end";
inline constexpr const char* makeEndWell = "make-end-well";
inline constexpr const char* tieCable = "tie-cable";
inline constexpr const char* cutTie = "cut-tie";
inline constexpr const char* placeMeter = "place-meter";
inline constexpr const char* hangMeter = "hang-meter";
inline constexpr const char* setMeter = "set-meter";
inline constexpr const char* probe = "probe";
inline constexpr const char* fitMeterFuse = "fit-meter-fuse";
inline constexpr const char* obstructAxle = "obstruct-axle";
inline constexpr const char* wearMeter = "wear-meter";
inline constexpr const char* wearEnd = "wear-end";
inline constexpr const char* markOff = "mark-off";
inline constexpr const char* handInSheet = "hand-in-sheet";
inline constexpr const char* lookAt = "look-at";
inline constexpr const char* callClear = "call-clear";
inline constexpr const char* nameFault = "name-fault";
inline constexpr const char* undo = "undo";
inline constexpr const char* redo = "redo";
inline constexpr const char* askCheck = "ask-check";
inline constexpr const char* askHint = "ask-hint";
inline constexpr const char* reopened = "reopened";

// In the order of SheetMark.
inline constexpr const char* sheetMarks[] = {"none", "right", "wrong"};

} // namespace loom::attempt::words
