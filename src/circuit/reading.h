// SPDX-License-Identifier: MIT
// What can be said of one element at one time.
#pragma once

namespace loom::circuit {

// Signs: voltage is a minus b (plus minus minus, anode minus cathode, coilA minus coilB), current
// enters at a and leaves at b; a battery's current is positive when it delivers.
struct Reading {
    double voltage_V = 0.0;
    double current_A = 0.0;
    double power_W = 0.0; // taken up; a battery's is what it delivers
    double temp_K = 293.15;
    // Relay: the coil is in voltage/current; the two contacts here. Others: zero.
    double contactNO_A = 0.0, contactNC_A = 0.0;
    bool pulledIn = false;    // relay armature, or a contact closed
    bool open = false;        // fuse melted, filament gone, cable parted
    double speed_rad_s = 0.0; // motor
    double angle_rad = 0.0;   // motor, within [0, 2 pi)
    double charge = 0.0;      // battery, 0..1
    double melting = 0.0;     // fuse: 0 cold .. 1 opens
    double brightness = 0.0;  // lamp: light output over rated
    bool gassing = false;     // battery: driven so far that it gives off gas; keep sparks away
};

} // namespace loom::circuit
