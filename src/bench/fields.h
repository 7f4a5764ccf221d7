// SPDX-License-Identifier: MIT
// Field lists. Each plain struct that is compared, hashed, read or written has a function
// fields(visit), which names its fields once, in the order of files and of the state hash:
//   of things on a bench   visit(&Part::id, &Part::kind, …)
//   of edits and commands  visit("cable", &JoinEnd::cable), with the field's name in a record and,
//                          where its type does not say it, one of the tags below
// What walks them: same() here, StateHash, record_read.cpp, record_write.cpp, the lines of scripts.
#pragma once

#include "bench/bench.h"

#include <algorithm>
#include <type_traits>

namespace loom::bench {

namespace field {

// A number within these limits; without it a double is any finite number, refused by the edit.
struct Within {
    double least = 0.0, most = 0.0;
};

struct Millimetres {}; // kept and recorded in m, in scripts read in mm

struct SquareMillimetres {}; // kept in m2, recorded in mm2

struct Turns {}; // 0..3

struct EndNumber {}; // 0 or 1; in scripts 1 or 2

struct EndOrNone {}; // the same; -1: left out

struct Either {}; // 0 or 1

struct IfAny {}; // an id that is left out when it is none

// Left out unless that id is something.
template <class Owner> struct With { CableId Owner::*id; };

template <class Owner> With(CableId Owner::*) -> With<Owner>;

// A position of the kind of that part, recorded as its word.
template <class Owner> struct PositionOf { PartId Owner::*part; };

template <class Owner> PositionOf(PartId Owner::*) -> PositionOf<Owner>;

struct Name {}; // whyNotName() in limits.h

struct NameOrEmpty {};

struct ShortText {}; // at most 64 bytes

} // namespace field

struct VisitNothing {
    template <class... Field> void operator()(Field...) const {}
};

template <class Thing, class = void> struct HasFields : std::false_type {};

template <class Thing>
struct HasFields<Thing, std::void_t<decltype(Thing::fields(VisitNothing{}))>> : std::true_type {};

// Whether two things are equal in all their fields.
template <class Thing> bool same(const Thing& left, const Thing& right);

template <class Thing>
bool same(const std::optional<Thing>& left, const std::optional<Thing>& right) {
    return left.has_value() == right.has_value() && (!left || same(*left, *right));
}

template <class List> bool sameAll(const List& left, const List& right) {
    return std::equal(
        left.begin(), left.end(), right.begin(), right.end(), [](const auto& l, const auto& r) {
            return same(l, r);
        });
}

template <class Thing> bool same(const std::vector<Thing>& left, const std::vector<Thing>& right) {
    return sameAll(left, right);
}

template <class Thing, std::size_t count>
bool same(const std::array<Thing, count>& left, const std::array<Thing, count>& right) {
    return sameAll(left, right);
}

template <class Thing> bool same(const Thing& left, const Thing& right) {
    if constexpr (HasFields<Thing>::value) {
        bool equal = true;
        Thing::fields([&](auto... of) { ((equal = equal && same(left.*of, right.*of)), ...); });
        return equal;
    } else {
        return left == right;
    }
}

} // namespace loom::bench
