// SPDX-License-Identifier: MIT
// Brushed permanent-magnet motor.
//
//   v = R i + L di/dt + K w,   J dw/dt = K i - B w - s Tc,   dq/dt = w.
//   v V, i A, w rad/s, q rad; R ohm, L H, K V s/rad (= N m/A), J kg m^2, B N m s,
//   Tc = friction + load in N m; s = +1 turning forward, -1 backward.
//   At rest (s = 0) w = 0 while |K i| <= Tc: dry friction holds it. Leaving and reaching rest are
//   events located in time (events.h). Jammed: w = 0 whatever the torque.
// One stage, with D = J + a B:  w = w0 + b i,  w0 = (J wb - a s Tc)/D,  b = a K/D;
//   i = (L ib + a v - a K w0) / (L + a R + a K b): one branch, positive conductance.
// Winding: one lump, C dT/dt = i^2 R(T) - G (T - ambient), copper. C and G grow with the size of a
//   motor, which K^2/R measures: C = 4e4, G = 150 times it (common practice, no source): for
//   Pippin's 24 V 250 W motor 630 J/K and 2.4 W/K, so that a stall cooks it in a minute.
// Source: the standard equations of a permanent-magnet motor (from memory). Valid: L > 0, J > 0. Left
// out: brush drop, armature reaction, iron loss (put it into friction and viscous). Tested: motor_test,
// published_motors.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

constexpr double kMotorHeat = 4e4, kMotorLoss = 150.0; // J/K and W/K for each N2 m2/W of K^2/R

struct MotorPart {
    Key key = 0;
    std::uint32_t branch = 0;
    std::uint32_t current = 0, speed = 0, angle = 0, temperature = 0; // states
    double resistance_ohm = 0.0, inductance_H = 0.0, constant_Vs = 0.0, inertia_kg_m2 = 0.0;
    double viscous_Nms = 0.0, drag_Nm = 0.0;
    double heat_J_per_K = 1.0, loss_W_per_K = 1.0;
    bool jammed = false;
    int turning = 0; // sign of the speed; 0 held at rest
    int spark = 0;
    double stamped_ohm = 1.0;
    // This stage, of the winding alone: i = line_S v + line_A, w = still_rad_s + perAmpere i.
    double line_S = 0.0, line_A = 0.0, still_rad_s = 0.0, perAmpere_rad_s = 0.0;
    bool stalled = false; // reported

    double resistance(const double* y) const {
        return resistance_ohm * copperFactor(y[temperature]);
    }
};

struct Motors : Model<Motor, MotorPart> {
    static bool valid(const Motor& spec);
    Entry add(const Motor& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void updateTemperatures(Stage& s, const Models& models);
    int sparks() const;
    void findExtinction(Extinction& first) const;
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void addTo(Hash& hash) const;
    void read(const View& view, std::uint32_t index, Reading& r) const;
    bool active(const Activity& now) const;
};

} // namespace loom::circuit
