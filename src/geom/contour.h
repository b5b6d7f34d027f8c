// SPDX-License-Identifier: GPL-3.0-or-later
// Lines of equal value on a regular grid, joined from cell to cell.
//   Model    marching squares with values linear along the sides of a cell; a saddle is cut by the mean of its corners
//   Error    exact where the values are linear; otherwise within one cell of the true line
//   Checked  contour_test.cpp: planes by pencil, a cone's circle, saddles, no loose end inside the grid
#pragma once
#include <span>
#include <vector>

#include "geom/vec.h"

namespace sightfall::geom {

/// Values at south_west + (column, row) * step, row by row from the south. NaN: no value there.
struct ValueGrid {
  PlanPoint south_west;
  double step = 1;  ///< m
  int columns = 0, rows = 0;
  std::span<const float> values;

  float at(int column, int row) const {
    return values[static_cast<size_t>(row) * static_cast<size_t>(columns) + static_cast<size_t>(column)];
  }
  /// The corner with the lowest column and row names the cell.
  size_t cell(int column, int row) const {
    return static_cast<size_t>(row) * static_cast<size_t>(columns - 1) + static_cast<size_t>(column);
  }
};

struct Polyline {
  std::vector<PlanPoint> points;  ///< a closed one does not repeat its first point
  bool closed = false;
};

/// The lines on which the grid has the value `level`, the higher side on their left. No line is drawn through a cell
/// that lacks a value at a corner or that is marked in `left_out` (a flag for each cell, or empty).
std::vector<Polyline> contours(const ValueGrid& grid, float level, std::span<const char> left_out = {});

}  // namespace sightfall::geom
