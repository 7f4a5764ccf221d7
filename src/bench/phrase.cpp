// SPDX-License-Identifier: MIT
#include "bench/phrase.h"

#include <algorithm>
#include <cstring>

namespace loom::bench {
namespace {

bool same(const std::string& l, const std::string& r) {
    return l == r;
}

bool same(Phrase::Number l, Phrase::Number r) {
    return l.value == r.value;
}

bool same(Phrase::Amount l, Phrase::Amount r) {
    return l.value == r.value && std::strcmp(l.unit, r.unit) == 0;
}

bool same(const std::vector<Slot>& l, const std::vector<Slot>& r) {
    return std::equal(
        l.begin(), l.end(), r.begin(), r.end(), [](const Slot& left, const Slot& right) {
            return left.name == right.name && left.value == right.value;
        });
}

bool same(const Phrase::Key& l, const Phrase::Key& r) {
    return l.key == r.key && same(l.slots, r.slots);
}

bool same(const Phrase::Text& l, const Phrase::Text& r) {
    return l.byLanguage == r.byLanguage && same(l.slots, r.slots);
}

bool same(const Phrase::List& l, const Phrase::List& r) {
    return l.items == r.items;
}

} // namespace

bool operator==(const Phrase& l, const Phrase& r) {
    if (l.content.index() != r.content.index()) return false;
    return std::visit(
        [&](const auto& value) {
            return same(value, std::get<std::decay_t<decltype(value)>>(r.content));
        },
        l.content);
}

} // namespace loom::bench
