// SPDX-License-Identifier: MIT
// The hand: from presses, drags, taps and keys to commands.
#pragma once

#include "screen/board/scene.h"

#include <optional>

namespace loom::screen {

// Why the terminal will not take what is in the hand; nothing when it will.
std::optional<bench::Refusal>
whyNot(const bench::Bench& bench, const BenchUi& ui, bench::TerminalRef to);
// A fuse of this rating goes into this kind of part: blades up to 40 A, bolt-down strips above.
bool takesFuse(bench::PartKind kind, double rating_A);

// With a tool that makes ends, a press on an end or a terminal opens the close-up of it.
bool lookCloser(const bench::Bench& bench, BenchUi& ui, const Press& at);

void handlePointer(const Scene& scene, const View& view, Items& items, BenchUi& ui, Intents& out);
// A push button held down by a key, until it comes up.
void holdButtonByKey(const Scene& scene, BenchUi& ui, bench::PartId id, Intents& out);
void releaseButtonByKey(BenchUi& ui, Intents& out);
void handleKeys(const Scene& scene, const View& view, Items& items, BenchUi& ui, Intents& out);

} // namespace loom::screen
