// SPDX-License-Identifier: MIT
// A contact: closed it is a resistance, opened it is a gap that may arc (gap.h). Serves Contact and
// both contacts of a Relay. A resistance of zero is taken as kConflict_ohm (stage.h).
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct ContactPart {
    std::uint32_t branch = 0;
    double resistance_ohm = kConflict_ohm;
    Gap gap;

    // At time_s, while it carries current_A. True when that is a change.
    bool move(bool closed, double current_A, double time_s);
};

struct Contacts : GapModel<Contact, ContactPart> {
    static bool valid(const Contact& spec);
    Entry add(const Contact& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void markSilent(std::vector<char>& silent) const;
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void read(const View& view, std::uint32_t index, Reading& r) const;
};

} // namespace loom::circuit
