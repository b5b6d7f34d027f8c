// SPDX-License-Identifier: GPL-3.0-or-later
// The raster viewshed by reference planes, as the reference program computes it: each cell takes the height that hides
// it from the two cells before it on the way to the observer, not from the ground along the line itself.
//   Source   J. Wang, G. J. Robinson and K. White, Generating viewsheds without using sightlines, Photogrammetric
//            Engineering and Remote Sensing 66 (2000); the form that looks along the nearer edge of each eighth
#pragma once
#include <vector>

#include "site/site.h"

namespace sightfall::outside {

struct Observer {
  int column = 0, row = 0;
  double height = 0;  ///< m above the ground of its cell
};

/// For each cell, row by row as the terrain's heights: whether a target of that height on it is seen.
std::vector<char> raster_sweep(const site::Terrain& terrain, const Observer& observer, double target_height);

}  // namespace sightfall::outside
