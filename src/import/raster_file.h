// SPDX-License-Identifier: GPL-3.0-or-later
// A height raster as it stands in its file, read row by row so that its size does not matter.
//   Library  GDAL, only in raster_file.cpp
//   Checked  terrain_test.cpp
#pragma once
#include <array>
#include <memory>
#include <span>
#include <string>

#include "base/result.h"
#include "geom/vec.h"

namespace sightfall::import {

class RasterFile {
 public:
  /// `crs` replaces what the file says unless empty.
  static Result<RasterFile> open(const std::string& file, const std::string& crs);

  int columns() const { return columns_; }
  int rows() const { return rows_; }
  /// As a place among cells.
  geom::PlanPoint middle() const { return {(columns_ - 1) / 2.0, (rows_ - 1) / 2.0}; }
  const std::string& crs() const { return crs_; }
  /// False when the file does not say what its heights are measured in; metres are taken then.
  bool unit_stated() const { return unit_stated_; }

  /// Between cells and map coordinates; whole numbers are the centres of cells, (0,0) the first one.
  geom::PlanPoint map_of_cell(geom::PlanPoint cell) const;
  geom::PlanPoint cell_of_map(geom::PlanPoint map) const;

  /// Heights in metres of cells from_column.. in one row; NaN where there is none.
  Result<void> read(int row, int from_column, std::span<double> heights) const;

 private:
  struct Close {
    void operator()(void* dataset) const;
  };
  RasterFile() = default;
  Result<void> take_place(const std::string& named_crs);
  Result<void> take_heights();

  std::unique_ptr<void, Close> dataset_;
  std::string crs_;
  int columns_ = 0, rows_ = 0;
  std::array<double, 6> map_from_corner_{}, corner_from_map_{};
  double metres_per_value_ = 1, metres_at_zero_ = 0;
  bool unit_stated_ = false;
};

}  // namespace sightfall::import
