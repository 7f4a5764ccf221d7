// SPDX-License-Identifier: MIT
#include "desk/help.h"

#include "bench/catalogue.h"
#include "desk/quantity.h"

namespace loom::desk {

namespace {

constexpr const char* kBeginning = R"(loomwright: the wiring bench without its window

  loomwright try BENCH.loom.json --read QUANTITY... [options]
      runs a bench and prints what is read as time goes on
  loomwright new [free|pippin]
      prints a bench file: the free bench, or the whole loom of Pippin
  loomwright replay ATTEMPT.json
      runs a recorded attempt again; prints the hash of its last state,
      and on standard error what happened
  loomwright check EXERCISE.json ATTEMPT.json
      marks a recorded attempt; prints each check, what is wrong, the marks
  loomwright mark EXERCISE.json ATTEMPT.json...
      marks many attempts at one exercise; prints a table (CSV), a line each
  loomwright check EXERCISE.json [--alarms]
      makes every single mistake of the worked solution and prints how many the marks
      catch, how many are proved harmless, and which are missed. --alarms: also those
      that cost marks though every part acts as in the solution.
  loomwright record EXERCISE.json [SCRIPT] [--seed N]
      does what a script says, or the worked solution, and prints the attempt
  loomwright paper EXERCISE.json plan|sheet|parts|labels|all
      prints the pages of the exercise's plan for the real build, as one SVG
  loomwright faults BENCH.loom.json [--common TERMINAL] [--named TERMINAL TERMINAL]...
      tries every short, every open cable and fuse and every contact that does not let
      go, in every position of the controls, and prints the cables that would get too
      warm before a fuse opens. --common: the battery pole without a fuse, such as
      B1/minus. --named: a cable that need not be guarded, by what it joins.
  loomwright --help

Options of try:
  --do SCRIPT      what is done and when: a file, or lines in quotes; may be repeated
  --for SECONDS    how long (usual: 1 s after the last line of the scripts)
  --every SECONDS  how often to read (usual: 0.1)
  --read QUANTITY...
  --as csv|json    how to print (usual: csv)
  --events         what happens goes into the table: a column of the CSV, "events" in
                   the JSON. Without it, it goes to standard error as sentences.
All times are rounded to 0.01 s.

A script has one command a line (or several, parted by ;). A number in front is the
time in seconds; without it the line comes at the time of the line before. # begins a
remark, "..." holds words together. Places are metres from the board's top left corner;
a cable's ends are 1 and 2.
  0.5 Q1 off            set a control; the positions are below
  F2 fit 10             fit a fuse of 10 A        F2 fit none    take it out
  lay K1 0.5 0.3 1      a part from the tray, here, a quarter turned (all three may be
                        left out)
  move K1 0.6 0.3       turn K1 2                 remove K1      remove P-06
  take P-06             a ready-made cable, both ends loose
  join P-06 2 K1 normally open
  join P-02 2 X1 10 upper                         X1 10 is the hole with room
  free P-06 2           take an end off
  cut B1 plus to F2 in mm2 1 sleeve red length 0.4 label W-1
                        a cable from a reel, joined; what follows the second terminal
                        may be left out
  undo                  redo
  strip P-06 1 10       take 10 mm of sleeve off    twist P-06 1    press P-06 1 ferrule
  push P-06 1 10        10 mm in        tug P-06 1      finish P-06 1   all of it, well
  screw X1 3 upper open     also: to 0.5 (N m), new
  tie P-06 0.5          to the frame    tie P-06 0.5 with P-07 0.4      untie 1
  meter out             then volts, ohms, tone, amperes, off; fuse: a new one; hung
  probe red K1 coil a   probe black end P-06 2          probe red off
  axle M1 blocked       axle M1 clear
  mark P-06 right       on the check sheet; wrong, none         hand-in
  look P-06 2           look M1         call-clear      fault P-06 2
Of several cables with one label, P-14#2 is the second.

A QUANTITY is NAME.WHAT, where NAME is a part's reference or a cable's label, or it is
the voltage between two terminals: X1/1-X1/10, "K1/coil a-K1/coil b".
A rocker has S1.contact.WHAT and S1.lamp.WHAT, a selector S2.forward.WHAT and
S2.reverse.WHAT. `meter` is the number on the hand meter. Currents enter at the first
terminal; a battery's is positive when it delivers. A cell stays empty while the thing
is not on the bench or no path joins the terminals.
)";

constexpr const char* kEnding = R"(
Exit codes: 0 done; 1 wrong arguments; 2 a file, a script or a quantity could not be
read, and the message says where; 3 the bench refused a line of the script; 4 check:
not all marks, faults: a cable is in danger; 5 check: the attempt was altered after it
was made, or is one at something else.
)";

std::string measuresText() {
    std::string text = "WHAT is one of";
    std::size_t column = text.size();
    for (const Measure& measure : measures()) {
        std::string item = std::string(" ") + measure.word;
        if (*measure.unit) item += std::string(" (") + measure.unit + ")";
        item += &measure == &measures().back() ? "." : ",";
        if (column + item.size() > 84) {
            text += "\n ";
            column = 1;
        }
        text += item;
        column += item.size();
    }
    return text + "\n";
}

std::string partsText() {
    std::string text = "\nParts, their terminals, and the positions of their control:\n";
    for (const bench::PartKind kind : bench::allKinds()) {
        const bench::PartSpec& spec = bench::spec(kind);
        text += "  " + std::string(spec.word) + ": ";
        if (bench::isA(kind, bench::PartClass::Block)) {
            text += "1 upper, 1 lower, ... 10 upper, 10 lower";
        } else {
            for (const bench::TerminalSpec& terminal : spec.terminals)
                text +=
                    (&terminal == &spec.terminals.front() ? "" : ", ") + std::string(terminal.word);
        }
        for (std::size_t i = 0; i < spec.positions.size(); ++i)
            text += (i ? ", " : "; ") + std::string(spec.positions[i]);
        text += "\n";
    }
    return text;
}

} // namespace

std::string helpText() {
    return kBeginning + measuresText() + partsText() + kEnding;
}

} // namespace loom::desk
