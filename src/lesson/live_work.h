// SPDX-License-Identifier: MIT
// Whether somebody worked on what was live: start with workedLive().
#pragma once

#include "attempt/command.h"
#include "plan/spot.h"

#include <string>

namespace loom::lesson {

// The label of a cable of which an end was live the last time that it was put on or taken off
// anything but a battery, or the cable's other end was; empty for none. Live is what is joined to a pole
// of batteries other than the common return's, while both poles of their chain lead to something
// besides batteries. Common practice, no source. `common`: on the common return. Undone steps are left out; a
// cable that has gone is forgiven once nothing is live any more.
std::string workedLive(const attempt::Record& record, const plan::Spot& common);

} // namespace loom::lesson
