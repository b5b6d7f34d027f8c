// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/way_in_building.h"

#include <algorithm>
#include <cmath>

#include "geom/segment.h"

namespace sightfall::site {
namespace {

using geom::Outline;
using geom::PlanPoint;
using geom::Ring;

/// A way along a wall may be drawn so far within the building.
constexpr double kAlongWall = 0.3;  // m
constexpr double kLookEvery = 0.1;
constexpr int kMostLooks = 2000;  // on one segment, however long a hostile one is

bool along_wall(const Outline& outline, PlanPoint p) {
  const auto beside = [&](const Ring& ring) {
    for (size_t i = 0; i < ring.size(); ++i)
      if (geom::distance_to_segment(p, ring[i], ring[(i + 1) % ring.size()]) <= kAlongWall) return true;
    return false;
  };
  return beside(outline.outer) || std::any_of(outline.holes.begin(), outline.holes.end(), beside);
}

/// The first of the looks along a part of a segment that is as asked.
template <class Asked>
std::optional<PlanPoint> first_look(PlanPoint from, PlanPoint to, const Asked& asked) {
  const int steps = static_cast<int>(std::clamp(std::ceil(norm(to - from) / kLookEvery), 1.0, double{kMostLooks}));
  for (int k = 0; k <= steps; ++k) {
    const PlanPoint at = from + (static_cast<double>(k) / steps) * (to - from);
    if (asked(at)) return at;
  }
  return std::nullopt;
}

bool lies_within(const std::vector<PlanPoint>& line, const Outline& outline) {
  const geom::Box2 box = geom::bounds(outline.outer).grown(kAlongWall);
  const auto outside = [&](PlanPoint p) { return !geom::contains(outline, p) && !along_wall(outline, p); };
  for (size_t i = 1; i < line.size(); ++i) {
    if (geom::part_within(line[i - 1], line[i], box) != std::pair{0.0, 1.0}) return false;
    if (first_look(line[i - 1], line[i], outside)) return false;
  }
  return true;
}

}  // namespace

std::optional<PlanPoint> first_inside(const std::vector<PlanPoint>& line, const Outline& outline) {
  const geom::Box2 box = geom::bounds(outline.outer);
  const auto inside = [&](PlanPoint p) { return geom::contains(outline, p) && !along_wall(outline, p); };
  for (size_t i = 1; i < line.size(); ++i) {
    const auto part = geom::part_within(line[i - 1], line[i], box);
    if (!part) continue;
    const PlanPoint way = line[i] - line[i - 1];
    if (const auto at = first_look(line[i - 1] + part->first * way, line[i - 1] + part->second * way, inside))
      return at;
  }
  return std::nullopt;
}

std::optional<Entered> building_entered(const std::vector<PlanPoint>& line, const std::vector<Solid>& solids) {
  const auto entered = std::find_if(solids.begin(), solids.end(), [&](const Solid& solid) {
    return solid.kind == SolidKind::kBuilding && first_inside(line, solid.outline);
  });
  if (entered == solids.end()) return std::nullopt;
  return Entered{&*entered, lies_within(line, entered->outline)};
}

}  // namespace sightfall::site
