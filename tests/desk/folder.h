// SPDX-License-Identifier: MIT
// A folder of its own for a test's files, gone afterwards.
#pragma once

#include <cstdio>
#include <doctest/doctest.h>
#include <filesystem>
#include <string>
#include <unistd.h>

namespace loom::desk::test {

class Folder {
public:
    Folder()
        : path(std::filesystem::temp_directory_path() /
               ("loomwright-" + std::to_string(getpid()))) {
        std::filesystem::remove_all(path);
        std::filesystem::create_directories(path);
    }

    ~Folder() { std::filesystem::remove_all(path); }

    // Writes a file and gives its path.
    std::string file(const std::string& name, const std::string& text) const {
        const std::string whole = (path / name).string();
        std::FILE* file = std::fopen(whole.c_str(), "wb");
        REQUIRE(file);
        REQUIRE(std::fwrite(text.data(), 1, text.size(), file) == text.size());
        std::fclose(file);
        return whole;
    }

    std::string name(const std::string& file) const { return (path / file).string(); }

private:
    std::filesystem::path path;
};

inline std::string withoutFolder(std::string text, const Folder& folder) {
    const std::string prefix = folder.name("");
    for (std::size_t at; (at = text.find(prefix)) != std::string::npos;)
        text.erase(at, prefix.size());
    return text;
}

} // namespace loom::desk::test
