// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/landmarks.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "geom/pose.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::PlanPoint;

/// The upper and lower end of an upright edge.
void add_edge(std::vector<Landmark>& marks, const site::Terrain& terrain, const Landmark& foot, Length low,
              Length high) {
  const double ground = site::ground_height(terrain, geom::plan(foot.at)).si();
  marks.push_back({foot.name + ", top", {foot.at.x, foot.at.y, high.si()}, foot.before});
  if (low.si() <= ground + 0.1)
    marks.push_back({foot.name + ", at the ground", {foot.at.x, foot.at.y, ground}, foot.before});
}

Length base_of(const site::Terrain& terrain, const site::Solid& solid, const geom::Ring& ring) {
  if (solid.base) return *solid.base;
  Length lowest = site::ground_height(terrain, ring.front());
  for (const PlanPoint corner : ring) lowest = std::min(lowest, site::ground_height(terrain, corner));
  return lowest;
}

void add_corners(std::vector<Landmark>& marks, const site::Terrain& terrain, const site::Solid& solid) {
  const geom::Ring& ring = solid.outline.outer;
  const PlanPoint middle = geom::bounds(ring).centre();
  const Length base = base_of(terrain, solid, ring);
  for (const PlanPoint corner : ring) {
    const std::string name = fmt::format("{}, {} corner", solid.name, geom::compass_side(corner - middle));
    if (solid.kind == site::SolidKind::kRoof)
      marks.push_back({name + ", underside", {corner.x, corner.y, (base + solid.height).si()}});
    else
      add_edge(marks, terrain, {name, {corner.x, corner.y, 0}}, base, base + solid.height);
  }
}

void add_solid(std::vector<Landmark>& marks, const site::Terrain& terrain, const site::Solid& solid) {
  switch (solid.kind) {
    case site::SolidKind::kBuilding:
    case site::SolidKind::kRoof:
      return add_corners(marks, terrain, solid);
    case site::SolidKind::kWall:
      for (const bool last : {false, true}) {
        const PlanPoint end = last ? solid.line.back() : solid.line.front();
        const Length ground = site::ground_height(terrain, end);
        add_edge(marks, terrain, {end_name(solid, last), {end.x, end.y, 0}, solid.thickness.si() + 0.1}, ground,
                 ground + solid.height);
      }
      return;
    case site::SolidKind::kBox: {
      const Length base = solid.base.value_or(site::ground_height(terrain, solid.at));
      // The middle of a thin post; of a thick box no corner is plain to see from everywhere.
      constexpr Length kThin{0.8};
      if (solid.size_across <= kThin && solid.size_along <= kThin)
        add_edge(marks, terrain,
                 {solid.name,
                  {solid.at.x, solid.at.y, 0},
                  0.5 * std::hypot(solid.size_across.si(), solid.size_along.si()) + 0.1},
                 base, base + solid.height);
      return;
    }
    case site::SolidKind::kVehicle:
      return;
  }
}

}  // namespace

std::string end_name(const site::Solid& wall, bool last) {
  constexpr Length kGap{4};  // wider, its sides are no pair
  const PlanPoint end = last ? wall.line.back() : wall.line.front(),
                  other = last ? wall.line.front() : wall.line.back();
  const std::string side{geom::compass_side(end - other)};
  const Length apart{geom::norm(end - other)};
  const bool round_about = apart <= kGap && geom::length(wall.line) > 3 * apart;
  return round_about ? fmt::format("{}, {} side of the gap in it", wall.name, side)
                     : fmt::format("{}, {} end", wall.name, side);
}

std::vector<Landmark> landmarks_of(const site::Site& site) {
  std::vector<Landmark> marks;
  for (const site::Solid& solid : site.solids) add_solid(marks, site.terrain, solid);
  for (const site::Veil& veil : site.veils)
    if (veil.kind == site::VeilKind::kTree)
      marks.push_back({veil.name + ", trunk at the ground", site::above_ground(site.terrain, veil.at, Length{0})});
  for (const site::Lamp& lamp : site.lamps)
    marks.push_back({lamp.name, site::above_ground(site.terrain, lamp.at, lamp.height)});
  return marks;
}

std::optional<CornerNear> corner_near(const site::Site& site, PlanPoint mount) {
  std::optional<CornerNear> nearest;
  const auto take = [&](std::string name, PlanPoint at) {
    const Length distance{geom::norm(at - mount)};
    if (distance <= kCornerReach && (!nearest || distance < nearest->distance)) nearest = {std::move(name), distance};
  };
  for (const site::Solid& solid : site.solids) {
    const PlanPoint middle = geom::bounds(solid.outline.outer).centre();
    for (const PlanPoint corner : solid.outline.outer)
      take(fmt::format("{}, {} corner", solid.name, geom::compass_side(corner - middle)), corner);
    if (solid.line.size() > 1)
      for (const bool last : {false, true}) take(end_name(solid, last), last ? solid.line.back() : solid.line.front());
  }
  return nearest;
}

}  // namespace sightfall::need
