// SPDX-License-Identifier: GPL-3.0-or-later
// The height of the ground and the site's surfaces as triangles.
//   Checked  ground_test.cpp: planes are met exactly, every solid stands on its ground, meshes are closed
#pragma once
#include <vector>

#include "geom/mesh.h"
#include "site/site.h"

namespace sightfall::site {

/// Height of the ground in the site frame under a plan point. It is read from the same triangles that rays meet, so
/// that a subject never stands inside the ground. Beyond the grid the edge's height goes on.
Length ground_height(const Terrain& terrain, geom::PlanPoint at);

/// The point at a height above the ground.
geom::SitePoint above_ground(const Terrain& terrain, geom::PlanPoint at, Length height);

/// The box around everything that the site describes, empty for an empty site.
geom::Box2 extent(const Site& site);

/// The ground as triangles: the grid, or a flat square well beyond the extent.
geom::Mesh terrain_mesh(const Site& site);

/// One solid as triangles on its ground.
geom::Mesh solid_mesh(const Terrain& terrain, const Solid& solid);

/// One veil as triangles; a volume (hedge, tree) is closed, so that a straight way through crosses it twice.
geom::Mesh veil_mesh(const Terrain& terrain, const Veil& veil);

/// The fraction of light that one crossing of the veil's surface passes: the square root for a volume.
double fraction_per_crossing(const Veil& veil, Leaves leaves);

}  // namespace sightfall::site
