// SPDX-License-Identifier: GPL-3.0-or-later
// The buildings among a site's solids, looked through for one.
//   Limits   roofs, walls and boxes are not buildings
//   Checked  src/loads/buildings_test.cpp, src/need/sway_test.cpp
#pragma once
#include <algorithm>

#include "site/site.h"

namespace sightfall::site {

/// The first building for which `where`, asked of its solid, holds, or null.
template <class Where>
const Solid* building_where(const Site& site, const Where& where) {
  const auto found = std::find_if(site.solids.begin(), site.solids.end(), [&](const Solid& solid) {
    return solid.kind == SolidKind::kBuilding && where(solid);
  });
  return found == site.solids.end() ? nullptr : &*found;
}

}  // namespace sightfall::site
