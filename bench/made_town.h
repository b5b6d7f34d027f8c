// SPDX-License-Identifier: GPL-3.0-or-later
// A made town for benchmarks: streets around blocks of buildings, a thousand cameras on their walls, samples in the
// streets.
#pragma once
#include <vector>

#include "geom/vec.h"
#include "need/project.h"

namespace sightfall::bench {

/// The same town every time: an invented grid of blocks some 300 m wide.
need::Project made_town(int cameras);

/// Points 1.6 m above the town's streets, about `count` of them.
std::vector<geom::SitePoint> street_points(const need::Project& town, int count);

/// Points 1.6 m above ground all over a site, about `count` of them.
std::vector<geom::SitePoint> ground_points(const need::Project& project, int count);

}  // namespace sightfall::bench
