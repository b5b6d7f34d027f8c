// SPDX-License-Identifier: GPL-3.0-or-later
// What an import takes at most, and how it says that it will not take more.
#pragma once
#include <optional>

#include "base/result.h"
#include "unit/quantity.h"

namespace sightfall::import {

/// Nothing farther than this from the site's origin is imported.
inline constexpr Length kMostReach{20'000};

inline constexpr size_t kMostOutlines = 200'000;

/// Corners of one outline; more is a coastline or a mistake.
inline constexpr size_t kMostCorners = 50'000;

/// Slivers and holes below this are left out when parts are joined.
inline constexpr Area kLeastArea{0.01};

/// Files in a ZIP archive, and what its parts of a Shapefile come to when unpacked.
inline constexpr size_t kMostParts = 200;
inline constexpr size_t kMostUnpacked = size_t{256} << 20;

/// Of a building.
inline constexpr Length kMostHeight{1000};

/// Points of a terrain grid.
inline constexpr size_t kMostTerrainPoints = 4'000'000;

/// Cells of a raster that are read for it.
inline constexpr double kMostCellsRead = 400e6;
inline constexpr int kMostColumnsRead = 1'000'000;

/// No ground lies lower or higher (Dead Sea shore -440 m, highest summit 8849 m): what does is a mark for no data.
inline constexpr Length kLowestGround{-500}, kHighestGround{9000};

/// What a stopped import says.
inline constexpr const char* kStopped = "stopped before its end; nothing was imported";

/// An error when the distance, where there is one, is not above 0 or is beyond kMostReach.
std::optional<Error> distance_error(const std::optional<Length>& distance);

}  // namespace sightfall::import
