// SPDX-License-Identifier: GPL-3.0-or-later
// A picture through a transfer function.
//   Library  FFTW, only in fourier.cpp, on one thread, so that the bits do not depend on how many there are
//   Limits   beyond its edges the picture is taken as mirrored
//   Checked  fourier_test.cpp
#pragma once
#include <functional>
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

/// The transfer at a frequency across and down, cycles a point of the plane.
using Transfer = std::function<double(double across, double down)>;

/// The plane through a transfer function that is symmetric about 0. `reach` is how many points a blur may carry light.
void filter(Plane& plane, const Transfer& transfer, int reach);

}  // namespace sightfall::walk
