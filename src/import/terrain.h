// SPDX-License-Identifier: GPL-3.0-or-later
// A height raster (GeoTIFF, ASCII grid, SRTM, DTED) as the site's terrain.
//   Model    bilinear between the raster's cells; a step at least twice as coarse averages the cells under each point
//   first In/Out   heights in metres or feet in any map projection -> a regular grid in the site frame, heights rounded
//   to 1 mm.
//            A raster that lies along the site frame keeps its cells' own heights when the step is theirs
//   Error    plan: see map_frame.h. Heights: that of bilinear interpolation, so a crest between cells is cut off
//   Checked  terrain_test.cpp: planes, turned frames, holes; tests/import_data: a raster with known extremes
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "import/limits.h"
#include "site/site.h"

namespace sightfall::import {

/// A new site is turned at most this far from north so that it keeps the raster's own cells.
inline constexpr Angle kMostTurn{0.2};

struct TerrainOptions {
  std::optional<Length> step;           ///< unset: the raster's own cell
  std::optional<Length> most_distance;  ///< half the side of the square around the site's origin; unset: the largest
                                        ///< rectangle along the site frame that lies within the raster
  std::optional<Length> fill;           ///< height above the map's datum for cells without one, such as 0 for the sea
  std::string crs;                      ///< such as `EPSG:32725`, instead of what the file says
};

struct TerrainImport {
  site::Terrain terrain;
  site::Anchor anchor;
  bool new_anchor = false;  ///< the site had none: it is in the raster's middle, turned along the raster when that lies
                            ///< within kMostTurn of north, and z = 0 is the lowest height rounded down to 1 m

  int raster_columns = 0, raster_rows = 0;
  Length raster_cell;                ///< the shorter side of a cell in the middle
  bool unit_stated = true;           ///< false: the heights were taken for metres
  Length lowest_read, highest_read;  ///< of the cells that were read, above the map's datum
  Length lowest, highest;            ///< of the terrain, above the map's datum
  int averaged = 1;                  ///< cells a side that went into each height
  size_t filled = 0;                 ///< points that took the height given for cells without one
};

/// Points without a height are an error that counts them unless `fill` is given.
Result<TerrainImport> import_terrain(const std::string& file, const std::optional<site::Anchor>& anchor,
                                     const TerrainOptions& options, const Progress& progress);

/// What was done, line by line, for a person to read.
std::vector<std::string> summary(const TerrainImport& done);

}  // namespace sightfall::import
