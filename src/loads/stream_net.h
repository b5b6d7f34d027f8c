// SPDX-License-Identifier: GPL-3.0-or-later
// The way that a camera's stream takes to a recorder.
//   Model    the runs that carry data as a net without direction, gone through breadth first: the fewest runs count;
//            an injector at which several runs end is as many nodes as it has ports, for each goes by itself
//   Checked  network_test.cpp
#pragma once
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "loads/cabling.h"

namespace sightfall::loads {

class StreamNet {
 public:
  /// Both must outlive it.
  StreamNet(const need::Project& project, const Cabling& cabling);

  /// The runs from a camera to the nearest recorder, from the recorder on, and its name; empty when none is reached.
  std::pair<std::vector<size_t>, std::string> to_recorder(const std::string& camera) const;

  /// The runs from a camera to a feed by its name, from the feed on; none when it is not reached.
  std::vector<size_t> to_feed(const std::string& camera, const std::string& name) const;

 private:
  /// To the nearest feed that is one, and its name.
  std::pair<std::vector<size_t>, std::string> to_nearest(const std::string& camera,
                                                         const std::function<bool(const site::Feed&)>& is_one) const;

  const need::Project& project_;
  std::vector<std::pair<std::string, std::string>> ends_;  ///< nodes that each run joins; none of a run of power
  std::map<std::string, std::vector<size_t>> at_;          ///< runs at a node
};

}  // namespace sightfall::loads
