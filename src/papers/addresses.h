// SPDX-License-Identifier: GPL-3.0-or-later
// Which network address each device gets: routers, recorders and switches first, cameras from the eleventh on, in the
// document's order, so that the same site always comes to the same plan.
//   Model    a recorder that cameras reach, and that something else reaches from which no camera is reached but through
//            it, has two networks: the cameras' and the house's. The house's addresses are the house's to give
//   Source   dotted decimal and prefix lengths: RFC 4632; addresses for private networks: RFC 1918
//   Checked  addresses_test.cpp
#pragma once
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "base/result.h"
#include "need/project.h"

namespace sightfall::papers {

/// An IPv4 network.
struct Network {
  uint32_t base = 0;
  int prefix = 24;
};

/// Such as `192.168.50.0/24`. Errors: other text, a prefix that is not 8 to 29, bits set beyond the prefix.
Result<Network> network_of(const std::string& text);

struct Address {
  std::string device;
  std::string kind;     ///< `camera`, `recorder`, ...
  std::string address;  ///< empty on the house's network
  bool house = false;   ///< whether it is on the house's network; a recorder may be on both
};

/// Devices on the house's network, which a recorder parts from the cameras; and the recorders that do. None: all that
/// is there is on one network.
struct House {
  std::set<std::string> devices, recorders;
};
House house_of(const need::Project& project);

/// Errors: a network too small for all of them.
Result<std::vector<Address>> addresses_of(const need::Project& project, const Network& network);

/// `255.255.255.0`
std::string mask_of(const Network& network);

}  // namespace sightfall::papers
