// SPDX-License-Identifier: MIT
// FNV-1a, 64 bits, over values one by one and never over raw memory: the same number for the same
// values natively and in the browser. Source: G. Fowler, L. C. Noll, K.-P. Vo, IETF
// draft-eastlake-fnv: offset basis and prime of its section on 64 bits.
#pragma once

#include <cstdint>
#include <cstring>
#include <string_view>

namespace loom::circuit {

class Hash {
public:
    // Bytes by themselves, without their number.
    void addBytes(std::string_view bytes) {
        for (const char byte : bytes)
            addByte(static_cast<unsigned char>(byte));
    }

    void add(std::uint64_t word) { // least byte first
        for (int k = 0; k < 8; ++k)
            addByte((word >> (8 * k)) & 0xFF);
    }

    void add(double x) { // both zeros alike
        std::uint64_t bits = 0;
        if (x != 0.0) std::memcpy(&bits, &x, sizeof bits);
        add(bits);
    }

    std::uint64_t value() const { return hash; }

private:
    void addByte(std::uint64_t byte) {
        hash ^= byte;
        hash *= 1099511628211u;
    }

    std::uint64_t hash = 14695981039346656037u;
};

} // namespace loom::circuit
