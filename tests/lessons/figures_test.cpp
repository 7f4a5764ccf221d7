// Numbers as a learner reads them.
#include "lesson/figures.h"

#include <doctest/doctest.h>
#include <limits>

namespace {

using namespace loom::lesson;

TEST_CASE("figures have three digits at most and their unit") {
    struct Case {
        double value;
        Quantity quantity;
        const char* text;
    };

    const Case cases[] = {
        {25.7049, Quantity::Voltage_V, "25.7 V"},
        {-25.7049, Quantity::Voltage_V, "−25.7 V"},
        {1e-9, Quantity::Voltage_V, "0 V"},
        {-1e-9, Quantity::Voltage_V, "0 V"},
        {0.0803, Quantity::Current_A, "80 mA"},
        {0.0075, Quantity::Current_A, "7.5 mA"},
        {0.875, Quantity::Current_A, "0.88 A"},
        {9.996, Quantity::Current_A, "10.0 A"},
        {944.6, Quantity::Current_A, "945 A"},
        {20.96, Quantity::Power_W, "21.0 W"},
        {366.5191429188, Quantity::Speed_rad_s, "3500 rev/min"}, // by hand: 3500 / 60 * 2 pi
        {-0.0001, Quantity::Speed_rad_s, "0 rev/min"},
        {0.987, Quantity::Brightness, "99 %"},
        {343.15, Quantity::CableTemp_K, "70 °C"},
        {std::numeric_limits<double>::quiet_NaN(), Quantity::Power_W, "? W"},
        {std::numeric_limits<double>::infinity(), Quantity::Current_A, "? A"},
    };
    for (const Case& c : cases)
        CHECK(figure(c.value, c.quantity) == c.text);
    CHECK(seconds(0.0123) == "12 ms");
    CHECK(seconds(48.26) == "48.3 s");
}

} // namespace
