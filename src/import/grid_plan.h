// SPDX-License-Identifier: GPL-3.0-or-later
// Which points in the site frame a terrain grid has, and where in the raster each of them lies.
//   Checked  grid_plan_test.cpp; terrain_test.cpp
#pragma once
#include <optional>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "import/map_frame.h"
#include "import/raster_file.h"
#include "import/terrain.h"

namespace sightfall::import {

struct GridPlan {
  geom::PlanPoint south_west;
  Length step{1};
  int columns = 0, rows = 0;
  int averaged = 1;                    ///< cells a side whose mean each point takes
  std::vector<geom::PlanPoint> cells;  ///< in the raster, row by row from the south; NaN beyond the map

  /// A point nearer to the raster's outermost centres than this many cells has no full mean around it.
  double margin() const { return (averaged - 1) / 2.0; }
};

/// Columns and rows of the largest rectangle in which every cell is set; the first of equals.
struct Block {
  int column = 0, row = 0, columns = 0, rows = 0;
};
Block largest_block(const std::vector<bool>& set, int columns);

/// Whether the place lies between the centres of the raster's outermost cells, and as far inside as the margin says.
bool within(const RasterFile& raster, geom::PlanPoint cell, double margin);

/// The shorter side of the raster's cell in its middle.
Length cell_size(const RasterFile& raster, const MapFrame& frame);

/// The turn of a site frame that lies along the raster, given its frame with north up; none beyond kMostTurn.
Angle turn_along(const RasterFile& raster, const MapFrame& north_up);

Result<GridPlan> plan_grid(const RasterFile& raster, const MapFrame& frame, const TerrainOptions& options,
                           const Progress& progress);

}  // namespace sightfall::import
