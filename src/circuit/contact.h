// SPDX-License-Identifier: MIT
// A contact: closed it is a resistance, opened it is a gap that may arc (gap.h). Serves Contact and
// both contacts of a Relay. A resistance of zero is taken as kConflict_ohm (stage.h).
#pragma once

#include "circuit/gap.h"

namespace loom::circuit {

struct ContactPart {
    std::uint32_t branch = 0;
    double resistance_ohm = kConflict_ohm;
    Gap gap;
};

void stamp(const std::vector<ContactPart>& contacts, Stage& s);
void settle(std::vector<ContactPart>& contacts, Stage& s);

} // namespace loom::circuit
