// SPDX-License-Identifier: MIT
#include "attempt/slice_time.h"

#include "attempt/command.h"

#include <cstdio>

namespace loom::attempt {

std::string timeText(std::int64_t slice) {
    static_assert(kSlice_s == 0.01, "two places are exact");
    char text[32];
    std::snprintf(text,
                  sizeof text,
                  "%lld.%02lld",
                  static_cast<long long>(slice / 100),
                  static_cast<long long>(slice % 100));
    return text;
}

} // namespace loom::attempt
