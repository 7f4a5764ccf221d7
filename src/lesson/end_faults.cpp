// SPDX-License-Identifier: MIT
#include "lesson/end_faults.h"

#include "plan/plan.h"

#include <algorithm>

namespace loom::lesson {
namespace {

const char* keyOf(bench::EndFault fault) {
    using bench::EndFault;
    switch (fault) {
    case EndFault::NotStripped:
        return "end-fault/not-stripped";
    case EndFault::StripTooShort:
        return "end-fault/strip-too-short";
    case EndFault::StripTooLong:
        return "end-fault/strip-too-long";
    case EndFault::StrandOut:
        return "end-fault/strand-out";
    case EndFault::NotPressed:
        return "end-fault/not-pressed";
    case EndFault::NotPushedIn:
        return "end-fault/not-pushed-in";
    case EndFault::OnSleeve:
        return "end-fault/on-sleeve";
    case EndFault::ScrewOpen:
        return "end-fault/screw-open";
    case EndFault::ScrewLoose:
        return "end-fault/screw-loose";
    case EndFault::ScrewTight:
        return "end-fault/screw-tight";
    case EndFault::ScrewBroken:
        return "end-fault/screw-broken";
    }
    return "";
}

} // namespace

bench::Phrase faultAt(const bench::Bench& bench, const bench::Cable& cable, int end) {
    const auto& at = cable.ends[static_cast<std::size_t>(end)].at;
    if (!at) return {};
    const bench::EndState state = bench::stateOf(bench, cable, end);
    if (state.faults.empty()) return {};
    return bench::phrase("end-fault",
                         {{"label", cable.label},
                          {"place", plan::placeName(bench, *at)},
                          {"fault", bench::phrase(keyOf(state.faults.front()))}});
}

std::vector<bench::Phrase> faultsOf(const bench::Bench& bench,
                                    const std::vector<std::string>& labels) {
    std::vector<bench::Phrase> faults;
    for (const bench::Cable& cable : bench.cables) {
        const bool asked =
            labels.empty() || std::find(labels.begin(), labels.end(), cable.label) != labels.end();
        for (int end = 0; asked && end < 2; ++end) {
            bench::Phrase fault = faultAt(bench, cable, end);
            if (!fault.empty()) faults.push_back(std::move(fault));
        }
    }
    return faults;
}

} // namespace loom::lesson
