// SPDX-License-Identifier: MIT
// Numbers with their units, as a learner reads them: "12.8 V", "75 mA", "3480 rev/min". Three
// figures at most, the point as decimal sign, the true minus. The same text natively and in the
// browser. Never "nan": what is not a number gives "?".
#pragma once

#include "lesson/exercise.h"

#include <string>

namespace loom::lesson {

// value [SI] of this quantity; PulledIn gives 1 or 0.
std::string figure(double value, Quantity quantity);

std::string amperes(double current_A);
std::string celsius(double temp_K);
std::string seconds(double time_s);

} // namespace loom::lesson
