// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera/mask.h"

#include <algorithm>

namespace sightfall::camera {

bool masked(const std::vector<Mask>& masks, const Projector& projector, geom::ImagePoint at) {
  const double across = (at.u + 0.5) / projector.columns, down = (at.v + 0.5) / projector.rows;
  return std::any_of(masks.begin(), masks.end(), [&](const Mask& mask) {
    return across >= mask.left && across <= mask.right && down >= mask.top && down <= mask.bottom;
  });
}

}  // namespace sightfall::camera
