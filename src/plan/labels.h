// SPDX-License-Identifier: MIT
// Where each cable's label goes on the drawing: on its own line where it covers nothing, else beside
// it with a thin stroke. Used by drawing.cpp only.
#pragma once

#include "plan/drawing.h"

namespace loom::plan {

// taken: what no label may cover. Sets label, turned and leader of each cable.
void placeLabels(const Plan& plan,
                 const std::vector<MmBox>& taken,
                 std::vector<DrawnCable>& cables);

// How many foreign lines run under the cable's label.
int covered(const std::vector<DrawnCable>& cables, std::size_t label);

} // namespace loom::plan
