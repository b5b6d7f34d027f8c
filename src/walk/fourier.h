// SPDX-License-Identifier: GPL-3.0-or-later
// A picture through a transfer function.
//   Model    tile by tile, each with a rim as wide as the blur reaches, which is then thrown away
//   Library  FFTW, only in fourier.cpp, a tile on one thread, so that the bits do not depend on how many there are
//   Limits   beyond its edges the picture is taken as mirrored; light that a blur carries farther than its reach lands
//            within the tile
//   Checked  fourier_test.cpp
#pragma once
#include <algorithm>
#include <functional>
#include <span>
#include <vector>

namespace sightfall::walk {

/// A raster of values, row by row.
struct Plane {
  int columns = 0, rows = 0;
  std::vector<float> at;

  Plane() = default;
  Plane(int across, int down, float value = 0)
      : columns{across}, rows{down}, at(static_cast<size_t>(across) * static_cast<size_t>(down), value) {}
  size_t index(int column, int row) const {
    return static_cast<size_t>(row) * static_cast<size_t>(columns) + static_cast<size_t>(column);
  }
};

/// An index mirrored about the first and the last of `count`, by which a mosaic keeps its colours.
inline int mirrored(int index, int count) {
  if (index < 0) index = -index;
  if (index >= count) index = 2 * (count - 1) - index;
  return std::clamp(index, 0, count - 1);
}

/// The transfer at a frequency across and down, cycles a point of the plane.
using Transfer = std::function<double(double across, double down)>;

/// The plane through a transfer function that is symmetric about 0. `reach` is how many points a blur may carry light.
void filter(Plane& plane, const Transfer& transfer, int reach);

/// The plane through several transfer functions, each point taken from between two of them: `place` tells where, 0 to
/// their number less one. One place for all when it is empty.
Plane filtered(const Plane& plane, std::span<const Transfer> transfers, const Plane& place, int reach);

}  // namespace sightfall::walk
