// SPDX-License-Identifier: MIT
#include "lesson/end_words.h"

#include "plan/plan.h"

#include <algorithm>

namespace loom::lesson {

const char* words(bench::EndFault fault) {
    using bench::EndFault;
    switch (fault) {
    case EndFault::NotStripped:
        return "the sleeve is still on";
    case EndFault::StripTooShort:
        return "too little copper is bare";
    case EndFault::StripTooLong:
        return "too much copper is bare";
    case EndFault::StrandOut:
        return "a strand stands out";
    case EndFault::NotPressed:
        return "the fitting is not pressed on";
    case EndFault::NotPushedIn:
        return "it is not pushed home";
    case EndFault::OnSleeve:
        return "the screw is on the sleeve";
    case EndFault::ScrewOpen:
        return "the screw was never tightened";
    case EndFault::ScrewLoose:
        return "the screw is loose";
    case EndFault::ScrewTight:
        return "the screw is too tight";
    case EndFault::ScrewBroken:
        return "the screw is broken";
    }
    return "";
}

std::string faultAt(const bench::Bench& bench, const bench::Cable& cable, int end) {
    const auto& at = cable.ends[static_cast<std::size_t>(end)].at;
    if (!at) return {};
    const bench::EndState state = bench::stateOf(bench, cable, end);
    if (state.faults.empty()) return {};
    return cable.label + " at " + plan::placeName(bench, *at) + ": " + words(state.faults.front());
}

std::vector<std::string> faultsOf(const bench::Bench& bench,
                                  const std::vector<std::string>& labels) {
    std::vector<std::string> faults;
    for (const bench::Cable& cable : bench.cables) {
        const bool asked =
            labels.empty() || std::find(labels.begin(), labels.end(), cable.label) != labels.end();
        for (int end = 0; asked && end < 2; ++end) {
            std::string fault = faultAt(bench, cable, end);
            if (!fault.empty()) faults.push_back(std::move(fault));
        }
    }
    return faults;
}

} // namespace loom::lesson
