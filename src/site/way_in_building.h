// SPDX-License-Identifier: GPL-3.0-or-later
// How a line on the plan lies to a building: around it, into or through it, or all of it within.
//   Model    looked at every 0.1 m; what is nearer than 0.3 m to a wall is along it, not inside
//   In/Out   metres; outlines without flaw
//   Checked  way_in_building_test.cpp: a house and a courtyard by pencil
#pragma once
#include <optional>
#include <vector>

#include "geom/polygon.h"
#include "site/site.h"

namespace sightfall::site {

/// The first place of the line that lies inside the outline, clear of its walls and holes; nothing when none does.
std::optional<geom::PlanPoint> first_inside(const std::vector<geom::PlanPoint>& line, const geom::Outline& outline);

/// A building that a line leads into.
struct Entered {
  const Solid* building = nullptr;
  bool whole = false;  ///< whether all of the line lies in it or along its walls
};

/// The first of the buildings that the line leads into; nothing when it keeps clear of all.
std::optional<Entered> building_entered(const std::vector<geom::PlanPoint>& line, const std::vector<Solid>& solids);

}  // namespace sightfall::site
