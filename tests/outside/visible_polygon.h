// SPDX-License-Identifier: GPL-3.0-or-later
// The exact visibility polygon of a point in a polygon with holes.
//   Library  CGAL (2D visibility, triangular expansion, exact constructions), only in visible_polygon.cpp
#pragma once
#include "geom/polygon.h"

namespace sightfall::outside {

/// What is seen from an eye inside the outline: a ring in plan, corners rounded to double. The eye must not lie on an
/// edge.
geom::Ring visible_polygon(const geom::Outline& outline, geom::PlanPoint eye);

}  // namespace sightfall::outside
