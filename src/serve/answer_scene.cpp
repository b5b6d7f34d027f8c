// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>

#include "file/answer_values.h"
#include "need/station.h"
#include "serve/answers.h"
#include "serve/request.h"
#include "site/ground.h"

namespace sightfall::serve {
namespace {

using file::List;
using file::Object;
using file::Value;

Value body(std::string_view name, std::string_view kind, const geom::Mesh& mesh) {
  List positions, triangles;
  for (const geom::Vec3& v : mesh.vertices)
    for (const double x : {v.x, v.y, v.z}) positions.push_back(file::rounded(x, 1000));
  for (const auto& triangle : mesh.triangles)
    for (const auto corner : triangle) triangles.emplace_back(static_cast<int>(corner));
  return Object{{"name", name}, {"kind", kind}, {"positions", positions}, {"triangles", triangles}};
}

/// Directions of the picture's corners, from the upper left clockwise.
List corners_of(const need::Station& station) {
  const camera::Projector& p = station.lens.projector;
  const double right = p.columns - 1, below = p.rows - 1;
  List corners;
  for (const geom::ImagePoint at : std::array<geom::ImagePoint, 4>{{{0, 0}, {right, 0}, {right, below}, {0, below}}})
    if (const auto ray = camera::ray_camera(p, at))
      corners.push_back(file::point(geom::transposed(station.pose.camera_from_site) * *ray));
  return corners;
}

enum class Parts { kAll, kCameras };
constexpr std::array<std::string_view, 2> kParts{"all", "cameras"};

struct SceneRequest {
  Parts parts = Parts::kAll;
};

void describe(file::Form& form, SceneRequest& request) {
  form.choice({"parts", "all", "everything, or the cameras alone, which is what changes while one is turned"}, kParts,
              request.parts);
}

/// How thick and how high lines that lie on the ground are drawn, m.
constexpr double kInkWide = 0.12, kInkHigh = 0.04;

/// A line on the ground.
geom::Mesh on_ground(const site::Site& site, std::vector<geom::PlanPoint> line, bool closed, double wide = kInkWide) {
  if (closed && !line.empty()) line.push_back(line.front());
  std::vector<double> ground;
  ground.reserve(line.size());
  for (const geom::PlanPoint at : line) ground.push_back(site::ground_height(site.terrain, at).si());
  return geom::wall(line, ground, kInkHigh, wide);
}

geom::Mesh place_mesh(const site::Site& site, const site::Place& place) {
  if (place.kind == site::PlaceKind::kZone) return on_ground(site, place.outline.outer, true);
  return on_ground(site, place.line, false, std::max(kInkWide, place.width.si()));
}

/// A square of the window's width in its wall.
geom::Mesh window_mesh(const site::Site& site, const site::Window& window) {
  const geom::PlanPoint out = geom::heading_vector(window.facing), along{-out.y, out.x};
  const double half = window.width.si() / 2;
  const double sill = site::above_ground(site.terrain, window.at, window.height).z - half;
  return geom::wall({window.at - half * along, window.at + half * along}, {sill, sill}, 2 * half, 0);
}

geom::Mesh lamp_mesh(const site::Site& site, const site::Lamp& lamp) {
  constexpr double kSide = 0.3;
  return geom::box(site::above_ground(site.terrain, lamp.at, lamp.height), {kSide, kSide, kSide}, lamp.heading.si());
}

List bodies_of(const site::Site& site) {
  List bodies{body("", "ground", site::terrain_mesh(site))};
  for (const site::Solid& solid : site.solids)
    bodies.push_back(body(solid.name, "solid", site::solid_mesh(site.terrain, solid)));
  for (const site::Veil& veil : site.veils)
    bodies.push_back(body(veil.name, "veil", site::veil_mesh(site.terrain, veil)));
  for (const site::Lamp& lamp : site.lamps) bodies.push_back(body(lamp.name, "lamp", lamp_mesh(site, lamp)));
  for (const site::Place& place : site.places) bodies.push_back(body(place.name, "place", place_mesh(site, place)));
  for (const site::Window& window : site.neighbours)
    bodies.push_back(body(window.name, "neighbour", window_mesh(site, window)));
  if (!site.boundary.empty()) bodies.push_back(body("", "boundary", on_ground(site, site.boundary, true)));
  return bodies;
}

}  // namespace

Checked<Value> scene_answer(const need::Project& project, const Value& request) {
  const Checked<SceneRequest> asks = read_request<SceneRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  List cameras;
  for (const camera::Camera& camera : project.cameras) {
    const need::Station station = need::station_of(project, camera);
    cameras.emplace_back(
        Object{{"name", camera.name}, {"eye", file::point(station.pose.eye_site)}, {"corners", corners_of(station)}});
  }
  const bool all = asks->parts == Parts::kAll;
  return Value{Object{{"bodies", all ? Value{bodies_of(project.site)} : Value{}}, {"cameras", cameras}}};
}

}  // namespace sightfall::serve
