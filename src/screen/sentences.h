// SPDX-License-Identifier: MIT
// The words of the screen: those of src/words, by the names that the screen uses.
#pragma once

#include "words/sentences.h"

namespace loom::screen {

using words::amount;
using words::celsius;
using words::hasWords;
using words::language;
using words::nextAct;
using words::plainNumber;
using words::sentence;
using words::setStrings;
using words::squareMillimetres;
using words::text;
using words::timeOf;
using words::words;

} // namespace loom::screen
