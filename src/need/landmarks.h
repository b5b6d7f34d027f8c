// SPDX-License-Identifier: GPL-3.0-or-later
// What stands fixed on a site and is plain to tell: corners of buildings and roofs, ends of walls, thin posts, trunks
// and lamps.
//   Limits   what moves (vehicles) is none, and of a thick box no corner is plain to see from everywhere
//   Checked  aim_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "need/aim.h"

namespace sightfall::need {

struct Landmark {
  std::string name;
  geom::SitePoint at;
  double before = 0.15;  ///< m: so far before it its own body may be in the way
};

/// What an end of a wall is called: by its side of the compass from the other end, or of the gap between the two where
/// the wall comes round to itself.
std::string end_name(const site::Solid& wall, bool last);

std::vector<Landmark> landmarks_of(const site::Site& site);

/// The nearest corner or end that a tape can be held to, at most kCornerReach away on the plan.
std::optional<CornerNear> corner_near(const site::Site& site, geom::PlanPoint mount);

}  // namespace sightfall::need
