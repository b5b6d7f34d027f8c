// SPDX-License-Identifier: GPL-3.0-or-later
// From a map's coordinates to the site frame and back.
//   Model    transverse Mercator at scale 1 centred on the anchor (WGS84), then turned by the anchor's turn
//   In/Out   map coordinates (x east or longitude in degrees, y north or latitude) <-> metres in the site frame
//   Error    kMostScaleError: within kMostReach of the anchor a length is at most that share too long. Lengths are
//            those at the ellipsoid: on ground at height h they are h / 6371 km longer (0.016 % at 1000 m). The earth's
//            curve is left out of heights (0.08 m at 1 km, 7.8 m at 10 km)
//   Library  PROJ, through GDAL, only in map_frame.cpp
//   Checked  map_frame_test.cpp: arcs of the meridian and the parallel on the ellipsoid, turned frames, there and back
#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "geom/vec.h"
#include "import/limits.h"
#include "site/site.h"

namespace sightfall::import {

/// Half the square of kMostReach over the earth's radius, rounded up.
inline constexpr double kMostScaleError = 5e-6;

class MapFrame {
 public:
  /// `crs` is well-known text.
  static Result<MapFrame> between(const std::string& crs, const site::Anchor& anchor);

  /// Both work in place; a point that has no place on the other side becomes NaN.
  void to_site(std::span<geom::PlanPoint> points) const;
  void to_map(std::span<geom::PlanPoint> points) const;

 private:
  struct Free {
    void operator()(void* transformation) const;
  };
  using Transformation = std::unique_ptr<void, Free>;
  MapFrame(Transformation to_local, Transformation to_map, Angle turn);

  Transformation to_local_, to_map_;
  double cos_turn_, sin_turn_;
};

/// The well-known text of a map named as `EPSG:28992`.
Result<std::string> crs_named(const std::string& name);

/// The site's own anchor, or a new one in the middle of the points (map coordinates), rounded to 1e-6 degrees. The
/// middle is taken on the globe, so that points on both sides of the date line have theirs between them.
Result<site::Anchor> anchor_for(const std::optional<site::Anchor>& anchor, const std::string& crs,
                                std::vector<geom::PlanPoint> points);

/// Latitude and longitude as a person writes them, such as `52.011000 N 4.367000 E`.
std::string place_text(const site::Anchor& anchor);

}  // namespace sightfall::import
