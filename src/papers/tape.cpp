// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/tape.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geom/pose.h"
#include "need/landmarks.h"
#include "papers/told.h"
#include "site/ground.h"

namespace sightfall::papers {
namespace {

using namespace units;
using geom::PlanPoint;

void add_of_solid(const site::Solid& solid, std::vector<TapePoint>& points) {
  constexpr Length kBody{0.7};
  constexpr Length kThin{0.8};  // of a thicker box the middle cannot be reached
  if (solid.kind == site::SolidKind::kBuilding) {
    const PlanPoint middle = geom::bounds(solid.outline.outer).centre();
    for (const PlanPoint corner : solid.outline.outer)
      points.push_back({fmt::format("{}, {} corner", solid.name, geom::compass_side(corner - middle)), corner, kBody});
  } else if (solid.kind == site::SolidKind::kWall && solid.line.size() > 1) {
    points.push_back({need::end_name(solid, false), solid.line.front(), kBody});
    points.push_back({need::end_name(solid, true), solid.line.back(), kBody});
  } else if (solid.kind == site::SolidKind::kBox && solid.size_across <= kThin && solid.size_along <= kThin) {
    points.push_back({solid.name, solid.at, kBody});
  }
}

/// Whether a tape can be held from near the point to the mark.
bool tape_is_free(const site::Scene& scene, const site::Terrain& terrain, const TapePoint& point, PlanPoint mark) {
  constexpr double kHand = 1;  // m above the ground
  constexpr double kNothing = 0.99;
  const double distance = geom::norm(mark - point.at);
  if (distance <= point.body.si()) return true;
  const PlanPoint before = point.at + (point.body.si() / distance) * (mark - point.at);
  return scene.passed({site::above_ground(terrain, before, Length{kHand}),
                       site::above_ground(terrain, mark, Length{kHand})}) > kNothing;
}

std::vector<TapePoint> with_a_name_alone(const std::vector<TapePoint>& all) {
  std::vector<TapePoint> points;
  for (const TapePoint& one : all)
    if (std::count_if(all.begin(), all.end(), [&](const TapePoint& other) { return other.name == one.name; }) == 1)
      points.push_back(one);
  return points;
}

}  // namespace

std::vector<TapePoint> fixed_points(const site::Site& site) {
  std::vector<TapePoint> all;
  for (const site::Solid& solid : site.solids) add_of_solid(solid, all);
  return with_a_name_alone(all);
}

std::vector<TapePoint> tape_points(const need::Project& project) {
  std::vector<TapePoint> all = fixed_points(project.site);
  for (const camera::Camera& camera : project.cameras)
    all.push_back(
        {"the ground under the camera \"" + camera.name + "\"", need::the_named(project.site.mounts, camera.mount).at});
  return with_a_name_alone(all);
}

std::optional<Taped> taped(const std::vector<TapePoint>& points, const site::Scene& scene, const site::Terrain& terrain,
                           PlanPoint mark) {
  constexpr double kNearest = 0.5;    // m: nearer, the directions say nothing
  constexpr double kSharpest = 0.34;  // sine of the angle at which the circles cross: 20 degrees
  std::vector<TapePoint> near;
  for (const TapePoint& point : points) {
    const double distance = geom::norm(mark - point.at);
    if (distance >= kNearest && distance <= kTape.si() && tape_is_free(scene, terrain, point, mark))
      near.push_back(point);
  }
  std::optional<Taped> best;
  double least = 0;
  for (size_t i = 0; i < near.size(); ++i)
    for (size_t k = i + 1; k < near.size(); ++k) {
      const PlanPoint a = near[i].at - mark, b = near[k].at - mark;
      const double far_a = geom::norm(a), far_b = geom::norm(b);
      const double sine = std::abs(a.x * b.y - a.y * b.x) / (far_a * far_b);
      const double error = (far_a + far_b) / std::max(sine, 1e-9);
      if (sine < kSharpest || (best && error >= least)) continue;
      const PlanPoint line = near[k].at - near[i].at;
      PlanPoint off{-line.y, line.x};
      if (off.x * -a.x + off.y * -a.y < 0) off = {line.y, -line.x};
      best = Taped{near[i], near[k], Length{far_a}, Length{far_b}, std::string(geom::compass_side(off))};
      least = error;
    }
  return best;
}

std::string tape_words(const std::vector<TapePoint>& points, const site::Scene& scene, PlanPoint mark,
                       const need::Project& project) {
  const need::Units units = project.settings.units;
  const auto told = [&](PlanPoint from) { return taped_words(Length{geom::norm(mark - from)}, units); };
  if (const auto two = taped(points, scene, project.site.terrain, mark))
    return fmt::format("{} from {}, and {} from {}; {} of the line between the two", told(two->first.at),
                       two->first.name, told(two->second.at), two->second.name, two->side);
  const auto nearest = std::min_element(points.begin(), points.end(), [&](const TapePoint& a, const TapePoint& b) {
    return geom::norm(mark - a.at) < geom::norm(mark - b.at);
  });
  if (nearest == points.end()) return place_on_plan(mark, units) + " on the plan";
  return fmt::format("{} from {}, heading {} from it (no two points with a free way for a tape)", told(nearest->at),
                     nearest->name, angle(geom::heading_of(mark - nearest->at)));
}

}  // namespace sightfall::papers
