// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/map.h"

#include <cmath>

#include "need/frame.h"
#include "need/surface.h"

namespace sightfall::need {

using geom::Box2;
using geom::PlanPoint;

Box2 window_of(const Project& project, const site::Place& place) {
  constexpr double kMargin = 6, kCameraReach = 60;  // m
  Box2 box = geom::bounds(place.line);
  for (const PlanPoint p : place.outline.outer) box.include(p);
  const Box2 near = box.grown(kCameraReach);
  for (const camera::Camera& camera : project.cameras) {
    const PlanPoint at = the_named(project.site.mounts, camera.mount).at;
    if (at.x >= near.low.x && at.x <= near.high.x && at.y >= near.low.y && at.y <= near.high.y) box.include(at);
  }
  return box.grown(kMargin);
}

DetailMap detail_map(const Project& project, const Box2& window, const site::Condition& condition, int cells,
                     const Progress& progress) {
  const PlanPoint size = window.high - window.low;
  DetailMap map;
  map.condition = condition.name;
  map.south_west = window.low;
  map.step = Length{std::sqrt(size.x * size.y / cells)};
  map.columns = static_cast<int>(size.x / map.step.si()) + 1;
  map.rows = static_cast<int>(size.y / map.step.si()) + 1;
  std::vector<PlanPoint> points;
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c)
      points.push_back(map.south_west + map.step.si() * PlanPoint{static_cast<double>(c), static_cast<double>(r)});
  const site::Scene scene{project.site, condition.leaves};
  const LitStations lit = lit_stations(Lighting{project, scene, condition}, stations_of(project));
  map.delivered = delivered_on(lit, points, Subject::kFace, progress);
  return map;
}

DetailMap detail_map(const Project& project, const std::string& place_name, const std::string& condition_name,
                     int cells, const Progress& progress) {
  DetailMap map = detail_map(project, window_of(project, the_named(project.site.places, place_name)),
                             the_named(project.conditions, condition_name), cells, progress);
  map.place = place_name;
  return map;
}

}  // namespace sightfall::need
