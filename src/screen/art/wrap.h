// SPDX-License-Identifier: MIT
// A text broken into the lines of a column. Sizes are Dear ImGui's, in pixels.
#pragma once

#include <imgui.h>
#include <string_view>
#include <vector>

namespace loom::art {

float lineWidth(ImFont* font, float size, std::string_view text);

// Where the letter after the one at `at` begins, or the text's end.
std::size_t nextLetter(std::string_view text, std::size_t at);

// Lines of a text in a column; views into it. Breaks at spaces, but not between a number and its
// unit; a word wider than the column is cut between letters.
std::vector<std::string_view>
wrapped(ImFont* font, float size, float width_px, std::string_view text);

} // namespace loom::art
