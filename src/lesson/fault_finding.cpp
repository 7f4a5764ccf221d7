// SPDX-License-Identifier: MIT
#include "lesson/fault_finding.h"

#include "attempt/meter_reading.h"

namespace loom::lesson {

FaultFinding faultFinding(const Exercise& exercise, const attempt::Record& record) {
    FaultFinding finding;
    const HiddenFault* fault = faultOf(exercise, record.seed);
    attempt::Record looking = record; // until it was found
    for (std::size_t i = 0; i < record.entries.size() && !finding.found; ++i) {
        const attempt::Entry& entry = record.entries[i];
        const auto* named = std::get_if<attempt::NameFault>(&entry.command);
        if (!named) continue;
        ++finding.namings;
        finding.lastNamed = named->name;
        finding.found = fault && isNamed(*fault, exercise.start, named->name, named->end);
        if (!finding.found) continue;
        looking.entries.resize(i);
        looking.slices = entry.slice;
    }
    finding.measurements = attempt::measurementsOf(looking);
    return finding;
}

} // namespace loom::lesson
