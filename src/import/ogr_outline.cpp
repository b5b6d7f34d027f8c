// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/ogr_outline.h"

#include <ogr_api.h>

#include <algorithm>

namespace sightfall::import {
namespace {

geom::Ring ring_of(OGRGeometryH line) {
  const int count = OGR_G_GetPointCount(line);
  geom::Ring ring(static_cast<size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) ring[static_cast<size_t>(i)] = {OGR_G_GetX(line, i), OGR_G_GetY(line, i)};
  if (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
  return ring;
}

}  // namespace

geom::Outline outline_of(void* polygon) {
  geom::Outline outline{ring_of(OGR_G_GetGeometryRef(polygon, 0)), {}};
  for (int i = 1; i < OGR_G_GetGeometryCount(polygon); ++i)
    outline.holes.push_back(ring_of(OGR_G_GetGeometryRef(polygon, i)));
  return outline;
}

}  // namespace sightfall::import
