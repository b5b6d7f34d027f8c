// SPDX-License-Identifier: GPL-3.0-or-later
// The network: what each link, recorder and way out carries.
//   Model    docs/models.md section 9: each camera's stream goes to the nearest recorder through the runs, once, with
//            what packets add (loads/packets.h); a link carries the lowest of port, uplink and cable. Peaks: the larger
//            of day and night. Who looks on inside the site takes the recorder's copy, unless a feed states viewers
//            there: these take each camera's own stream, a copy each, or by multicast one together. Viewers outside are
//            each sent a small picture by the router
//   Limits   whether switches pass multicast only where it is asked for is not known; bursts within a second and what
//            else uses the network are not counted
//   Checked  network_test.cpp
#pragma once
#include <string>
#include <vector>

#include "loads/bearing.h"
#include "loads/cabling.h"
#include "loads/ports.h"
#include "loads/stream_rate.h"

namespace sightfall::loads {

struct LinkLoad {
  std::string run, from, to;
  int streams = 0;
  Bearing<DataRate> rate;            ///< on the wire
  std::vector<std::string> assumed;  ///< feeds whose port's speed the capacity rests on, and that state none
};

struct IntakeLoad {
  std::string recorder;
  int streams = 0;
  Bearing<DataRate> rate;
};

struct NetworkLoads {
  std::vector<StreamRate> rates;
  std::vector<LinkLoad> links;
  std::vector<IntakeLoad> intakes;
  std::vector<PortsUse> ports;
  std::vector<LinkLoad> ways_out;       ///< routers: from is the router, streams are viewers
  std::vector<std::string> unrecorded;  ///< cameras without a card from which no run leads to a recorder
  std::string first_to_fail;            ///< a sentence (first_to_fail.h); empty without a camera
  std::vector<Caution> cautions;
  Held held = Held::kMet;
};

NetworkLoads network(const need::Project& project, const Cabling& cabling, std::vector<StreamRate> rates);

/// The recorder that a camera's stream goes to, or empty. Of many cameras StreamNet tells it sooner.
std::string recorder_of(const need::Project& project, const Cabling& cabling, const std::string& camera);

}  // namespace sightfall::loads
