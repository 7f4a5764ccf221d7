// SPDX-License-Identifier: MIT
// The small things an exercise file is made of: sentences, words of a list, references, terminals.
// What is wrong goes to the place's refusal.
#pragma once

#include "bench/bench.h"
#include "bench/checked_json.h"
#include "plan/spot.h"

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

namespace loom::lesson {

// Refuses a member of an object that is none of these: a slip in an optional name would otherwise
// go unnoticed.
struct KnownMembers {
    const nlohmann::json& document;
    void operator()(const bench::JsonPlace& place, std::initializer_list<const char*> names) const;
};

// A text of 1 to 400 bytes without control characters, which is English, or an object of such texts
// by language, {"en": "…", "de": "…"}, English among them.
bench::Phrase sentence(const bench::JsonPlace& place, const KnownMembers& members);

// By the words of a bench file.
bench::PartKind partKind(const bench::JsonPlace& place);
bench::EndKind endKind(const bench::JsonPlace& place);
bench::Sleeve sleeve(const bench::JsonPlace& place);
// 1 to 64 of a-z, 0-9 and -.
std::string idOf(const bench::JsonPlace& place);
bool yesOrNo(const bench::JsonPlace& owner, const char* member, bool otherwise);
// A label or a reference.
std::string name(const bench::JsonPlace& place);
bench::Point point(const bench::JsonPlace& place, double greatest_m);

// The parts that an exercise has, at the start or in its kit.
class KnownParts {
public:
    explicit KnownParts(const bench::Bench& exerciseStart) : start(exerciseStart) {}

    // Refused when there is none.
    std::optional<bench::PartKind> kindOf(const bench::JsonPlace& place,
                                          const std::string& ref) const;
    std::string ref(const bench::JsonPlace& place) const;
    plan::Spot spot(const bench::JsonPlace& place) const;

private:
    const bench::Bench& start;
};

} // namespace loom::lesson
