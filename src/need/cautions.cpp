// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/cautions.h"

#include <fmt/format.h>

#include <algorithm>

#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::SitePoint;
using geom::Vec3;

bool has_in_picture(const Station& station, const site::Scene& scene, SitePoint point) {
  const Vec3 at = station.pose.camera_from_site * (point - station.pose.eye_site);
  return shows(station, at) && scene.passed({station.pose.eye_site, point}) > 0;
}

void add_mount_cautions(const Project& project, std::vector<Caution>& cautions) {
  for (const camera::Camera& camera : project.cameras) {
    const site::Mount& mount = the_named(project.site.mounts, camera.mount);
    if (mount.height < kReachOfHand)
      cautions.push_back(
          {camera.name, fmt::format("{:.1f} m above ground is within reach of a hand (below about {:.0f} "
                                    "m): it can be turned away, covered or taken",
                                    mount.height.in(m), kReachOfHand.in(m))});
  }
  const auto highest = std::max_element(
      project.cameras.begin(), project.cameras.end(), [&](const camera::Camera& a, const camera::Camera& b) {
        return the_named(project.site.mounts, a.mount).height < the_named(project.site.mounts, b.mount).height;
      });
  if (highest != project.cameras.end() && the_named(project.site.mounts, highest->mount).height > kWorkAtHeight)
    cautions.push_back(
        {highest->name, fmt::format("mounts up to {:.1f} m: work at height and near mains can kill; local codes and "
                                    "licensed trades decide how it is done",
                                    the_named(project.site.mounts, highest->mount).height.in(m))});
}

/// What is seen of a window: its pixel density on its own plane, when it faces the camera.
double density_on(const Station& station, const site::Window& window, SitePoint centre) {
  const geom::PlanPoint out = geom::heading_vector(window.facing);
  const Vec3 across = station.pose.camera_from_site * Vec3{-out.y, out.x, 0};
  const Vec3 up = station.pose.camera_from_site * Vec3{0, 0, 1};
  const Vec3 at = station.pose.camera_from_site * (centre - station.pose.eye_site);
  return camera::surface_density(camera::jacobian(station.lens.projector, at), across, up).least;
}

void add_window_cautions(const Project& project, const std::vector<Station>& stations, const site::Scene& scene,
                         std::vector<Caution>& cautions) {
  for (const site::Window& window : project.site.neighbours) {
    const geom::PlanPoint out = geom::heading_vector(window.facing);
    const SitePoint on_wall = site::above_ground(project.site.terrain, window.at, window.height);
    constexpr double kClearOfWall = 0.05;  // m
    const SitePoint centre = on_wall + Vec3{kClearOfWall * out.x, kClearOfWall * out.y, 0};
    for (const Station& station : stations) {
      if (dot(plan(station.pose.eye_site - centre), out) <= 0 || !has_in_picture(station, scene, centre)) continue;
      cautions.push_back(
          {station.name,
           fmt::format("looks into the neighbour's window \"{}\" at {:.0f} px/m: turn it, mask it, or ask; "
                       "law and courtesy both count here",
                       window.name, density_on(station, window, centre))});
    }
  }
}

}  // namespace

std::vector<Caution> cautions_of(const Project& project, const std::vector<Station>& stations,
                                 const site::Scene& scene) {
  std::vector<Caution> cautions;
  add_mount_cautions(project, cautions);
  add_window_cautions(project, stations, scene, cautions);
  return cautions;
}

std::vector<Watch> watches_of(const std::vector<Station>& stations, const site::Scene& scene) {
  std::vector<Watch> watches;
  for (const Station& watcher : stations)
    for (const Station& other : stations)
      if (&watcher != &other && has_in_picture(watcher, scene, other.pose.eye_site))
        watches.push_back({watcher.name, other.name});
  return watches;
}

std::vector<std::string> places_without_need(const Project& project) {
  std::vector<std::string> names;
  for (const site::Place& place : project.site.places)
    if (std::none_of(project.needs.begin(), project.needs.end(),
                     [&](const Need& need) { return need.place == place.name; }))
      names.push_back(place.name);
  return names;
}

}  // namespace sightfall::need
