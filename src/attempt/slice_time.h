// SPDX-License-Identifier: MIT
// A time counted in slices as text in seconds, exactly: "12.07".
#pragma once

#include <cstdint>
#include <string>

namespace loom::attempt {

std::string timeText(std::int64_t slice); // slice >= 0

} // namespace loom::attempt
