// Files built into the program: drawings, strings, lessons and fonts, so that neither the page nor
// the command reads any of them from disk. Start with findEmbedded("lessons/NAME.json").
// It does not hold anything the user made.
#pragma once

// One file. `bytes` lives as long as the program and is followed by one zero byte, so that text
// may be used as a C string.
struct Embedded {
    const char* path;           // as in the repository, with '/'; fonts are "fonts/NAME.ttf"
    const unsigned char* bytes; // never null
    unsigned size;              // in bytes, without the zero
};

// The file of exactly this path, or null when there is none.
const Embedded* findEmbedded(const char* path);

// All files in order of path, for listing a folder.
const Embedded* allEmbedded();
unsigned embeddedCount();
