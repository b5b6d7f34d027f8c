// SPDX-License-Identifier: GPL-3.0-or-later
// The least-seen way: from the boundary to a guarded place, the walk on which a person shows least.
//   Model    shortest path (Dijkstra) on a grid of steps, each as long as the time in sight it costs: its length times
//            1 + kSeenWeight where a person would be made out at the table's lowest level. Walls, buildings and
//            waist-high obstacles stop a step; veils do not.
//   Error    the grid's step: a gap narrower than it may be missed
//   Checked  least_seen_test.cpp: open ground (straight), a wall to go round, a dead corner preferred
#pragma once
#include <optional>

#include "base/progress.h"
#include "need/check.h"
#include "need/frame.h"

namespace sightfall::need {

/// A metre in sight counts as this many more metres.
inline constexpr double kSeenWeight = 20;

/// One way for each guarded place that can be reached from the boundary; without a boundary there is none.
std::vector<LeastSeenWay> least_seen_ways(const Project& project, const LitStations& lit, const std::string& condition,
                                          const Progress& progress);

}  // namespace sightfall::need
