// SPDX-License-Identifier: MIT
// From the attempt's meter reading to what the display tells.
#include "attempt/meter_reading.h"
#include "screen/meter/face.h"

#include <algorithm>

namespace loom::screen {

Measured measured(const attempt::Attempt& attempt) {
    const auto& meter = attempt.bench().meter;
    const attempt::MeterReading reading = attempt::meterReading(attempt);
    Measured out;
    if (!meter || !reading.on) return out;
    out.range = meter->range;
    out.value = reading.value;
    out.uncertainty = reading.uncertainty;
    out.digit = reading.digit;
    out.sounds = reading.tone;
    out.kind = reading.fuseOpen ? Measured::Kind::FuseOpen
               : reading.live   ? Measured::Kind::Live
               : reading.beyond ? Measured::Kind::Over
                                : Measured::Kind::Value;
    return out;
}

std::size_t measurements(const attempt::Record& record) {
    return static_cast<std::size_t>(std::max(0, attempt::measurementsOf(record)));
}

} // namespace loom::screen
