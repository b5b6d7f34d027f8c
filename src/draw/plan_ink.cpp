// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_ink.h"

#include <algorithm>
#include <cmath>

#include "draw/detail_field.h"
#include "draw/signs.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

constexpr double kLeastBand = 3;  // page units, so that a thin wall is still seen

geom::Ring page_band(const PlanFrame& frame, const std::vector<geom::PlanPoint>& line, Length width, double least) {
  return band(frame.to_page(line_shape(line)).lines.front().points, std::max(least, frame.per_metre * width.si()));
}

void draw_ground(Canvas& canvas, const PlanFrame& frame, const site::Terrain& terrain) {
  if (terrain.flat()) return;
  const std::vector<float> heights(terrain.heights.begin(), terrain.heights.end());
  const geom::ValueGrid grid{terrain.south_west, terrain.step.si(), terrain.columns, terrain.rows, heights};
  const auto [low, high] = std::minmax_element(heights.begin(), heights.end());
  const double interval = ground_interval(terrain).si();
  for (const double z : multiples(interval, *low, *high))
    canvas.stroke(frame.to_page(Shape{geom::contours(grid, static_cast<float>(z))}), ground_pen());
}

void draw_veil(Canvas& canvas, const PlanFrame& frame, const site::Veil& veil) {
  switch (veil.kind) {
    case site::VeilKind::kMesh:
    case site::VeilKind::kRailing:
      sign_mesh(canvas, frame.to_page(line_shape(veil.line)).lines.front().points);
      return;
    case site::VeilKind::kHedge:
      sign_hedge(canvas, page_band(frame, veil.line, veil.thickness, 2 * kLeastBand));
      return;
    case site::VeilKind::kTree:
      sign_tree(canvas, frame.to_page(veil.at), frame.per_metre * veil.crown_radius.si());
      return;
  }
}

void draw_solid(Canvas& canvas, const PlanFrame& frame, const site::Solid& solid, bool open) {
  const Shape ground = frame.to_page(outline_shape(footprint(solid)));
  switch (solid.kind) {
    case site::SolidKind::kBuilding:
      open ? sign_open_building(canvas, ground) : sign_building(canvas, ground);
      return;
    case site::SolidKind::kWall:
      sign_wall(canvas, page_band(frame, solid.line, solid.thickness, kLeastBand));
      return;
    case site::SolidKind::kBox:
      sign_box(canvas, ground);
      return;
    case site::SolidKind::kVehicle:
      sign_vehicle(canvas, ground.lines.front().points);
      return;
    case site::SolidKind::kRoof:
      sign_roof(canvas, frame.to_page(outline_shape(
                            solid.overhang > Length{} ? geom::grown(solid.outline, solid.overhang) : solid.outline)));
      return;
  }
}

}  // namespace

Length ground_interval(const site::Terrain& terrain) {
  constexpr double kAboutLines = 10;
  if (terrain.flat()) return Length{1};
  const auto [low, high] = std::minmax_element(terrain.heights.begin(), terrain.heights.end());
  return Length{round_down_125(std::max(0.1, 2 * (*high - *low) / kAboutLines))};
}

void draw_site(Canvas& canvas, const PlanFrame& frame, const site::Site& site,
               const std::function<bool(size_t solid)>& open) {
  draw_ground(canvas, frame, site.terrain);
  if (!site.boundary.empty()) sign_boundary(canvas, frame.to_page(ring_shape(site.boundary)));
  for (const site::Veil& veil : site.veils) draw_veil(canvas, frame, veil);
  // Roofs hang over what stands below them and are drawn last.
  for (const bool roofs : {false, true})
    for (size_t i = 0; i < site.solids.size(); ++i)
      if ((site.solids[i].kind == site::SolidKind::kRoof) == roofs) draw_solid(canvas, frame, site.solids[i], open(i));
  for (const site::Window& window : site.neighbours)
    sign_window(canvas, frame.to_page(window.at), on_page(geom::heading_vector(window.facing)),
                frame.per_metre * window.width.si());
}

void draw_mounts(Canvas& canvas, const PlanFrame& frame, const need::Project& project) {
  for (const site::Mount& mount : project.site.mounts) {
    std::vector<PagePoint> headings;
    for (const camera::Camera& camera : project.cameras)
      if (camera.mount == mount.name) headings.push_back(on_page(geom::heading_vector(camera.heading)));
    sign_mount(canvas, frame.to_page(mount.at), headings);
  }
}

void draw_place(Canvas& canvas, const PlanFrame& frame, const site::Place& place) {
  if (place.kind == site::PlaceKind::kZone) return sign_zone(canvas, frame.to_page(outline_shape(place.outline)));
  const std::vector<PagePoint> line = frame.to_page(line_shape(place.line)).lines.front().points;
  if (line.size() < 2) return;
  if (place.kind == site::PlaceKind::kLine) return sign_line(canvas, line);
  sign_route(canvas, line, frame.per_metre * place.width.si());
}

}  // namespace sightfall::draw
