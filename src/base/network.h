// SPDX-License-Identifier: GPL-3.0-or-later
// IPv4 networks as they are written: an address, a stroke and how many bits are the network's.
//   Source   dotted decimal and prefix lengths: RFC 4632
//   Checked  network_test.cpp
#pragma once
#include <cstdint>
#include <string>

#include "base/result.h"

namespace sightfall {

struct Network {
  uint32_t base = 0;
  int prefix = 24;

  bool operator==(const Network&) const = default;
};

/// Such as `192.168.50.0/24`. Errors: other text, a prefix that is not 8 to 29, bits set beyond the prefix.
Result<Network> network_of(const std::string& text);

/// `192.168.50.7`
std::string dotted(uint32_t address);

/// `255.255.255.0`
std::string mask_of(const Network& network);

/// How many addresses devices can have in it: without the network's own and the one for all.
uint32_t usable_in(const Network& network);

/// Whether they have an address in common.
bool overlap(const Network& a, const Network& b);

}  // namespace sightfall
