// SPDX-License-Identifier: MIT
#include "lesson/course.h"

#include "assets/embedded.h"
#include "bench/checked_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Refusal;
using bench::Why;

constexpr const char* kFormatWord = "loomwright course";
constexpr int kCourseVersion = 1;
constexpr std::size_t kMostExercises = 100, kGreatestCourse_bytes = 1u << 16;
constexpr const char* kFolder = "lessons/";

std::optional<std::string_view> builtIn(const std::string& path) {
    const Embedded* file = findEmbedded(path.c_str());
    if (!file) return std::nullopt;
    return std::string_view(reinterpret_cast<const char*>(file->bytes), file->size);
}

Refusal inFile(const std::string& path, Refusal refusal) {
    refusal.place = phrase("in-course-file", {{"file", path}, {"place", refusal.place}});
    return refusal;
}

bench::Outcome<Exercise> builtInExercise(const std::string& name) {
    const std::string path = kFolder + name;
    const auto text = builtIn(path);
    if (!text) return Refusal{Why::Missing, path, phrase("a-file-of-the-course"), phrase("none")};
    auto exercise = exerciseFromJson(*text);
    if (!exercise) return inFile(path, exercise.refusal());
    return exercise;
}

} // namespace

bench::Outcome<std::vector<std::string>> courseFromJson(std::string_view text) {
    const auto parsed = bench::parseJson(text, kGreatestCourse_bytes);
    if (!parsed) return parsed.refusal();
    std::optional<Refusal> refusal;
    const JsonPlace root(parsed.value(), refusal);
    const JsonPlace format = root.member("format");
    const std::string word = format.text();
    if (root.ok() && word != kFormatWord) format.refuse(Why::WrongFormat, kFormatWord, word);
    if (root.ok() && root.member("version").whole(1, 1000000) > kCourseVersion)
        root.member("version").refuse(Why::LaterVersion,
                                      phrase("n-at-most", {{"n", numeral(kCourseVersion)}}),
                                      phrase("a-later-one"));
    std::vector<std::string> names;
    if (root.ok())
        for (const JsonPlace& item : root.member("exercises").items(kMostExercises))
            names.push_back(item.text());
    if (refusal) return *refusal;
    return names;
}

bench::Outcome<std::vector<Exercise>> builtInCourse() {
    const std::string path = kFolder + std::string("course.json");
    const auto text = builtIn(path);
    if (!text) return Refusal{Why::Missing, path, phrase("the-course"), phrase("none")};
    const auto names = courseFromJson(*text);
    if (!names) return inFile(path, names.refusal());
    std::vector<Exercise> course;
    for (const std::string& name : names.value()) {
        auto exercise = builtInExercise(name);
        if (!exercise) return exercise.refusal();
        const auto same = [&](const Exercise& other) { return other.id == exercise.value().id; };
        if (std::any_of(course.begin(), course.end(), same))
            return Refusal{Why::Duplicate,
                           phrase("in-course-file", {{"file", kFolder + name}, {"place", "/id"}}),
                           phrase("an-id-of-its-own"),
                           exercise.value().id};
        course.push_back(std::move(exercise.value()));
    }
    return course;
}

} // namespace loom::lesson
