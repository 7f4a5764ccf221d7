// SPDX-License-Identifier: MIT
#include "words/strings.h"

#include "assets/embedded.h"
#include "bench/checked_json.h"

#include <map>
#include <nlohmann/json.hpp>
#include <optional>

namespace loom::words {
namespace {

using Table = std::map<std::string, std::string, std::less<>>;

constexpr std::string_view kFolder = "assets/strings/", kEnding = ".json";

std::optional<Table> tableFrom(std::string_view text) {
    const auto parsed = bench::parseJson(text, text.size());
    if (!parsed || !parsed.value().is_object()) return std::nullopt;
    const auto& json = parsed.value();
    Table table;
    for (const auto& [key, value] : json.items()) {
        if (!value.is_string()) return std::nullopt;
        table.emplace(key, value.get<std::string>());
    }
    return table;
}

std::optional<Table> builtIn(std::string_view name) {
    const std::string path = std::string(kFolder) + std::string(name) + std::string(kEnding);
    const Embedded* file = findEmbedded(path.c_str());
    if (!file) return std::nullopt;
    return tableFrom({reinterpret_cast<const char*>(file->bytes), file->size});
}

// Units and how the language writes numbers are no words.
bool isWording(std::string_view key) {
    for (const std::string_view prefix : {"language/", "unit/", "time/"})
        if (key.substr(0, prefix.size()) == prefix) return false;
    return true;
}

Table pseudo() {
    Table table = builtIn("en").value_or(Table());
    for (auto& [key, text] : table)
        if (isWording(key)) text = lengthened(text);
    return table;
}

struct Chosen {
    std::string name = "en";
    Table table = builtIn("en").value_or(Table());
};

Chosen& chosen() {
    static Chosen one;
    return one;
}

// "{name}" at this place of a text: how long it is, 0 for none.
std::size_t slotLength(std::string_view text, std::size_t at) {
    if (text[at] != '{') return 0;
    const std::size_t end = text.find('}', at);
    return end == std::string_view::npos ? 0 : end + 1 - at;
}

const std::string* fillingOf(std::string_view name, const Slots& slots) {
    for (const auto& [slot, filling] : slots)
        if (slot == name) return &filling;
    return nullptr;
}

// Of the rule a language file names: "one" has a form of its own for 1; without one there is none.
bool asksForOne(const Slots& slots) {
    const std::string* count = fillingOf("count", slots);
    return count && *count == "1" && words("language/plural") == "one";
}

} // namespace

std::vector<std::string> languages() {
    std::vector<std::string> names;
    for (unsigned i = 0; i < embeddedCount(); ++i) {
        const std::string_view path = allEmbedded()[i].path;
        if (path.substr(0, kFolder.size()) == kFolder)
            names.emplace_back(
                path.substr(kFolder.size(), path.size() - kFolder.size() - kEnding.size()));
    }
    return names;
}

bool setLanguage(std::string_view name) {
    auto table = name == kPseudo ? std::optional<Table>(pseudo()) : builtIn(name);
    if (!table) return false;
    chosen() = {std::string(name), std::move(*table)};
    return true;
}

const std::string& language() {
    return chosen().name;
}

std::string languageTitle(std::string_view name) {
    const Table table = builtIn(name).value_or(Table());
    const auto title = table.find("language/name");
    return title == table.end() ? std::string() : title->second;
}

bool setStrings(std::string_view json) {
    auto table = tableFrom(json);
    if (!table) return false;
    chosen().table = std::move(*table);
    return true;
}

bool hasWords(std::string_view key) {
    return chosen().table.find(key) != chosen().table.end();
}

std::string words(std::string_view key, const Slots& slots) {
    const Table& table = chosen().table;
    auto found = asksForOne(slots) ? table.find(std::string(key) + "/one") : table.end();
    if (found == table.end()) found = table.find(key);
    return found == table.end() ? std::string(key) : filledText(found->second, slots);
}

std::string filledText(const std::string& text, const Slots& slots) {
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = slotLength(text, i);
        const std::string* filling =
            length ? fillingOf(std::string_view(text).substr(i + 1, length - 2), slots) : nullptr;
        if (filling)
            out += *filling;
        else
            out += text[i];
        i += filling ? length : 1;
    }
    return out;
}

std::string lengthened(std::string_view text) {
    std::string out, word;
    bool letters = false;
    std::size_t characters = 0;
    const auto endWord = [&] {
        if (letters) word = "[" + word + std::string((2 * characters + 4) / 5, 'o') + "]";
        out += word;
        word.clear();
        letters = false;
        characters = 0;
    };
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t slot = slotLength(text, i);
        if (slot || text[i] == ' ' || text[i] == '\n') {
            endWord();
            out += text.substr(i, slot ? slot : 1);
            i += slot ? slot : 1;
            continue;
        }
        const char c = text[i++];
        letters = letters || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if ((static_cast<unsigned char>(c) & 0xc0) != 0x80) ++characters;
        word += c;
    }
    endWord();
    return out;
}

} // namespace loom::words
