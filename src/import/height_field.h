// SPDX-License-Identifier: GPL-3.0-or-later
// A part of a height raster in memory, as fine as a terrain grid needs it.
//   Model    the mean of `averaged` x `averaged` cells (fewer at the raster's edge), bilinear between those means
//   Checked  terrain_test.cpp: planes are met exactly; means of steps
#pragma once
#include <limits>
#include <optional>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "import/grid_plan.h"
#include "import/raster_file.h"

namespace sightfall::import {

/// A rectangle of the raster's cells.
struct RasterWindow {
  int column = 0, row = 0, columns = 0, rows = 0;
};

struct HeightField {
  RasterWindow window;
  int averaged = 1;
  int columns = 0, rows = 0;
  std::vector<double> heights;  ///< NaN where any cell under it has none
  double lowest = std::numeric_limits<double>::infinity(), highest = -std::numeric_limits<double>::infinity();

  double at(int column, int row) const {
    return heights[static_cast<size_t>(row) * static_cast<size_t>(columns) + static_cast<size_t>(column)];
  }
};

/// The cells that the plan's points lie among; nothing when none lies in the raster.
std::optional<RasterWindow> window_of(const RasterFile& raster, const GridPlan& plan);

Result<HeightField> read_field(const RasterFile& raster, const RasterWindow& window, int averaged,
                               const Progress& progress);

/// The height at a place in the raster; NaN when any cell that counts has none.
double sample(const HeightField& field, geom::PlanPoint cell);

}  // namespace sightfall::import
