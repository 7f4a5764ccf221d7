// SPDX-License-Identifier: MIT
// Tells the page what is on the canvas: for screen readers a list of everything that can be
// pressed, and the last sentence. At most once a second, and when the frames come to rest.
#pragma once

#include "screen/kit/items.h"

#include <string>
#include <string_view>

namespace loom::host {

class Mirror {
public:
    // Once, when the words are there.
    static void describeCanvas();
    // resting: no further frame comes soon, so nothing may be left for later.
    void show(const screen::Items& items, std::string_view sentence, double now_s, bool resting);

private:
    std::string shown, said;
    double last_s = -1e9;
};

} // namespace loom::host
