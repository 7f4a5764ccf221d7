// SPDX-License-Identifier: MIT
// The record as text, and back: what is autosaved and handed in (*.attempt.json).
#pragma once

#include "attempt/attempt.h"

#include <string>
#include <string_view>

namespace loom::attempt {

std::string toJson(const Record& record);
bench::Outcome<Record> recordFromJson(std::string_view text);

// The attempt as it stood, undo and redo included, without running the circuit again: it starts
// cold with the recorded wear in place. For opening an autosave.
bench::Outcome<Attempt> resume(const Record& record);

// The attempt run again from its start with the circuit, to the same state hash. For marking.
bench::Outcome<Attempt> replay(const Record& record);

}  // namespace loom::attempt
