// SPDX-License-Identifier: MIT
// Keeps the attempt on the bench in the browser as it is worked on. follow() an attempt when it
// comes on the bench, look() after every frame; nothing else need ask for a save. A document is an
// exercise's id, "free", "file" (an opened file), "bench:NAME" (one built into the program) or
// "handed:NAME" (somebody else's, see handover.h).
#pragma once

#include "attempt/attempt.h"

#include <optional>
#include <string>

namespace loom::host {

class Autosave {
public:
    // The attempt comes from storage, or is not worth keeping until something is done.
    void follow(std::string document, const attempt::Attempt& attempt);
    // Writes soon when the attempt has moved since it was last written.
    void look(const attempt::Attempt& attempt);
    // Writes at once. leaving: the page may be gone before an answer comes.
    void write(const attempt::Attempt& attempt, bool leaving = false);
    // As write(), when there is something unsaved.
    void writeChanges(const attempt::Attempt& attempt, bool leaving = false);

    const std::string& document() const { return name; }

    // Asks whether another page has newer work by now.
    void check() const;

    // Storage's answers. The mark says to which write; one about an earlier write is ignored.
    void saved(int which);
    void notSaved(int which, bool overtaken);

    void unavailable() {
        trouble = Trouble::None;
        keepsNothing = true;
    }

    enum class Trouble {
        None,
        Failed,   // the last write did not succeed; the next is tried all the same
        Overtaken // another page has newer work: nothing more is written from here
    };

    Trouble lastTrouble() const { return trouble; }

    bool keepsNothingHere() const { return keepsNothing; }

    // Revision of the attempt that storage holds; nothing before the first write.
    std::optional<std::uint64_t> savedRevision() const { return kept; }

private:
    struct Stand {
        std::uint64_t revision = 0;
        std::size_t entries = 0;

        bool operator!=(const Stand& other) const {
            return revision != other.revision || entries != other.entries;
        }
    };

    static Stand standOf(const attempt::Attempt& attempt);

    std::string name;
    Stand written;
    int mark = 0;
    std::optional<std::uint64_t> kept;
    Trouble trouble = Trouble::None;
    bool keepsNothing = false;
};

} // namespace loom::host
