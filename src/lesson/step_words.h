// SPDX-License-Identifier: MIT
// The steps of powering up in plain words, for what a check says.
#pragma once

#include "lesson/procedure.h"

#include <string>

namespace loom::lesson {

// "the series link was fitted before the battery ends", "the call has not been made".
std::string told(const StepSeen& step);

} // namespace loom::lesson
