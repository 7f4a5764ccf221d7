// SPDX-License-Identifier: MIT
// What the bench shows and does at this instant, as JSON, for browser tests and for measuring. The
// page offers it as window.loomProbe() when its address has ?probe: an object whose members are the
// sections below, each told when it is first looked at.
//
//   inputSeen     all input so far has been read and drawn once
//   settled       it has also settled (a running motor does not unsettle it)
//   framesWanted  frames still to come after the last input; moving: frames go on by themselves
//   frames        drawn so far; cpuFrame_ms own work of each, graphics_ms handing it to WebGL (means)
//   behind_s      model time dropped because frames or the model were too slow; time_s model time
//   rects         name -> [x, y, width, height] in CSS pixels; focused: the item with the keyboard
//   document      what is open; exercise its id; bench as in a bench file; revision of it; saved the
//                 revision that storage holds, null before the first save
//   live          supply, parts by ref and cables by id with their readings
//   events        sentences; notice the refusal on show; verdict of the last check
//   hand          what is held; pointer where it is, null for a lifted finger; camera
//   reducedMotion as the system asks
#pragma once

#include "host/app.h"

#include <string>
#include <string_view>

namespace loom::host {

// One section; of another name: the list of all names.
std::string probe(const App& app, std::string_view section);

} // namespace loom::host
