// SPDX-License-Identifier: MIT
// The record as text, and back: what is autosaved and handed in (*.attempt.json). The format is
// JSON of our own, one entry a line; see record_write.cpp for its members.
#pragma once

#include "attempt/attempt.h"

#include <string>
#include <string_view>
#include <vector>

namespace loom::attempt {

inline constexpr const char* kRecordFormat = "loomwright attempt";
inline constexpr int kRecordVersion = 2; // 1 had no chain
inline constexpr std::size_t kGreatestRecord_bytes = 8u << 20;

// Each entry carries a hash of all before it, start and exercise included, and of itself: what is
// altered, left out or sorted anew by hand shows when it is read (Record::altered). There is no
// secret in it: who runs the same computation can forge it.
std::string toJson(const Record& record);

// The hash of each entry's chain, and at the end that of the whole.
std::vector<std::uint32_t> chainOf(const Record& record);
// Shape, words and ranges are checked here; whether each command can be done, by resume() or
// replay(). A refusal's place is a JSON pointer, or line and column when it is not JSON.
bench::Outcome<Record> recordFromJson(std::string_view text);

// The attempt as it stood, undo and redo included, without running the circuit again: it starts
// cold with the recorded wear in place and batteries charged as they were laid. The record gets a
// Reopened entry. For opening an autosave.
bench::Outcome<Attempt> resume(const Record& record);

// The attempt run again from its start with the circuit, to the same state hash: recorded wear is
// left out, since the circuit does it again. For marking. Takes as long as the circuit needs for
// the recorded time, of which it does 100 h at most.
bench::Outcome<Attempt> replay(const Record& record);

inline constexpr std::int64_t kGreatestReplay_slices = 100 * 3600 * 100;

} // namespace loom::attempt
