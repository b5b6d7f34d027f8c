// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/buildings.h"

#include <algorithm>

#include "geom/pose.h"
#include "geom/segment.h"
#include "site/building.h"
#include "site/ground.h"

namespace sightfall::loads {
namespace {

using geom::PlanPoint;

bool hangs_on(const geom::Ring& ring, PlanPoint p) {
  for (size_t i = 0; i < ring.size(); ++i)
    if (geom::distance_to_segment(p, ring[i], ring[(i + 1) % ring.size()]) <= kOnWall) return true;
  return false;
}

void add_crossings(const geom::Ring& ring, PlanPoint a, PlanPoint b, std::vector<double>& shares) {
  for (size_t i = 0; i < ring.size(); ++i) {
    const PlanPoint c = ring[i], side = ring[(i + 1) % ring.size()] - c, along = b - a;
    const double area = cross(along, side);
    if (area == 0) continue;
    const double t = cross(c - a, side) / area, s = cross(c - a, along) / area;
    if (t > 0 && t < 1 && s >= 0 && s <= 1) shares.push_back(t);
  }
}

/// Whether the outline lies wholly to one side of the box.
bool apart(const geom::Ring& ring, const geom::Box2& box) {
  const geom::Box2 outline = geom::bounds(ring);
  return outline.high.x < box.low.x || outline.low.x > box.high.x || outline.high.y < box.low.y ||
         outline.low.y > box.high.y;
}

/// Metres of the line within an outline and without.
std::pair<double, double> within_and_without(const geom::Outline& outline, const std::vector<geom::SitePoint>& line) {
  std::pair<double, double> metres{0, 0};
  for (size_t i = 1; i < line.size(); ++i) {
    const PlanPoint a = plan(line[i - 1]), b = plan(line[i]);
    std::vector<double> shares{0, 1};
    add_crossings(outline.outer, a, b, shares);
    for (const geom::Ring& hole : outline.holes) add_crossings(hole, a, b, shares);
    std::sort(shares.begin(), shares.end());
    for (size_t k = 1; k < shares.size(); ++k) {
      const PlanPoint middle = a + 0.5 * (shares[k - 1] + shares[k]) * (b - a);
      (contains(outline, middle) ? metres.first : metres.second) += (shares[k] - shares[k - 1]) * norm(b - a);
    }
  }
  return metres;
}

/// A rectangle on the plan: its middle, the unit vector along it, and half its sizes.
struct Block {
  PlanPoint middle, along;
  double half_across = 0, half_along = 0;

  /// Whether the line runs under it, and not only along its edge.
  bool over(const std::vector<PlanPoint>& line) const {
    constexpr double kEdge = 0.001;  // m
    const PlanPoint high{half_across - kEdge, half_along - kEdge};
    const auto within = [&](PlanPoint p) { return PlanPoint{cross(p - middle, along), dot(p - middle, along)}; };
    for (size_t i = 1; i < line.size(); ++i)
      if (geom::part_within(within(line[i - 1]), within(line[i]), {-1 * high, high})) return true;
    return false;
  }
};

std::vector<Block> blocks_of(const site::Solid& solid) {
  if (solid.kind == site::SolidKind::kBox)
    return {{solid.at, geom::heading_vector(solid.heading), solid.size_across.si() / 2, solid.size_along.si() / 2}};
  constexpr double kThinnest = 0.01;  // m
  std::vector<Block> blocks;
  if (solid.kind != site::SolidKind::kWall) return blocks;
  blocks.reserve(solid.line.size());
  for (size_t i = 1; i < solid.line.size(); ++i) {
    const PlanPoint from = solid.line[i - 1], to = solid.line[i];
    const double length = norm(to - from);
    blocks.push_back(
        {0.5 * (from + to), (1 / length) * (to - from), std::max(kThinnest, solid.thickness.si()) / 2, length / 2});
  }
  return blocks;
}

}  // namespace

const site::Solid* building_around(const site::Site& site, PlanPoint at) {
  return site::building_where(site, [&](const site::Solid& building) { return contains(building.outline, at); });
}

const site::Solid* building_at(const site::Site& site, PlanPoint at) {
  const site::Solid* around = building_around(site, at);
  if (around != nullptr) return around;
  return site::building_where(site, [&](const site::Solid& building) { return hangs_on(building.outline.outer, at); });
}

std::vector<std::string> walls_passed(const site::Site& site, const std::vector<geom::SitePoint>& line) {
  geom::Box2 box;
  for (const geom::SitePoint& point : line) box.include(plan(point));
  std::vector<std::string> names;
  for (const site::Solid& solid : site.solids) {
    if (solid.kind != site::SolidKind::kBuilding || apart(solid.outline.outer, box)) continue;
    const auto [within, without] = within_and_without(solid.outline, line);
    if (within > kOnWall && without > 0) names.push_back(solid.name);
  }
  return names;
}

std::vector<std::string> stands_over(const site::Site& site, const std::vector<PlanPoint>& line) {
  const auto over = [&](const site::Solid& solid) {
    const std::vector<Block> blocks = blocks_of(solid);
    return std::any_of(blocks.begin(), blocks.end(), [&](const Block& block) {
      if (!block.over(line)) return false;
      return !solid.base || *solid.base <= site::ground_height(site.terrain, block.middle) + Length{kOnWall};
    });
  };
  std::vector<std::string> names;
  for (const site::Solid& solid : site.solids)
    if (over(solid)) names.push_back(solid.name);
  return names;
}

}  // namespace sightfall::loads
