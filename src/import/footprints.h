// SPDX-License-Identifier: GPL-3.0-or-later
// Building outlines from a map file (GeoJSON, GeoPackage, Shapefile or a ZIP of it, OpenStreetMap) as solids in the
// site frame.
//   In/Out   outlines in any map projection, heights in metres (or 26 ft, 26'6") -> extruded outlines, rounded to 1 mm
//   Heights  what the file states; where it states none, the height that was asked for. Never guessed: storeys times a
//            usual storey is a guess
//   Error    see map_frame.h: lengths within kMostScaleError
//   Checked  footprints_test.cpp: outlines laid out by hand; tests/import_data: towns with known counts, areas, heights
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "import/limits.h"
#include "site/site.h"

namespace sightfall::import {

/// Attributes that hold a height unless one is named, in this order.
inline constexpr std::array kHeightFields{"height", "building:height", "building_height", "measuredHeight"};

struct FootprintOptions {
  std::optional<Length> height;  ///< for outlines that state none
  std::string height_field;      ///< the attribute that holds the height; empty: kHeightFields
  std::string base_field;        ///< the attribute that holds the height of the foot above the map's datum; empty:
                                 ///< buildings stand on the site's ground
  std::optional<Length> most_distance;   ///< from the site's origin to an outline's nearest point; unset: kMostReach
  std::string crs;                       ///< such as `EPSG:28992`, instead of what the file says
  std::string layer;                     ///< where the file has several
  std::vector<std::string> taken_names;  ///< names that the site has already
};

/// A building and what was found wrong with it.
struct Remark {
  std::string name, text;
};

struct FootprintImport {
  std::vector<site::Solid> solids;
  site::Anchor anchor;
  bool new_anchor = false;  ///< the site had none: it is in the middle of the outlines

  std::string format, layer;
  size_t read = 0;               ///< features in the layer
  size_t not_areas = 0;          ///< of these, points and lines
  size_t not_buildings = 0;      ///< areas that the layer marks as something else
  size_t beyond = 0;             ///< outlines farther away than was asked for
  size_t kept = 0;               ///< outlines that became one or more solids
  size_t height_given = 0;       ///< of these, with the height that was asked for
  std::vector<Remark> misread;   ///< heights or bases that are none, such as `about 8`
  std::vector<Remark> repaired;  ///< outlines that crossed themselves
  std::vector<Remark> dropped;   ///< outlines that no repair helps
  Area area;                     ///< of all solids' outlines
  Length lowest_height, highest_height;
};

/// Parts of one outline that touch are joined; those apart become solids of their own. An outline that crosses itself
/// is repaired (every area it encloses counts) and told. Every error names the file.
Result<FootprintImport> import_footprints(const std::string& file, const std::optional<site::Anchor>& anchor,
                                          const FootprintOptions& options, const Progress& progress);

/// What was done, line by line, for a person to read.
std::vector<std::string> summary(const FootprintImport& done);

}  // namespace sightfall::import
