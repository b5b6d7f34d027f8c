// SPDX-License-Identifier: GPL-3.0-or-later
// Which network address each device gets: routers, recorders and switches first, cameras from the eleventh on, in the
// document's order, so that the same site always comes to the same plan.
//   Model    a recorder that cameras reach, and that something else reaches from which no camera is reached but through
//            it, has two networks: the cameras' and the house's. The house's addresses are the house's to give
//   Source   addresses for private networks: RFC 1918
//   Checked  addresses_test.cpp
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/network.h"
#include "base/result.h"
#include "need/project.h"

namespace sightfall::papers {

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

/// As the document states it, if it does.
std::optional<Network> house_network(const need::Project& project);

/// Errors: a network too small for all of them, or one that overlaps the house's.
Result<std::vector<Address>> addresses_of(const need::Project& project, const Network& network);

/// The network's last address, for a laptop while devices are set up; none where a device has it.
std::optional<std::string> address_for_laptop(const Network& network, const std::vector<Address>& taken);

}  // namespace sightfall::papers
