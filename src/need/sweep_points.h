// SPDX-License-Identifier: GPL-3.0-or-later
// Points over a site laid out for a sweep: a structure of arrays in tiles of neighbours, so that whole tiles are culled
// and rays next to each other stay together.
//   Checked  sweep_test.cpp
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "geom/vec.h"

namespace sightfall::need {

/// Points as a structure of arrays in tiles of neighbours.
class SweepPoints {
 public:
  static constexpr size_t kTile = 64, kGroup = 16;

  explicit SweepPoints(const std::vector<geom::SitePoint>& points_site);

  /// A run of neighbouring points within a sphere.
  struct Tile {
    uint32_t first = 0, count = 0;
    geom::SitePoint centre;
    double radius = 0;
  };

  size_t size() const { return original.size(); }

  std::vector<float> x, y, z;      ///< metres, in tile order; the last tile is filled up with its last point
  std::vector<uint32_t> original;  ///< the place of each in the list given
  std::vector<Tile> tiles;
  std::vector<Tile> groups;  ///< of kGroup tiles each: `first` and `count` name tiles
};

}  // namespace sightfall::need
