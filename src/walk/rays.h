// SPDX-License-Identifier: GPL-3.0-or-later
// The rays of a picture's pixels, worked out at every eighth pixel and taken between these.
//   Model    on the plane before the lens (fisheye: on the unit sphere) bilinear between the nodes; where a node has no
//            ray, outside a fisheye's circle, each ray is worked out by itself
//   Error    kRayError of a pixel, which the rim of a fisheye's circle comes to; a fifth of it elsewhere
//   Checked  rays_test.cpp
#pragma once
#include <optional>
#include <vector>

#include "need/station.h"

namespace sightfall::walk {

inline constexpr Pixels kRayError{0.1};

/// A raster of points over a piece of the picture, `finer` a pixel each way.
struct Raster {
  int left = 0, top = 0;      ///< its first pixel
  int columns = 0, rows = 0;  ///< in points
  int finer = 1;

  geom::ImagePoint at(double column, double row) const {
    return {left + (column + 0.5) / finer - 0.5, top + (row + 0.5) / finer - 0.5};
  }
};

class Rays {
 public:
  /// The station must outlive it.
  explicit Rays(const need::Station& station);

  /// Unit vector of the site through a point of the picture, or nothing when no ray falls there.
  std::optional<geom::Vec3> through(geom::ImagePoint at) const;
  /// The same through `count` points of a row of a raster; false: at least one of them has none, and nothing is told.
  bool row(const Raster& raster, int column, int row, int count, float* x, float* y, float* z) const;
  /// The same by the lens itself, also beyond the picture's edges.
  std::optional<geom::Vec3> exactly(geom::ImagePoint at) const;

 private:
  struct Node {
    geom::Vec3 way;
    bool lit = false;
  };
  Node node_at(int column, int row) const;
  const Node* cell(int column, int row) const;
  bool lit(const Node* upper) const;

  const need::Station& station_;
  int across_ = 0, down_ = 0;  // cells
  std::vector<Node> nodes_;
};

}  // namespace sightfall::walk
