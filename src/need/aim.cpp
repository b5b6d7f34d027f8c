// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/aim.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geom/pose.h"
#include "need/station.h"
#include "site/ground.h"
#include "site/scene.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::PlanPoint;
using geom::SitePoint;
using geom::Vec3;

struct Landmark {
  std::string name;
  SitePoint at;
  double before = 0.15;  ///< m: so far before it its own body may be in the way
};

/// Which corner of something it is, seen from its middle, such as `south-east`.
std::string_view side_of(PlanPoint off) {
  constexpr std::array<std::string_view, 8> kSides{"north", "north-east", "east", "south-east",
                                                   "south", "south-west", "west", "north-west"};
  const double turn = geom::heading_of(off).in(deg);
  return kSides[static_cast<size_t>(std::lround(turn / 45)) % kSides.size()];
}

/// The upper and lower end of an upright edge.
void add_edge(std::vector<Landmark>& marks, const site::Terrain& terrain, const Landmark& foot, Length low,
              Length high) {
  const double ground = site::ground_height(terrain, geom::plan(foot.at)).si();
  marks.push_back({foot.name + ", top", {foot.at.x, foot.at.y, high.si()}, foot.before});
  if (low.si() <= ground + 0.1)
    marks.push_back({foot.name + ", at the ground", {foot.at.x, foot.at.y, ground}, foot.before});
}

Length base_of(const site::Terrain& terrain, const site::Solid& solid, const geom::Ring& ring) {
  if (solid.base) return *solid.base;
  Length lowest = site::ground_height(terrain, ring.front());
  for (const PlanPoint corner : ring) lowest = std::min(lowest, site::ground_height(terrain, corner));
  return lowest;
}

void add_corners(std::vector<Landmark>& marks, const site::Terrain& terrain, const site::Solid& solid) {
  const geom::Ring& ring = solid.outline.outer;
  const PlanPoint middle = geom::bounds(ring).centre();
  const Length base = base_of(terrain, solid, ring);
  for (const PlanPoint corner : ring) {
    const std::string name = fmt::format("{}, {} corner", solid.name, side_of(corner - middle));
    if (solid.kind == site::SolidKind::kRoof)
      marks.push_back({name + ", underside", {corner.x, corner.y, (base + solid.height).si()}});
    else
      add_edge(marks, terrain, {name, {corner.x, corner.y, 0}}, base, base + solid.height);
  }
}

void add_solid(std::vector<Landmark>& marks, const site::Terrain& terrain, const site::Solid& solid) {
  switch (solid.kind) {
    case site::SolidKind::kBuilding:
    case site::SolidKind::kRoof:
      return add_corners(marks, terrain, solid);
    case site::SolidKind::kWall:
      for (const bool last : {false, true}) {
        const PlanPoint end = last ? solid.line.back() : solid.line.front();
        const PlanPoint other = last ? solid.line.front() : solid.line.back();
        const Length ground = site::ground_height(terrain, end);
        add_edge(marks, terrain,
                 {fmt::format("{}, {} end", solid.name, side_of(end - other)),
                  {end.x, end.y, 0},
                  solid.thickness.si() + 0.1},
                 ground, ground + solid.height);
      }
      return;
    case site::SolidKind::kBox: {
      const Length base = solid.base.value_or(site::ground_height(terrain, solid.at));
      // The middle of a thin post; of a thick box no corner is plain to see from everywhere.
      constexpr Length kThin{0.8};
      if (solid.size_across <= kThin && solid.size_along <= kThin)
        add_edge(marks, terrain,
                 {solid.name,
                  {solid.at.x, solid.at.y, 0},
                  0.5 * std::hypot(solid.size_across.si(), solid.size_along.si()) + 0.1},
                 base, base + solid.height);
      return;
    }
    case site::SolidKind::kVehicle:
      return;
  }
}

std::vector<Landmark> landmarks_of(const site::Site& site) {
  std::vector<Landmark> marks;
  for (const site::Solid& solid : site.solids) add_solid(marks, site.terrain, solid);
  for (const site::Veil& veil : site.veils)
    if (veil.kind == site::VeilKind::kTree)
      marks.push_back({veil.name + ", trunk at the ground", site::above_ground(site.terrain, veil.at, Length{0})});
  for (const site::Lamp& lamp : site.lamps)
    marks.push_back({lamp.name, site::above_ground(site.terrain, lamp.at, lamp.height)});
  return marks;
}

/// The nearest corner or end that a tape can be held to.
std::optional<CornerNear> corner_near(const site::Site& site, PlanPoint mount) {
  std::optional<CornerNear> nearest;
  const auto take = [&](std::string name, PlanPoint at) {
    const Length distance{geom::norm(at - mount)};
    if (distance <= kCornerReach && (!nearest || distance < nearest->distance)) nearest = {std::move(name), distance};
  };
  for (const site::Solid& solid : site.solids) {
    const PlanPoint middle = geom::bounds(solid.outline.outer).centre();
    for (const PlanPoint corner : solid.outline.outer)
      take(fmt::format("{}, {} corner", solid.name, side_of(corner - middle)), corner);
    if (solid.line.size() > 1)
      for (const auto& [end, other] :
           {std::pair{solid.line.front(), solid.line.back()}, {solid.line.back(), solid.line.front()}})
        take(fmt::format("{}, {} end", solid.name, side_of(end - other)), end);
  }
  return nearest;
}

/// Whether a mark is seen: a little before it and above it, so that its own surface is not in the way.
bool free_to(const site::Scene& scene, SitePoint eye, const Landmark& mark) {
  constexpr double kAbove = 0.02;  // m
  const Vec3 way = mark.at - eye;
  const double distance = geom::norm(way);
  if (distance <= 2 * mark.before) return false;
  const SitePoint before = eye + ((distance - mark.before) / distance) * way + Vec3{0, 0, kAbove};
  return scene.passed({eye, before}) > 0.5;
}

std::vector<AimPoint> shown(const Station& station, const site::Scene& scene, const std::vector<Landmark>& marks) {
  constexpr double kEdge = 0.03;                   // of the picture, in which a mark may be cut off
  constexpr Length kNearest{1.5}, kFarthest{150};  // too near to be aimed by, too far to be found
  const camera::Projector& projector = station.lens.projector;
  std::vector<AimPoint> points;
  for (const Landmark& mark : marks) {
    const Vec3 way = mark.at - station.pose.eye_site;
    const auto image = camera::image_point(projector, station.pose.camera_from_site * way);
    if (!image) continue;
    const double right = (image->u + 0.5) / projector.columns, down = (image->v + 0.5) / projector.rows;
    const Length distance{geom::norm(geom::plan(way))};
    if (std::min({right, down, 1 - right, 1 - down}) < kEdge || distance < kNearest || distance > kFarthest ||
        !free_to(scene, station.pose.eye_site, mark))
      continue;
    points.push_back({mark.name, mark.at, distance, geom::heading_of(geom::plan(way)), right, down});
  }
  return points;
}

/// The pair that lies widest apart in the picture; what is nearer is more certain to be found.
std::vector<AimPoint> chosen(const Station& station, std::vector<AimPoint> points) {
  if (points.size() < 2) return points;
  const double tall = double(station.lens.projector.rows) / station.lens.projector.columns;
  size_t first = 0, second = 1;
  double most = -1;
  for (size_t i = 0; i < points.size(); ++i)
    for (size_t k = i + 1; k < points.size(); ++k) {
      const double apart = std::hypot(points[i].right - points[k].right, tall * (points[i].down - points[k].down));
      if (apart > most) most = apart, first = i, second = k;
    }
  std::vector<AimPoint> pair{points[first], points[second]};
  if (pair[1].right < pair[0].right) std::swap(pair[0], pair[1]);
  return pair;
}

}  // namespace

std::vector<Aim> aims_of(const Project& project) {
  const site::Scene scene{project.site, site::Leaves::kOff};
  const std::vector<Landmark> marks = landmarks_of(project.site);
  std::vector<Aim> aims;
  for (const camera::Camera& camera : project.cameras) {
    const Station station = station_of(project, camera);
    const site::Mount& mount = the_named(project.site.mounts, camera.mount);
    const camera::Sheet& sheet = the_named(project.catalogue, camera.sheet);
    aims.push_back({camera.name, camera.mount, station.pose.eye_site, mount.height, camera.heading, camera.tilt,
                    camera.roll, camera.focal.value_or(sheet.focal.wide),
                    camera::horizontal_view(station.lens.projector), corner_near(project.site, mount.at),
                    chosen(station, shown(station, scene, marks))});
  }
  return aims;
}

}  // namespace sightfall::need
