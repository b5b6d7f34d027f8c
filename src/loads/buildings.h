// SPDX-License-Identifier: GPL-3.0-or-later
// Which building something is in, whether a straight piece goes through walls, and what else stands over a line.
//   Limits   roofs, walls and boxes are not buildings; a wall that is drawn within kOnWall of where it stands does not
//            count as passed; what hangs more than kOnWall above the ground does not stand on it
//   Checked  buildings_test.cpp
#pragma once
#include <string>
#include <vector>

#include "site/site.h"

namespace sightfall::loads {

inline constexpr double kOnWall = 0.3;  ///< m

/// The building that the point lies in, or null.
const site::Solid* building_around(const site::Site& site, geom::PlanPoint at);

/// The building that the point lies in or hangs on, or null.
const site::Solid* building_at(const site::Site& site, geom::PlanPoint at);

/// Names of buildings that the line goes into or out of by more than kOnWall.
std::vector<std::string> walls_passed(const site::Site& site, const std::vector<geom::SitePoint>& line);

/// Names of boxes and walls that stand on the ground where the line runs.
std::vector<std::string> stands_over(const site::Site& site, const std::vector<geom::PlanPoint>& line);

}  // namespace sightfall::loads
