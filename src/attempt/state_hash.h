// SPDX-License-Identifier: MIT
// The hash of a bench, field by field: the same number for the same state natively and in the browser.
#pragma once

#include "bench/fields.h"
#include "circuit/hash.h"

#include <string>

namespace loom::attempt {

class StateHash : public circuit::Hash {
public:
    using Hash::add;

    void add(const std::string& text) { // length, then bytes
        add(static_cast<std::uint64_t>(text.size()));
        addBytes(text);
    }

    void add(const bench::Bench& bench); // all but the kit, which follows from the rest

    // A number, an enumerator, or a thing with a list of fields.
    template <class Value> void add(const Value& value) {
        if constexpr (bench::HasFields<Value>::value)
            Value::fields([&](auto... of) { (add(value.*of), ...); });
        else
            addWhole(value);
    }

    template <class Thing, std::size_t count> void add(const std::array<Thing, count>& things) {
        for (const Thing& thing : things)
            add(thing);
    }

private:
    template <class Value> void addWhole(Value value) {
        static_assert(!std::is_floating_point_v<Value>, "expected a double");
        add(static_cast<std::uint64_t>(value));
    }

    // No part has the id 0, which tells that there is none.
    void add(const std::optional<bench::TerminalRef>& at) {
        add(at.value_or(bench::TerminalRef{}));
    }

    void add(const std::optional<bench::EndMake>& make) {
        add(make.has_value());
        add(make.value_or(bench::EndMake{}));
    }

    template <class Thing> void add(const std::vector<Thing>& things) {
        add(things.size());
        for (const Thing& thing : things)
            add(thing);
    }
};

} // namespace loom::attempt
