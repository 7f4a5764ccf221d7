// SPDX-License-Identifier: MIT
// The kinds of element that there are, and how to go through them. Every alternative of Part
// (netlist.h) has one model here.
#pragma once

#include "circuit/battery.h"
#include "circuit/cable.h"
#include "circuit/capacitor.h"
#include "circuit/coil.h"
#include "circuit/contact.h"
#include "circuit/current_source.h"
#include "circuit/diode.h"
#include "circuit/fuse.h"
#include "circuit/lamp.h"
#include "circuit/motor.h"
#include "circuit/relay.h"
#include "circuit/resistor.h"
#include "circuit/voltage_source.h"

#include <tuple>

namespace loom::circuit {

// The order in which branches are updated: relays come after the coils and contacts they move.
using ModelList = std::tuple<Resistors,
                             VoltageSources,
                             CurrentSources,
                             Capacitors,
                             Coils,
                             Cables,
                             Batteries,
                             Contacts,
                             Fuses,
                             Diodes,
                             Lamps,
                             Motors,
                             Relays>;

// Models to be visited before all others, in this order.
template <class... First> struct InOrder {};

// Recorded attempts depend on these three, the first two to the last digit of an instant and the
// order of events at one instant. A new model needs no place in them: it comes after those named.
using CrossingOrder = InOrder<Fuses, Cables, Contacts, Relays, Motors, Batteries, Lamps>;
using EventOrder = InOrder<Fuses, Cables, Lamps, Batteries, Motors, Contacts, Relays>;
using HashOrder = InOrder<Contacts, Fuses, Lamps, Cables, Relays, Motors>;

class Models {
public:
    template <class M> M& of() { return std::get<M>(list); }

    template <class M> const M& of() const { return std::get<M>(list); }

    // Only those that have elements in this network.
    template <class F> void each(const F& f) { eachOf(list, f); }

    template <class F> void each(const F& f) const { eachOf(list, f); }

    template <class F> void everyKind(const F& f) {
        std::apply([&](auto&... model) { (f(model), ...); }, list);
    }

    template <class... First, class F> void each(InOrder<First...> order, const F& f) {
        eachInOrder(list, order, f);
    }

    template <class... First, class F> void each(InOrder<First...> order, const F& f) const {
        eachInOrder(list, order, f);
    }

    // Only the model of that index in the list.
    template <class F> void at(std::size_t index, const F& f) { atOf(list, index, f); }

    template <class F> void at(std::size_t index, const F& f) const { atOf(list, index, f); }

    template <class M> static constexpr std::size_t indexOf() {
        return indexWhere(
            [](auto model) { return std::is_same_v<typename decltype(model)::Type, M>; });
    }

    // The model of an element of the netlist.
    template <class Spec> static constexpr std::size_t indexFor() {
        return indexWhere(
            [](auto model) { return std::is_same_v<typename decltype(model)::Type::Spec, Spec>; });
    }

    template <class Spec> using For = std::tuple_element_t<indexFor<Spec>(), ModelList>;

private:
    template <class T> struct Tag { using Type = T; };

    template <class Test> static constexpr std::size_t indexWhere(Test test) {
        return indexWhere(test, static_cast<ModelList*>(nullptr));
    }

    template <class Test, class... M>
    static constexpr std::size_t indexWhere(Test test, std::tuple<M...>*) {
        std::size_t k = 0, found = sizeof...(M);
        ((found = test(Tag<M>{}) ? k : found, ++k), ...);
        return found;
    }

    template <class List, class F> static void eachOf(List& all, const F& f) {
        std::apply([&](auto&... model) { ((model.all.empty() ? void() : f(model)), ...); }, all);
    }

    template <class List, class... First, class F>
    static void eachInOrder(List& all, InOrder<First...>, const F& f) {
        ((std::get<First>(all).all.empty() ? void() : f(std::get<First>(all))), ...);
        eachOf(all, [&](auto& model) {
            if constexpr (!(std::is_same_v<std::decay_t<decltype(model)>, First> || ...)) f(model);
        });
    }

    template <class List, class F> static void atOf(List& all, std::size_t index, const F& f) {
        std::size_t k = 0;
        std::apply([&](auto&... model) { ((k++ == index ? f(model) : void()), ...); }, all);
    }

    ModelList list;
};

} // namespace loom::circuit
