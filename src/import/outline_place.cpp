// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/outline_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sightfall::import {
namespace {

double distance_from_origin(geom::PlanPoint a, geom::PlanPoint b) {
  const geom::Vec2 along = b - a;
  const double span = dot(along, along);
  const double share = span == 0 ? 0 : std::clamp(-dot(a, along) / span, 0.0, 1.0);
  return norm(a + share * along);
}

/// Whether every corner found its place.
bool move_ring(geom::Ring& ring, const MapFrame& frame) {
  frame.to_site(ring);
  return std::all_of(ring.begin(), ring.end(), [](geom::PlanPoint p) { return std::isfinite(p.x); });
}

size_t corners(const RawOutline& raw) {
  size_t count = 0;
  for (const geom::Outline& part : raw.parts) {
    count += part.outer.size();
    for (const geom::Ring& hole : part.holes) count += hole.size();
  }
  return count;
}

}  // namespace

std::optional<std::string> move_to_site(RawOutline& raw, const MapFrame& frame) {
  if (corners(raw) > kMostCorners) return fmt::format("more than {} corners", kMostCorners);
  bool placed = true;
  for (geom::Outline& part : raw.parts) {
    placed = move_ring(part.outer, frame) && placed;
    for (geom::Ring& hole : part.holes) placed = move_ring(hole, frame) && placed;
  }
  if (!placed) return "a corner lies nowhere on the earth";
  return std::nullopt;
}

Length nearest(const std::vector<geom::Outline>& parts) {
  double least = std::numeric_limits<double>::infinity();
  for (const geom::Outline& part : parts) {
    const geom::Ring& ring = part.outer;
    if (ring.size() >= 3 && geom::contains(part, {0, 0})) return Length{0};
    for (size_t i = 0; i < ring.size(); ++i)
      least = std::min(least, distance_from_origin(ring[i], ring[(i + 1) % ring.size()]));
  }
  return Length{least};
}

}  // namespace sightfall::import
