// SPDX-License-Identifier: GPL-3.0-or-later
// What an upright plane cuts out of a mesh, as a surveyor draws it: distance along the ground and height.
//   In/Out   metres; x: along the plane's direction from its origin, y: height
//   Limits   triangles that lie in the plane give no line; their neighbours do
//   Checked  section_test.cpp: boxes and slopes by pencil; no loose end on a closed mesh
#pragma once
#include <vector>

#include "geom/contour.h"
#include "geom/mesh.h"

namespace sightfall::geom {

/// The lines of a mesh in the plane through `origin` along `direction` (unit), from distance 0 to `reach`, joined where
/// they meet.
std::vector<Polyline> section(const Mesh& mesh, PlanPoint origin, PlanPoint direction, double reach);

}  // namespace sightfall::geom
