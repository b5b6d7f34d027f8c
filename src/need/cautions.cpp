// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/cautions.h"

#include <fmt/format.h>

#include <algorithm>

#include "need/window.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::SitePoint;
using geom::Vec3;

/// Large enough in the picture for somebody there to be made out (`detect` of IEC 62676-4), and nothing in the way.
bool makes_out(const Station& station, const site::Scene& scene, SitePoint point) {
  constexpr double kDetect = 25;  // px/m
  const Vec3 at = station.pose.camera_from_site * (point - station.pose.eye_site);
  return shows(station, at) && station.lens.projector.focal_px >= kDetect * norm(at) &&
         scene.passed({station.pose.eye_site, point}) > 0;
}

void add_mount_cautions(const Project& project, std::vector<Caution>& cautions) {
  for (const camera::Camera& camera : project.cameras) {
    const site::Mount& mount = the_named(project.site.mounts, camera.mount);
    if (mount.height < kReachOfHand) cautions.push_back({camera.name, within_reach_words(mount.height)});
  }
  const auto highest = std::max_element(
      project.cameras.begin(), project.cameras.end(), [&](const camera::Camera& a, const camera::Camera& b) {
        return the_named(project.site.mounts, a.mount).height < the_named(project.site.mounts, b.mount).height;
      });
  if (highest != project.cameras.end() && the_named(project.site.mounts, highest->mount).height > kWorkAtHeight)
    cautions.push_back(
        {highest->name, fmt::format("mounts up to {:.1f} m: {}",
                                    the_named(project.site.mounts, highest->mount).height.in(m), kHeightKills)});
}

/// Leaves off, when most is seen: as loads/overlook.h tells it.
void add_window_cautions(const Project& project, const std::vector<Station>& stations, std::vector<Caution>& cautions) {
  if (project.site.neighbours.empty()) return;
  const site::Scene bare{project.site, site::Leaves::kOff};
  for (const site::Window& window : project.site.neighbours)
    for (const Station& station : stations)
      if (const auto seen = window_seen(project, station, bare, window))
        cautions.push_back({station.name, fmt::format("looks into the neighbour's window \"{}\" at {:.0f} px/m: turn "
                                                      "it, mask it, or ask; law and courtesy both count here",
                                                      window.name, seen->density.in(px / m))});
}

}  // namespace

std::string within_reach_words(Length height) {
  return fmt::format(
      "{:.1f} m above ground is within reach of a hand (below about {:.0f} m): it can be turned away, covered or taken",
      height.in(m), kReachOfHand.in(m));
}

std::vector<Caution> cautions_of(const Project& project, const std::vector<Station>& stations) {
  std::vector<Caution> cautions;
  add_mount_cautions(project, cautions);
  add_window_cautions(project, stations, cautions);
  return cautions;
}

std::vector<Watch> watches_of(const std::vector<Station>& stations, const site::Scene& scene) {
  std::vector<Watch> watches;
  for (const Station& watcher : stations)
    for (const Station& other : stations)
      if (&watcher != &other && makes_out(watcher, scene, other.pose.eye_site))
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
