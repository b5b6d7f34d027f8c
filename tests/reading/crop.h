// SPDX-License-Identifier: GPL-3.0-or-later
// A piece of a grey picture at another size, smoothed and stretched, by one rule for every cause.
//   Model    Lanczos's kernel of three lobes, widened where the piece shrinks; a Gaussian; grey levels stretched
//   between
//            two quantiles
#pragma once
#include <cstdint>
#include <vector>

#include "photograph.h"

namespace sightfall::reading {

struct Grey {
  int columns = 0, rows = 0;
  std::vector<uint8_t> at;

  Grey() = default;
  Grey(int across, int down, uint8_t level = 0)
      : columns{across}, rows{down}, at(static_cast<size_t>(across) * static_cast<size_t>(down), level) {}
  const uint8_t* row(int r) const { return &at[static_cast<size_t>(r) * static_cast<size_t>(columns)]; }
  uint8_t* row(int r) { return &at[static_cast<size_t>(r) * static_cast<size_t>(columns)]; }
};

/// A rectangle in pixels from the upper left corner.
struct Piece {
  double left = 0, top = 0, width = 0, height = 0;
};

/// The piece with `columns` x `rows` points.
Grey resized(const Photograph& photograph, const Piece& piece, int columns, int rows);

/// Through a Gaussian of a sigma in points; none where it is 0.
Grey smoothed(const Grey& grey, double sigma);

/// Dark and bright, the `share` and 1 - `share` quantiles, become black and white.
void stretch(Grey& grey, double share);

}  // namespace sightfall::reading
