// SPDX-License-Identifier: MIT
// 200 networks thrown from seeds (tests/problems/random_network.h), their states and events hashed.
#pragma once

// Prints "name hash" for each.
void printRandomNetworks();
