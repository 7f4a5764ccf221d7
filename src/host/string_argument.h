// SPDX-License-Identifier: MIT
// The one string argument, text or bytes, of an exported function: loomSend() in page.js fills it
// before the call.
#pragma once

#include <string>

namespace loom::host {

// As sent last; empty afterwards.
std::string stringArgument();

} // namespace loom::host
