// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/ground.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace sightfall::site {
namespace {

using geom::Mesh;
using geom::PlanPoint;

double lowest_ground(const Terrain& terrain, const std::vector<PlanPoint>& under) {
  double lowest = 1e300;
  for (const PlanPoint p : under) lowest = std::min(lowest, ground_height(terrain, p).si());
  return lowest;
}

double base_of(const Terrain& terrain, const Solid& solid, const std::vector<PlanPoint>& under) {
  return solid.base ? solid.base->si() : lowest_ground(terrain, under);
}

/// A line follows the ground; where its segments are long against the ground's grid they are cut shorter first.
struct GroundLine {
  std::vector<PlanPoint> points;
  std::vector<double> base;
};

GroundLine along_ground(const Terrain& terrain, const std::vector<PlanPoint>& line, std::optional<Length> fixed_base) {
  GroundLine result;
  for (size_t i = 0; i < line.size(); ++i) {
    if (i > 0 && !terrain.flat() && !fixed_base) {
      const PlanPoint from = line[i - 1], span = line[i] - from;
      const int parts = static_cast<int>(std::ceil(norm(span) / terrain.step.si()));
      for (int k = 1; k < parts; ++k) result.points.push_back(from + (static_cast<double>(k) / parts) * span);
    }
    result.points.push_back(line[i]);
  }
  for (const PlanPoint p : result.points)
    result.base.push_back(fixed_base ? fixed_base->si() : ground_height(terrain, p).si());
  return result;
}

Mesh wall_mesh(const Terrain& terrain, const Solid& solid) {
  const GroundLine line = along_ground(terrain, solid.line, solid.base);
  return geom::wall(line.points, line.base, solid.height.si(), solid.thickness.si());
}

Mesh roof_mesh(const Terrain& terrain, const Solid& solid) {
  const double underside = base_of(terrain, solid, solid.outline.outer) + solid.height.si();
  const geom::Outline outline = solid.overhang.si() > 0 ? geom::grown(solid.outline, solid.overhang) : solid.outline;
  return geom::extruded(outline, underside, underside + solid.thickness.si());
}

void include_all(geom::Box2& box, const std::vector<PlanPoint>& points) {
  for (const PlanPoint p : points) box.include(p);
}

}  // namespace

Length ground_height(const Terrain& terrain, PlanPoint at) {
  if (terrain.flat()) return Length{0};
  const double step = terrain.step.si();
  const double x = std::clamp((at.x - terrain.south_west.x) / step, 0.0, terrain.columns - 1.0);
  const double y = std::clamp((at.y - terrain.south_west.y) / step, 0.0, terrain.rows - 1.0);
  const int c = std::min(static_cast<int>(x), terrain.columns - 2), r = std::min(static_cast<int>(y), terrain.rows - 2);
  const auto height = [&](int column, int row) {
    return terrain
        .heights[static_cast<size_t>(row) * static_cast<size_t>(terrain.columns) + static_cast<size_t>(column)];
  };
  const double fx = x - c, fy = y - r;
  const double a = height(c, r), b = height(c + 1, r), d = height(c, r + 1), e = height(c + 1, r + 1);
  // The two triangles of geom::height_grid, split along the diagonal from south-west to north-east.
  return Length{fx >= fy ? a + fx * (b - a) + fy * (e - b) : a + fy * (d - a) + fx * (e - d)};
}

geom::SitePoint above_ground(const Terrain& terrain, PlanPoint at, Length height) {
  return {at.x, at.y, ground_height(terrain, at).si() + height.si()};
}

geom::Box2 extent(const Site& site) {
  geom::Box2 box;
  if (!site.terrain.flat()) {
    const Terrain& t = site.terrain;
    box.include(t.south_west);
    box.include(t.south_west + t.step.si() * PlanPoint{t.columns - 1.0, t.rows - 1.0});
  }
  for (const Solid& solid : site.solids) {
    include_all(box, solid.outline.outer);
    include_all(box, solid.line);
    if (solid.outline.outer.empty() && solid.line.empty()) box.include(solid.at);
  }
  for (const Veil& veil : site.veils) {
    include_all(box, veil.line);
    if (veil.line.empty()) box.include(veil.at);
  }
  for (const Mount& mount : site.mounts) box.include(mount.at);
  for (const Place& place : site.places) {
    include_all(box, place.outline.outer);
    include_all(box, place.line);
  }
  for (const Window& window : site.neighbours) box.include(window.at);
  include_all(box, site.boundary);
  return box;
}

Mesh terrain_mesh(const Site& site) {
  const Terrain& t = site.terrain;
  if (!t.flat())
    return geom::height_grid(t.south_west, t.step.si(), t.columns, t.rows, [&](int c, int r) {
      return t.heights[static_cast<size_t>(r) * static_cast<size_t>(t.columns) + static_cast<size_t>(c)];
    });
  const geom::Box2 box = extent(site);
  if (box.empty()) return {};
  constexpr double kBeyond = 1000;  // m: farther than any subject that a camera here resolves
  const geom::Box2 wide = box.grown(kBeyond);
  Mesh mesh;
  mesh.add_quad({wide.low.x, wide.low.y, 0}, {wide.high.x, wide.low.y, 0}, {wide.high.x, wide.high.y, 0},
                {wide.low.x, wide.high.y, 0});
  return mesh;
}

Mesh solid_mesh(const Terrain& terrain, const Solid& solid) {
  switch (solid.kind) {
    case SolidKind::kWall:
      return wall_mesh(terrain, solid);
    case SolidKind::kRoof:
      return roof_mesh(terrain, solid);
    case SolidKind::kBox:
    case SolidKind::kVehicle: {
      const double base = base_of(terrain, solid, {solid.at});
      return geom::box({solid.at.x, solid.at.y, base},
                       {solid.size_across.si(), solid.size_along.si(), solid.height.si()}, solid.heading.si());
    }
    case SolidKind::kBuilding:
      break;
  }
  const double base = base_of(terrain, solid, solid.outline.outer);
  return geom::extruded(solid.outline, base, base + solid.height.si(), solid.openings);
}

Mesh veil_mesh(const Terrain& terrain, const Veil& veil) {
  if (veil.kind == VeilKind::kTree) {
    const double ground = ground_height(terrain, veil.at).si();
    const double low = veil.crown_base.si(), high = veil.height.si();
    return geom::ellipsoid({veil.at.x, veil.at.y, ground + (low + high) / 2},
                           {veil.crown_radius.si(), veil.crown_radius.si(), (high - low) / 2});
  }
  const GroundLine line = along_ground(terrain, veil.line, std::nullopt);
  return geom::wall(line.points, line.base, veil.height.si(),
                    veil.kind == VeilKind::kHedge ? veil.thickness.si() : 0.0);
}

double fraction_per_crossing(const Veil& veil, Leaves leaves) {
  const double through = leaves == Leaves::kOn ? veil.summer : veil.winter;
  const bool volume = veil.kind == VeilKind::kHedge || veil.kind == VeilKind::kTree;
  return volume ? std::sqrt(through) : through;
}

}  // namespace sightfall::site
