// SPDX-License-Identifier: MIT
// How text and bytes come from JavaScript: loomSend() in page.js fills the one letter, and the
// exported function called next takes it. Nothing else is kept in it.
#pragma once

#include <string>

namespace loom::host {

// The last letter, which is empty afterwards.
std::string takeLetter();

} // namespace loom::host
