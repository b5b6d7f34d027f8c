// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/aim.h"

#include <algorithm>
#include <cmath>

#include "camera/mask.h"
#include "geom/polygon.h"
#include "geom/pose.h"
#include "need/landmarks.h"
#include "need/station.h"
#include "site/ground.h"
#include "site/scene.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::PlanPoint;
using geom::SitePoint;
using geom::Vec3;

/// Whether a mark is seen: a little before it and above it, so that its own surface is not in the way.
bool free_to(const site::Scene& scene, SitePoint eye, const Landmark& mark) {
  constexpr double kAbove = 0.02;  // m
  const Vec3 way = mark.at - eye;
  const double distance = geom::norm(way);
  if (distance <= 2 * mark.before) return false;
  const SitePoint before = eye + ((distance - mark.before) / distance) * way + Vec3{0, 0, kAbove};
  return scene.passed({eye, before}) > 0.5;
}

/// Points of one camera's picture.
class Picture {
 public:
  Picture(const Station& station, const site::Scene& scene) : station_{station}, scene_{scene} {}

  /// Where a mark stands, when it is seen, no mask covers it and it is not cut off; nothing otherwise.
  std::optional<AimPoint> shown(const Landmark& mark) const {
    constexpr double kEdge = 0.03;  // of the picture, in which a mark may be cut off
    const Vec3 way = mark.at - station_.pose.eye_site;
    const auto image = image_of(mark.at);
    if (!image || camera::masked(station_.masks, station_.lens.projector, *image)) return std::nullopt;
    const AimPoint point{mark.name,
                         mark.at,
                         Length{geom::norm(geom::plan(way))},
                         geom::heading_of(geom::plan(way)),
                         (image->u + 0.5) / station_.lens.projector.columns,
                         (image->v + 0.5) / station_.lens.projector.rows};
    if (std::min({point.right, point.down, 1 - point.right, 1 - point.down}) < kEdge ||
        !free_to(scene_, station_.pose.eye_site, mark))
      return std::nullopt;
    return point;
  }

  /// How far two points lie apart, in shares of the picture's width.
  double apart(const AimPoint& one, const AimPoint& other) const {
    const double tall = double(station_.lens.projector.rows) / station_.lens.projector.columns;
    return std::hypot(one.right - other.right, tall * (one.down - other.down));
  }

  /// The share of the picture's width that a metre across takes there.
  double a_metre_at(const AimPoint& point) const {
    const Vec3 way = point.at - station_.pose.eye_site;
    const double flat = std::max(geom::norm(geom::plan(way)), 1e-6);
    const Vec3 aside{way.y / flat, -way.x / flat, 0};
    const auto here = image_of(point.at);
    auto there = image_of(point.at + aside);
    if (!there) there = image_of(point.at - aside);  // beyond what the lens shows at all
    if (!here || !there) return 0;
    return std::hypot(here->u - there->u, here->v - there->v) / station_.lens.projector.columns;
  }

  SitePoint eye() const { return station_.pose.eye_site; }

 private:
  std::optional<geom::ImagePoint> image_of(SitePoint at) const {
    return camera::image_point(station_.lens.projector, station_.pose.camera_from_site * (at - station_.pose.eye_site));
  }

  const Station& station_;
  const site::Scene& scene_;
};

std::vector<AimPoint> landmarks_in(const Picture& picture, const std::vector<Landmark>& marks) {
  constexpr Length kNearest{1.5}, kFarthest{150};  // too near to be aimed by, too far to be found
  std::vector<AimPoint> points;
  for (const Landmark& mark : marks) {
    const auto point = picture.shown(mark);
    if (point && point->distance >= kNearest && point->distance <= kFarthest && picture.a_metre_at(*point) >= kPlain)
      points.push_back(*point);
  }
  return points;
}

/// Something set down on the ground so far from under the camera, where the picture shows it.
std::optional<AimPoint> spot_at(const Picture& picture, const site::Site& site, double metres, Angle heading) {
  const double turn = heading.si();
  const PlanPoint at = geom::plan(picture.eye()) + metres * PlanPoint{std::sin(turn), std::cos(turn)};
  auto point = picture.shown({kSetDown, site::above_ground(site.terrain, at, Length{0})});
  if (point) point->set_down = true;
  return point;
}

/// Places for something that is set down, at round distances, within the boundary.
std::vector<AimPoint> spots_in(const Picture& picture, const site::Site& site, Angle heading) {
  constexpr double kStep = 2.5;    // degrees
  constexpr int kToEachSide = 24;  // steps
  std::vector<AimPoint> points;
  for (const double metres : {3, 4, 5, 6, 8, 10, 12, 15, 20})
    for (int i = -kToEachSide; i <= kToEachSide; ++i) {
      const auto point = spot_at(picture, site, metres, heading + i * kStep * deg);
      if (point && (site.boundary.empty() || geom::contains({site.boundary, {}}, geom::plan(point->at))))
        points.push_back(*point);
    }
  return points;
}

/// The two that lie widest apart, one of each list; nothing when one of them is empty.
std::vector<AimPoint> widest_pair(const Picture& picture, const std::vector<AimPoint>& ones,
                                  const std::vector<AimPoint>& others) {
  std::vector<AimPoint> pair;
  double most = -1;
  for (const AimPoint& one : ones)
    for (const AimPoint& other : others)
      if (const double apart = picture.apart(one, other); apart > most) most = apart, pair = {one, other};
  return pair;
}

bool useful(const Picture& picture, const std::vector<AimPoint>& pair) {
  return pair.size() == 2 && picture.apart(pair[0], pair[1]) >= kUsefulApart;
}

/// Landmarks where two lie wide enough apart; else one of them and a spot, or two spots.
std::vector<AimPoint> looking_ahead(const Picture& picture, const site::Site& site, Angle heading,
                                    const std::vector<AimPoint>& marks) {
  std::vector<AimPoint> pair = widest_pair(picture, marks, marks);
  if (!useful(picture, pair)) {
    const std::vector<AimPoint> spots = spots_in(picture, site, heading);
    if (auto mixed = widest_pair(picture, marks, spots); useful(picture, mixed))
      pair = mixed;
    else if (auto set_down = widest_pair(picture, spots, spots); useful(picture, set_down))
      pair = set_down;
  }
  if (pair.size() == 2 && pair[0].at == pair[1].at) pair.pop_back();
  if (pair.size() == 2 && pair[1].right < pair[0].right) std::swap(pair[0], pair[1]);
  return pair;
}

/// The plumb's foot, and the nearest thing from it that gives the heading.
std::vector<AimPoint> looking_down(const Picture& picture, const site::Site& site, Angle heading,
                                   const std::vector<AimPoint>& marks) {
  const SitePoint foot = site::above_ground(site.terrain, geom::plan(picture.eye()), Length{0});
  const auto plumb = picture.shown({kPlumb, foot});
  if (!plumb) return looking_ahead(picture, site, heading, marks);
  std::vector<AimPoint> points{*plumb};
  points.front().heading = heading;
  const AimPoint* nearest = nullptr;
  for (const AimPoint& one : marks)
    if (picture.apart(*plumb, one) >= kUsefulApart && one.distance <= kHeadingReach &&
        (nearest == nullptr || one.distance < nearest->distance))
      nearest = &one;
  if (nearest != nullptr) {
    points.push_back(*nearest);
    return points;
  }
  // Straight ahead of it, so that it stands on the line from the middle to the picture's top.
  for (const double metres : {3, 4, 5, 6, 8, 10}) {
    const auto spot = spot_at(picture, site, metres, heading);
    if (!spot || picture.apart(*plumb, *spot) < kUsefulApart) continue;
    points.push_back(*spot);
    break;
  }
  return points;
}

}  // namespace

std::vector<Aim> aims_of(const Project& project) {
  const site::Scene scene{project.site, site::Leaves::kOn};  // aimed by what is seen the year round
  const std::vector<Landmark> marks = landmarks_of(project.site);
  std::vector<Aim> aims;
  for (const camera::Camera& camera : project.cameras) {
    const Station station = station_of(project, camera);
    const Picture picture{station, scene};
    const site::Mount& mount = the_named(project.site.mounts, camera.mount);
    const camera::Sheet& sheet = the_named(project.catalogue, camera.sheet);
    aims.push_back({camera.name, camera.mount, station.pose.eye_site, mount.height, camera.heading, camera.tilt,
                    camera.roll, camera.focal.value_or(sheet.focal.wide),
                    camera::horizontal_view(station.lens.projector), corner_near(project.site, mount.at),
                    camera.tilt >= kLooksDown
                        ? looking_down(picture, project.site, camera.heading, landmarks_in(picture, marks))
                        : looking_ahead(picture, project.site, camera.heading, landmarks_in(picture, marks))});
  }
  return aims;
}

}  // namespace sightfall::need
