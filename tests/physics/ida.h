// SPDX-License-Identifier: MIT
// An independent integrator: SUNDIALS IDA (variable-order BDF, dense Newton) on equations that a test
// writes out: states y, rates f(t, y), and quantities whose first zero is an event.
//
//   Independent run({y0...}, f);  run.until(t);  run[k];
//   run.event(g, limit) goes to the first zero of g(t, y) after now and returns its time (NaN: none).
//
// Every step is held to 1e-10 relative and 1e-12 (times the scale of a state) absolute.
// Source: Hindmarsh et al., ACM TOMS 31 (2005). What it integrates is F(t, y, y') = y' - f(t, y) = 0.
#pragma once

#include <functional>
#include <vector>

namespace loom::physics {

class Independent {
public:
    using Rates = std::function<void(double t, const double* y, double* rates)>;
    using Zero = std::function<double(double t, const double* y)>;

    // scale: a typical size of each state, for its absolute tolerance; 1 where not given.
    Independent(std::vector<double> initial, Rates f, std::vector<double> scale = {});
    ~Independent();
    Independent(const Independent&) = delete;
    Independent& operator=(const Independent&) = delete;

    void until(double time_s);
    double event(const Zero& g, double limit_s);
    // Goes on with other states or equations from now: after an event.
    void restart(std::vector<double> states, Rates f);

    double time_s() const { return now_s; }

    double operator[](std::size_t k) const;

    std::vector<double> states() const;

private:
    struct Work;
    void begin();
    void watch(int roots);
    Work* work = nullptr;
    std::vector<double> start, scales;
    Rates rates;
    double now_s = 0.0;
};

} // namespace loom::physics
