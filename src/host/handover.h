// SPDX-License-Identifier: MIT
// Handing the bench to somebody else: as a file of the whole attempt, or as a link that carries the
// bench as it stands. What comes in lies beside the receiver's own work, never over it.
#pragma once

#include "host/app.h"

#include <string>

namespace loom::host {

// Document of an attempt that somebody handed over: "handed:EXERCISE".
inline const std::string handed = "handed:";

void handOverFile(const App& app); // a download, NAME.attempt.json
void handOverLink(const App& app); // into the clipboard; linkMade() says what became of it

// How a link came out: too long for a link, copied, or refused by the browser.
enum class LinkMade { TooLong, Copied, NotCopied };

void linkMade(App& app, LinkMade how);
// A link's text, from the address. One that cannot be read changes nothing but the notice.
void linkRead(App& app, const std::string& text);

// Puts an attempt that came from elsewhere on the bench.
std::optional<bench::Refusal> takeUpHanded(App& app, attempt::Record record);

} // namespace loom::host
