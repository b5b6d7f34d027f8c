// SPDX-License-Identifier: GPL-3.0-or-later
// Which port of a feed each run takes, and whether there are as many as are wanted, with power and without.
//   Model    ports that the document numbers; then what takes its power there, at the lowest free powered ports; then
//            other runs that start there and those that arrive, at the lowest free ones without power, else with it
//   Limits   an injector's inputs are not among its ports: each goes with the port of its number; fast ports for
//            uplinks are not told from others
//   Checked  ports_test.cpp
#pragma once
#include <set>
#include <string>
#include <vector>

#include "loads/bearing.h"
#include "need/project.h"

namespace sightfall::loads {

/// A port of a feed that a run takes.
struct PortTaken {
  const site::Run* run = nullptr;
  int port = 0;           ///< 0: none was free
  bool incoming = false;  ///< whether the run ends here
  bool proposed = false;  ///< the document numbers none
};

/// The ports of a feed that are taken: those that are numbered, then proposals.
std::vector<PortTaken> ports_taken(const need::Project& project, const site::Feed& feed);

/// The port at which a run of network starts, numbered or proposed; 0: none was free.
int port_of(const need::Project& project, const site::Run& run);

/// The runs of pairs over which what hangs at their end takes its power from a powered port, numbered or proposed.
std::set<const site::Run*> powered_runs(const need::Project& project);

/// Ports of a feed beside what is to end in them.
struct PortsUse {
  std::string feed;
  int taken = 0, ports = 0;
  int fed = 0, powered = 0;  ///< cameras and feeds that take their power there; ports that give it
  Held held = Held::kMet;
  std::string remedy;
};

/// Of the feeds that runs end in, in the document's order.
std::vector<PortsUse> ports_in_use(const need::Project& project);

}  // namespace sightfall::loads
