// SPDX-License-Identifier: GPL-3.0-or-later
// The building outlines of a map file as they stand in it: map coordinates, heights still as text.
//   Library  GDAL, only in vector_file.cpp
//   Checked  footprints_test.cpp; tests/import_data
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "geom/polygon.h"
#include "import/footprints.h"

namespace sightfall::import {

/// One feature of the file.
struct RawOutline {
  std::string name;                  ///< such as `building 52`, not yet unique
  std::vector<geom::Outline> parts;  ///< map coordinates
  std::optional<std::string> height;
  std::optional<std::string> base;
};

struct VectorFile {
  std::string format;  ///< such as GeoJSON
  std::string layer;
  std::string crs;  ///< well-known text
  std::vector<RawOutline> outlines;
  size_t features = 0;
  size_t not_areas = 0;      ///< points, lines and nothing at all
  size_t not_buildings = 0;  ///< where the layer tells buildings from other areas
};

Result<VectorFile> read_outlines(const std::string& file, const FootprintOptions& options, const Progress& progress);

}  // namespace sightfall::import
