// SPDX-License-Identifier: MIT
// The mechanical world of the board, seen from above: cables lie on it, keep their length, bend no
// tighter than they can, pass over and under one another, and are pulled along by whatever moves
// their ends. Nothing electrical, no mark and no replay depends on it.
//
//   Yard yard(bench);               // everything at rest, laid so that it can be read
//   yard.follow(bench, inHand);     // after each change of the bench, and each frame of a drag
//   yard.step(1.0 / 60);            // each frame; costs nothing while asleep()
//   yard.strand(cable);             // the line to draw
//   for (f : yard.takeFindings())   // what lies against a wheel; what was knocked
//
// Make a new Yard for another document: follow() takes cables of the same id for the same cable.
// The same calls give the same results on one machine, however the time is cut into steps.
#pragma once

#include "bench/bench.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace loom::yard {

// What the hand holds at the moment: it is lifted, so it lies against nothing.
struct InHand {
    bench::PartId part;
    bench::CableId cable;
};

// Something that contact decided. The caller records it as an edit, or lets it be.
struct Finding {
    enum class Kind {
        AxleObstructed, // part: the motor; byCable or byPart lies against its wheel
        AxleFree,       // part: the motor; nothing lies against its wheel any more
        BatteryShifted  // part: a battery that is not strapped; byPart ran into it; to_m: where to
    } kind = Kind::AxleFree;
    bench::PartId part;
    bench::CableId byCable;
    bench::PartId byPart;
    bench::Point to_m;
};

class Yard {
public:
    explicit Yard(const bench::Bench& bench);
    ~Yard();
    Yard(Yard&&) noexcept;
    Yard& operator=(Yard&&) noexcept;

    // Takes up what changed: cables that stayed keep their shapes and are pulled along where an end
    // went elsewhere, new ones are laid, others are gone. One whose last end has just been joined
    // slides into its clearest line, unless it is tied. Give the bench as it is shown, with what
    // is in the hand put where the hand is.
    void follow(const bench::Bench& bench, const InHand& inHand = {});

    // In fixed steps of 1/480 s; what is left over waits for the next call. At most 0.1 s a call.
    void step(double seconds);
    bool asleep() const; // nothing moves, and step() has nothing to do
    // Until asleep, at most 3 s of the yard's time: for a bench that has just been opened.
    void settle();

    // From end 0 to end 1, from the middle of one fitting to that of the other, a point every few
    // centimetres. nullptr for a cable that is not there. Valid until the next call of follow().
    const std::vector<bench::Point>* strand(bench::CableId cable) const;
    // How long each piece of the strand should be [m]. Together: the cable's own length, less what is
    // gathered up out of sight, more where it is too short for where its ends are.
    const std::vector<double>* links(bench::CableId cable) const;
    // Changes whenever a strand does.
    std::uint64_t revision() const;

    // The hand takes a cable by its middle, at the point nearest to `at_m`, pulls and lets go. The
    // hand goes no further than the cable reaches. Only one cable at a time.
    void grip(bench::CableId cable, bench::Point at_m);
    void pull(bench::Point to_m);
    void release();

    // What was found since the last call.
    std::vector<Finding> takeFindings();

private:
    struct Inside;
    std::unique_ptr<Inside> in;
};

} // namespace loom::yard
