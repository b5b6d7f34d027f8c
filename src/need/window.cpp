// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/window.h"

#include <algorithm>
#include <array>

#include "site/ground.h"

namespace sightfall::need {
namespace {

using geom::SitePoint;
using geom::Vec3;

/// A window lies on its wall; it is looked at from so far before it.
constexpr double kClearOfWall = 0.05;  // m

Vec3 in_camera(const Station& station, SitePoint point) {
  return station.pose.camera_from_site * (point - station.pose.eye_site);
}

}  // namespace

double density_upright(const Station& station, SitePoint point, geom::PlanPoint outward) {
  const auto turned = [&](Vec3 v) { return station.pose.camera_from_site * v; };
  return camera::surface_density(camera::jacobian(station.lens.projector, in_camera(station, point)),
                                 turned({-outward.y, outward.x, 0}), turned({0, 0, 1}))
      .least;
}

std::optional<WindowSeen> window_seen(const Project& project, const Station& station, const site::Scene& scene,
                                      const site::Window& window) {
  const geom::PlanPoint out = geom::heading_vector(window.facing), along{-out.y, out.x};
  const SitePoint wall = site::above_ground(project.site.terrain, window.at, window.height);
  if (dot(plan(station.pose.eye_site - wall), out) <= 0) return std::nullopt;
  const double half = window.width.si() / 2;
  constexpr std::array<std::pair<double, double>, 5> kPoints{{{0, 0}, {-1, -1}, {1, -1}, {-1, 1}, {1, 1}}};
  WindowSeen seen;
  bool any = false;
  for (const auto& [across, up] : kPoints) {
    const SitePoint point = wall + Vec3{kClearOfWall * out.x + across * half * along.x,
                                        kClearOfWall * out.y + across * half * along.y, up * half};
    const Vec3 at = in_camera(station, point);
    const auto in_picture = camera::image_point(station.lens.projector, at);
    if (!in_picture) continue;
    seen.points.push_back(*in_picture);
    if (!shows(station, at) || scene.passed({station.pose.eye_site, point}) <= 0) continue;
    any = true;
    seen.density = std::max(seen.density, PixelDensity{density_upright(station, point, out)});
  }
  if (!any) return std::nullopt;
  return seen;
}

}  // namespace sightfall::need
