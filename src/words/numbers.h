// SPDX-License-Identifier: MIT
// Numbers as people read them, with the decimal mark of the language. One rounding for the whole
// program: three figures, no trailing zeros.
#pragma once

#include <string>

namespace loom::words {

// A number with its unit at a readable precision: "25.1 V", "18.4 A", "75 mA", "43 °C", "0.9 W".
// Three figures at most; thousandths and thousands by their prefix where people use one; U+2212
// before a negative one; "no reading" for what is not a number. "ohm" is written Ω. Also "K" (told
// in °C), "rad/s" as it is, "turns" (rad/s told in rev/min) and "share" (told in %).
std::string amount(double value, const char* unit);
// As many figures as it takes, nine at most: a limit, a count.
std::string numeral(double value);
// A plain number, as on a blade: "7.5", "30".
std::string plainNumber(double value);
// Of the simulation: "12.4 s", "3 min 05 s".
std::string timeOf(double seconds);
std::string celsius(double temp_K);
std::string squareMillimetres(double area_m2);

} // namespace loom::words
