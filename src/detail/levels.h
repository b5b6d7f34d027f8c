// SPDX-License-Identifier: GPL-3.0-or-later
// Levels of detail: density bands with a name from a standard, or a user's own.
//   Source   data/levels.json: IEC/EN 62676-4, editions 2014 and 2025
#pragma once
#include <string>
#include <vector>

#include "unit/quantity.h"

namespace sightfall::detail {

struct Level {
  std::string name;
  PixelDensity least;  ///< the band's lower edge
};

struct LevelTable {
  std::string name;
  std::string source;
  std::vector<Level> levels;  ///< rising

  /// The highest level whose lower edge is reached, or null when none is.
  const Level* reached(PixelDensity density) const;
  /// The level of that name, or null.
  const Level* find(const std::string& level) const;
};

}  // namespace sightfall::detail
