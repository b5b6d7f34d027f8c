// SPDX-License-Identifier: GPL-3.0-or-later
// How far a line of sight clears a height grid, worked out along the line, without rays.
//   Model    kTriangles: the ground between crossings of the grid's lines and diagonals is straight (two triangles a
//            cell, split from south-west to north-east), so only crossings count. kGridLines: only crossings of rows
//            and columns, heights linear between neighbours, nothing said about what is between: what raster programs
//            take.
//   Error    exact but for rounding in double
#pragma once
#include "site/site.h"

namespace sightfall::outside {

enum class Surface { kTriangles, kGridLines };

/// The least height, m, of the line above the surface strictly between its ends; negative: the line goes through the
/// ground. Both ends lie over the grid. A line that crosses nothing clears by infinity.
double clearance(const site::Terrain& terrain, Surface surface, geom::SitePoint from, geom::SitePoint to);

}  // namespace sightfall::outside
