// SPDX-License-Identifier: MIT
#include "lesson/genuine.h"

#include "bench/file.h"

namespace loom::lesson {
namespace {

using bench::phrase;
using bench::Refusal;
using bench::Why;

} // namespace

std::optional<Refusal> whyNotGenuine(const Exercise& exercise, const attempt::Record& record) {
    if (record.exercise != exercise.id)
        return Refusal{Why::Altered, "/exercise", exercise.id, phrase("altered/exercise")};
    if (record.exerciseHash != exercise.hash)
        return Refusal{Why::Altered, "/exerciseHash", exercise.hash, phrase("altered/version")};
    if (bench::toJson(record.start) != bench::toJson(startOf(exercise, record.seed)))
        return Refusal{
            Why::Altered, "/start", phrase("altered/its-start"), phrase("altered/start")};
    if (!record.altered) return std::nullopt;
    const std::size_t entry = *record.altered;
    const std::string place =
        entry < record.entries.size() ? "/entries/" + std::to_string(entry) : "/chain";
    return Refusal{Why::Altered, place, phrase("altered/its-chain"), phrase("altered/chain")};
}

} // namespace loom::lesson
