// SPDX-License-Identifier: MIT
#include "circuit/contact.h"

namespace loom::circuit {

void stamp(const std::vector<ContactPart>& contacts, Stage& s) {
    for (const ContactPart& c : contacts) {
        if (!c.gap.closed()) {
            stampGap(c.gap, c.branch, s);
            continue;
        }
        s.g[c.branch] = 1.0 / c.resistance_ohm;
        s.j[c.branch] = 0.0;
    }
}

void settle(std::vector<ContactPart>& contacts, Stage& s) {
    for (ContactPart& c : contacts) {
        if (c.gap.closed())
            s.i[c.branch] = s.g[c.branch] * s.v[c.branch];
        else
            settleGap(c.gap, c.branch, s);
    }
}

} // namespace loom::circuit
