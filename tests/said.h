// Phrases in tests as what a reader sees of them: compared with a text, and shown by doctest.
#pragma once

#include "words/sentences.h"

#include <doctest/doctest.h>
#include <string>

namespace loom::bench {

inline bool operator==(const Phrase& phrase, const std::string& text) {
    return words::text(phrase) == text;
}

inline bool operator==(const Phrase& phrase, const char* text) {
    return words::text(phrase) == text;
}

} // namespace loom::bench

namespace doctest {

template <> struct StringMaker<loom::bench::Phrase> {
    static String convert(const loom::bench::Phrase& phrase) {
        return loom::words::text(phrase).c_str();
    }
};

} // namespace doctest
