// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "file/answer_values.h"
#include "need/station.h"
#include "serve/answers.h"
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

}  // namespace

Value scene_answer(const need::Project& project) {
  const site::Site& site = project.site;
  List bodies{body("", "ground", site::terrain_mesh(site))};
  for (const site::Solid& solid : site.solids)
    bodies.push_back(body(solid.name, "solid", site::solid_mesh(site.terrain, solid)));
  for (const site::Veil& veil : site.veils)
    bodies.push_back(body(veil.name, "veil", site::veil_mesh(site.terrain, veil)));
  List cameras;
  for (const camera::Camera& camera : project.cameras) {
    const need::Station station = need::station_of(project, camera);
    cameras.emplace_back(
        Object{{"name", camera.name}, {"eye", file::point(station.pose.eye_site)}, {"corners", corners_of(station)}});
  }
  return Object{{"bodies", bodies}, {"cameras", cameras}};
}

}  // namespace sightfall::serve
