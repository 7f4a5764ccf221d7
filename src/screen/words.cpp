// SPDX-License-Identifier: MIT
// The words of assets/strings, looked up by key.
#include "assets/embedded.h"
#include "bench/checked_json.h"
#include "screen/sentences.h"

#include <map>

namespace loom::screen {
namespace {

using Table = std::map<std::string, std::string, std::less<>>;

bool read(std::string_view text, Table& out) {
    const auto parsed = bench::parseJson(text, text.size());
    if (!parsed || !parsed.value().is_object()) return false;
    const auto& json = parsed.value();
    Table table;
    for (const auto& [key, value] : json.items()) {
        if (!value.is_string()) return false;
        table.emplace(key, value.get<std::string>());
    }
    out.swap(table);
    return true;
}

Table builtIn() {
    Table table;
    if (const Embedded* file = findEmbedded("assets/strings/en.json"))
        read({reinterpret_cast<const char*>(file->bytes), file->size}, table);
    return table;
}

// One language a program: the words are the same for every screen in it.
Table& table() {
    static Table words = builtIn();
    return words;
}

} // namespace

bool setStrings(std::string_view json) {
    return read(json, table());
}

bool hasWords(std::string_view key) {
    return table().find(key) != table().end();
}

std::string words(std::string_view key, std::initializer_list<std::string> fill) {
    const auto found = table().find(key);
    if (found == table().end()) return std::string(key);
    const std::string& text = found->second;
    if (fill.size() == 0) return text;
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool slot = text[i] == '{' && i + 2 < text.size() && text[i + 2] == '}';
        const std::size_t which = slot ? static_cast<std::size_t>(text[i + 1] - '0') : fill.size();
        if (which < fill.size()) {
            out += *(fill.begin() + which);
            i += 2;
        } else {
            out += text[i];
        }
    }
    return out;
}

} // namespace loom::screen
