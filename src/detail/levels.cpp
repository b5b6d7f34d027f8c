// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/levels.h"

namespace sightfall::detail {

const Level* LevelTable::reached(PixelDensity density) const {
  const Level* best = nullptr;
  for (const Level& level : levels)
    if (density >= level.least) best = &level;
  return best;
}

const Level* LevelTable::find(const std::string& level) const {
  for (const Level& one : levels)
    if (one.name == level) return &one;
  return nullptr;
}

}  // namespace sightfall::detail
