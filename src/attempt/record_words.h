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
inline constexpr const char* undo = "undo";
inline constexpr const char* redo = "redo";
inline constexpr const char* askCheck = "ask-check";
inline constexpr const char* askHint = "ask-hint";
inline constexpr const char* reopened = "reopened";

} // namespace loom::attempt::words
