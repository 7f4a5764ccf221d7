// SPDX-License-Identifier: MIT
// A bench inside another file, such as an exercise or a record: readBench() takes the place where
// it stands. To write one, put the text of toJson() there.
#pragma once

#include "bench/bench.h"
#include "bench/checked_json.h"

namespace loom::bench {

// What is wrong goes to the place's refusal, as everything does; the bench is then of no use.
Bench readBench(const JsonPlace& root);

} // namespace loom::bench
