// SPDX-License-Identifier: MIT
// A cable that has just been joined slides from where the hand drew it into its clearest line, so
// that a loom made by hand is as easy to read as one that was opened. Call startSlide(), then
// goOnSliding() each step while isSliding().
#pragma once

#include "yard/rope.h"

namespace loom::yard {

// `goal`: the same cable at rest as it shall lie. The rope is awake until it lies so.
void startSlide(Rope& rope, Rope goal);
bool isSliding(const Rope& rope);
// Asleep at its end.
void goOnSliding(Rope& rope, double step_s);

} // namespace loom::yard
