// SPDX-License-Identifier: MIT
#include "desk/text_file.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

namespace loom::desk {

namespace {

bench::Refusal cannotRead(const std::string& path) {
    return {bench::Why::Missing, path, "a file that can be read", std::strerror(errno)};
}

} // namespace

bool fileExists(const std::string& path) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(path, ignored);
}

bench::Outcome<std::string> readTextFile(const std::string& path, std::size_t greatest_bytes) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"),
                                                               &std::fclose);
    if (!file) return cannotRead(path);
    std::string text;
    char block[16384];
    while (const std::size_t got = std::fread(block, 1, sizeof block, file.get())) {
        text.append(block, got);
        if (text.size() > greatest_bytes)
            return bench::Refusal{bench::Why::TooMany,
                                  path,
                                  "at most " + std::to_string(greatest_bytes) + " bytes",
                                  "more"};
    }
    if (std::ferror(file.get())) return cannotRead(path);
    return text;
}

} // namespace loom::desk
