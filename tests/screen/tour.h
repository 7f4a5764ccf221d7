// SPDX-License-Identifier: MIT
// A way through the screen in the pseudo-language, at three sizes: look() draws what the stage is set
// to at each of them and keeps every fault that text_watch.h finds, once a text.
#pragma once

#include "lessons/hand.h"
#include "screen/text_watch.h"

#include <functional>
#include <map>
#include <set>
#include <string>

namespace loom::test {

class Tour {
public:
    Tour();
    ~Tour();

    using Prepare = std::function<void(Stage&)>;
    // At every size; prepare sets what depends on it, before the frames that are looked at.
    void look(const std::string& where, const Prepare& prepare = nullptr);
    // The same with the paper in front, a leaf chosen, from its top to its foot.
    void leaf(const std::string& where, screen::PaperLeaf leaf, bool courses = false);
    // The card of everything on the bench, each card once a tour.
    void cards(const std::string& where);
    // What a wiring, step by step, comes to.
    void take(const lesson::Exercise& exercise,
              const nlohmann::json& file,
              const nlohmann::json& steps,
              std::uint64_t seed = 0);

    bench::PartId part(const std::string& ref) const;

    Stage stage;
    std::map<std::string, std::string> faults; // the fault, and where it was first seen
    std::size_t looks = 0, texts = 0;

    void judge(const std::string& where); // draws a frame as the stage is
    // Likewise, from the top of what at_px scrolls to its foot.
    void scroll(const std::string& where, float& at_px);

private:
    void learnNames();

    TextWatch watch;
    std::set<std::string> names, seenCards;
};

} // namespace loom::test
