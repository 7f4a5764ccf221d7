// SPDX-License-Identifier: MIT
#include "lesson/hidden_fault.h"

#include "bench/catalogue.h"
#include "bench/edit.h"
#include "bench/ends.h"
#include "lesson/exercise.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::Bench;

std::optional<bench::TerminalRef> terminalOf(const Bench& bench, const plan::Spot& spot) {
    return bench::findTerminal(bench, spot.ref, spot.terminal);
}

// An end by its cable's place among the cables.
struct Place {
    std::size_t cable = 0;
    int end = 0;
};

std::optional<Place> placeOf(const Bench& bench, const AlteredEnd& wanted) {
    const auto at = terminalOf(bench, wanted.at);
    for (std::size_t i = 0; at && i < bench.cables.size(); ++i)
        for (int end = 0; end < 2; ++end)
            if (bench.cables[i].label == wanted.label && bench.cables[i].ends[end].at == at)
                return Place{i, end};
    return std::nullopt;
}

bench::Part* partOf(Bench& bench, const std::string& ref) {
    for (bench::Part& part : bench.parts)
        if (part.ref == ref) return &part;
    return nullptr;
}

bool edit(Bench& bench, const bench::Edit& edit) {
    auto done = bench::apply(bench, edit);
    if (done) bench = std::move(done.value());
    return static_cast<bool>(done);
}

// Each puts one alteration in; false when it cannot be.
struct Altering {
    Bench& bench;

    bool operator()(const FuseOpen& fault) { return wear(fault.ref, bench::Condition::Open); }

    bool operator()(const ContactWelded& fault) {
        return wear(fault.ref, bench::Condition::Welded);
    }

    bool operator()(const Flat& fault) {
        bench::Part* part = partOf(bench, fault.ref);
        if (part) part->charge = fault.charge;
        return part != nullptr;
    }

    bool operator()(const CableGone& fault) {
        bool gone = false;
        for (std::size_t i = bench.cables.size(); i-- > 0;)
            if (bench.cables[i].label == fault.label)
                gone = edit(bench, bench::RemoveCable{bench.cables[i].id}) || gone;
        return gone;
    }

    bool operator()(const EndMoved& fault) {
        const auto end = placeOf(bench, fault.end);
        const auto to = terminalOf(bench, fault.to);
        return end && to && edit(bench, bench::JoinEnd{bench.cables[end->cable].id, end->end, *to});
    }

    bool operator()(const EndUnmade& fault) {
        const auto place = placeOf(bench, fault.end);
        if (!place) return false;
        bench::Cable& cable = bench.cables[place->cable];
        bench::CableEnd& end = cable.ends[static_cast<std::size_t>(place->end)];
        bench::EndMake make = bench::wellMade(end.kind, cable.area_m2, true);
        make.strip_m = fault.strip_m.value_or(make.strip_m);
        make.pushed_m = fault.pushed_m.value_or(make.pushed_m);
        make.twisted = fault.twisted;
        make.pressed = make.pressed && fault.pressed;
        end.make = make;
        return !fault.torque_Nm || edit(bench, bench::TurnScrew{*end.at, *fault.torque_Nm});
    }

    bool operator()(const TurnedRound& fault) {
        const bench::Part* part = partOf(bench, fault.ref);
        if (!part || bench::spec(part->kind).terminals.size() < 2) return false;
        for (bench::Cable& cable : bench.cables)
            for (bench::CableEnd& end : cable.ends)
                if (end.at && end.at->part == part->id && end.at->terminal < 2)
                    end.at->terminal = static_cast<std::uint8_t>(1 - end.at->terminal);
        return true;
    }

private:
    bool wear(const std::string& ref, bench::Condition condition) {
        const bench::Part* part = partOf(bench, ref);
        return part && edit(bench, bench::WearPart{part->id, condition});
    }
};

// Whether the name is that of what one alteration is about.
struct Naming {
    const Bench& bench;
    const std::string& name;
    int end;

    bool operator()(const FuseOpen& fault) const { return isPart(fault.ref); }

    bool operator()(const ContactWelded& fault) const { return isPart(fault.ref); }

    bool operator()(const TurnedRound& fault) const { return isPart(fault.ref); }

    bool operator()(const Flat& fault) const { return isPart(fault.ref); }

    bool operator()(const CableGone& fault) const { return name == fault.label; }

    bool operator()(const EndMoved& fault) const { return isEnd(fault.end); }

    bool operator()(const EndUnmade& fault) const { return isEnd(fault.end); }

private:
    bool isPart(const std::string& ref) const { return name == ref && end < 0; }

    bool isEnd(const AlteredEnd& altered) const {
        if (name != altered.label) return false;
        const auto place = placeOf(bench, altered);
        return end < 0 || (place && place->end == end);
    }
};

} // namespace

const HiddenFault* faultOf(const Exercise& exercise, std::uint64_t seed) {
    const auto& faults = exercise.faults;
    return faults.empty() ? nullptr : &faults[static_cast<std::size_t>(seed % faults.size())];
}

bench::Bench startOf(const Exercise& exercise, std::uint64_t seed) {
    const HiddenFault* fault = faultOf(exercise, seed);
    auto altered = fault ? withFault(exercise.start, *fault) : std::nullopt;
    return altered ? std::move(*altered) : exercise.start;
}

std::optional<bench::Bench> withFault(const bench::Bench& start, const HiddenFault& fault) {
    Bench altered = start;
    for (const Alteration& alteration : fault.alterations)
        if (!std::visit(Altering{altered}, alteration)) return std::nullopt;
    return altered;
}

bool isNamed(const HiddenFault& fault,
             const bench::Bench& start,
             const std::string& name,
             int end) {
    const Naming naming{start, name, end};
    return std::any_of(fault.alterations.begin(), fault.alterations.end(), [&](const auto& a) {
        return std::visit(naming, a);
    });
}

} // namespace loom::lesson
