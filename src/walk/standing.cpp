// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/standing.h"

#include <algorithm>

#include "need/station.h"
#include "walk/subject.h"

namespace sightfall::walk {

geom::PlanPoint middle_of_picture(const need::Project& project, const camera::Camera& camera,
                                  const site::Scene& scene) {
  constexpr Length kFar{25}, kBefore{1};
  const need::Station station = need::station_of(project, camera);
  const geom::Vec3 axis = geom::transposed(station.pose.camera_from_site) * geom::Vec3{0, 0, 1};
  const auto hit = scene.first_solid(station.pose.eye_site, axis, kFar);
  const double distance = hit ? std::max(1.0, hit->distance - kBefore.si()) : kFar.si();
  return geom::plan(station.pose.eye_site + distance * axis);
}

site::Place way_towards(geom::PlanPoint mount, geom::PlanPoint at) {
  constexpr double kWay = 0.5;  // m, from the place
  const geom::PlanPoint off = mount - at;
  const double distance = geom::norm(off);
  const geom::PlanPoint ahead = distance > 0 ? (1 / distance) * off : geom::PlanPoint{0, 1};
  site::Place place;
  place.kind = site::PlaceKind::kRoute;
  place.line = {at - kMidStep.si() * ahead, at + kWay * ahead};
  return place;
}

}  // namespace sightfall::walk
