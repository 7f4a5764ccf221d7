// SPDX-License-Identifier: MIT
// What is needed on paper where the real loom is built: the plan, the check sheet for both persons,
// the parts list with the cutting list, and labels to cut out. Each is a list of pages, A4 lying, as
// SVG documents in millimetres. Start with printedPages(). In black and white too: every sleeve has
// its word, its letters and a pattern of its own.
#pragma once

#include "bench/refusal.h"
#include "plan/plan.h"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace loom::plan {

// How texts are written: the words under a key of assets/strings, and any phrase.
struct Say {
    std::function<std::string(std::string_view key)> words;
    std::function<std::string(const bench::Phrase&)> text;

    std::string operator()(std::string_view key) const { return words(key); }
};

struct PrintJob {
    const Plan& plan;
    bench::Phrase title; // of the exercise
    const Say& say;
};

std::vector<std::string> planPages(const PrintJob& job);
std::vector<std::string> sheetPages(const PrintJob& job);
std::vector<std::string> partsPages(const PrintJob& job);
std::vector<std::string> labelPages(const PrintJob& job);

// which: "plan", "sheet", "parts", "labels" or "all" of them; refuses any other word.
bench::Outcome<std::vector<std::string>> printedPages(std::string_view which, const PrintJob& job);

// The pages one under the other in a single SVG document.
std::string onOneSheet(const std::vector<std::string>& pages);

// What stands under a part's ref on the plan: "50 A", "12 V", "key"; may be empty.
std::string underRef(const PlanPart& part, const Say& say);

} // namespace loom::plan
