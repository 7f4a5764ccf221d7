// SPDX-License-Identifier: MIT
// What `loomwright --help` prints.
#pragma once

#include <string>

namespace loom::desk {

std::string helpText();

} // namespace loom::desk
