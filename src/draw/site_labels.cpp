// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/site_labels.h"

#include <fmt/format.h>

#include <algorithm>

#include "draw/plan_layout.h"
#include "draw/signs.h"
#include "geom/pose.h"
#include "need/words.h"

namespace sightfall::draw {
namespace {

void settle(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame, const std::vector<PlanLamp>& lamps) {
  for (const site::Mount& mount : plan.project->site.mounts) {
    const PagePoint at = frame.to_page(mount.at);
    room.take({at, 2 * kMountRadius + 4, 2 * kMountRadius + 4, 0});
    for (const camera::Camera& camera : plan.project->cameras)
      if (camera.mount == mount.name) {
        room.take(box_along(at, at + 28.0 * on_page(geom::heading_vector(camera.heading)), 5));
      }
  }
  for (const site::Feed& feed : plan.project->site.feeds) room.take({frame.to_page(feed.at), 18, 18, 0});
  crowd_site(room, plan.project->site, frame);
  room.crowd(grid_crosses(frame), kCrowdedLine);
  for (const PlanCable& cable : plan.cables) room.crowd(frame.to_page(line_shape(cable.line)), kCrowdedLine);
  for (const PlanMark& mark : plan.marks) room.take({frame.to_page(mark.at), 2 * kMarkArm, 2 * kMarkArm, 0});
  for (const PlanLamp& lamp : lamps) room.take({lamp.at, 2 * kLampRadius, 2 * kLampRadius, 0});
}

/// Beside the cable's own line and on no other, from its middle outwards, if there is such a place.
void name_cable(LabelRoom& room, const PlanFrame& frame, const PlanCable& cable) {
  std::vector<PagePoint> points;
  for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95})
    points.push_back(frame.to_page(point_along(cable.line, share * geom::length(cable.line).si())));
  room.place_beside(points, kCrowdedLine / 2, cable.name, {.size = 13, .colour = kAccent, .halo = true});
}

/// `3  yard, 3.4 m, C4`
std::string camera_words(const SitePlan& plan, size_t number, const camera::Camera& camera) {
  const site::Mount& mount = need::the_named(plan.project->site.mounts, camera.mount);
  std::string words =
      fmt::format("{}  {}, {}", number, camera.name, need::measured_words(mount.height, plan.project->settings.units));
  for (const PlanCable& cable : plan.cables)
    if (cable.to == camera.name) words += ", " + cable.name;
  return words;
}

/// The ground that a solid covers, and its box.
struct Covered {
  const site::Solid* solid;
  geom::Outline ground;
  geom::Box2 box;
};

std::vector<Covered> covered_by(const site::Site& site) {
  std::vector<Covered> all;
  for (const site::Solid& solid : site.solids)
    if (geom::Outline ground = footprint(solid); !ground.outer.empty())
      all.push_back({&solid, ground, geom::bounds(ground.outer)});
  return all;
}

/// In its middle, or above or under it where lines leave no room there.
void name_solid(LabelRoom& room, const PlanFrame& frame, const Covered& covered) {
  constexpr double kInset = 4;
  const Lettering lettering{.size = 13, .colour = kSoftInk, .halo = true};
  const TextSize size = measured(covered.solid->name, lettering);
  const PagePoint middle = frame.to_page(covered.box.centre());
  const geom::Vec2 side = frame.per_metre * (covered.box.high - covered.box.low);
  const double free = side.y / 2 - size.height / 2 - kInset;
  if (size.width + 2 * kInset >= side.x || free <= 0) return;
  for (const double share : {0.0, -0.35, 0.35, -0.7, 0.7, -1.0, 1.0}) {
    const TurnedBox box{middle + PagePoint{0, share * free}, size.width, size.height, 0};
    if (!room.is_crowded(box) && room.place_at(box, covered.solid->name, lettering)) return;
  }
  room.place_at({middle, size.width, size.height, 0}, covered.solid->name, lettering);
}

/// A camera's words and whether its number alone stands at it.
struct CameraLabel {
  PagePoint at;
  std::string number, words;
  bool alone = false;
};

std::vector<CameraLabel> camera_labels(const SitePlan& plan, const PlanFrame& frame) {
  std::vector<CameraLabel> all;
  for (const camera::Camera& camera : plan.project->cameras) {
    const size_t number = all.size() + 1;
    all.push_back({frame.to_page(need::the_named(plan.project->site.mounts, camera.mount).at), std::to_string(number),
                   camera_words(plan, number, camera)});
  }
  return all;
}

/// Lays them; those whose words find no room are marked, for the next try.
bool name_all(LabelRoom& room, std::vector<CameraLabel>& cameras) {
  constexpr double kClearance = kMountRadius + 3;
  const Lettering lettering{.size = 15, .bold = true, .halo = true};
  for (const CameraLabel& one : cameras)
    if (one.alone) room.place_in_any_case(one.at, kClearance, one.number, lettering);
  bool all = true;
  for (CameraLabel& one : cameras)
    if (!one.alone && !room.place_beside(one.at, kClearance, one.words, lettering)) {
      one.alone = true;
      all = false;
    }
  return all;
}

/// The room with all cameras named or numbered.
LabelRoom with_cameras(const LabelRoom& settled, std::vector<CameraLabel>& cameras) {
  while (true)
    if (LabelRoom room = settled; name_all(room, cameras)) return room;
}

void name_rest(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame, const std::vector<PlanLamp>& lamps) {
  for (const PlanMark& mark : plan.marks)
    room.place_beside(frame.to_page(mark.at), kMarkArm, mark.label, {.size = 12, .colour = kSoftInk, .halo = true});
  for (const site::Feed& feed : plan.project->site.feeds)
    room.place_beside(frame.to_page(feed.at), 9, feed.name, {.size = 14, .halo = true});
  for (const PlanCable& cable : plan.cables)
    if (need::find_named(plan.project->cameras, cable.to) == nullptr && cable.line.size() > 1)
      name_cable(room, frame, cable);
  for (const PlanLamp& lamp : lamps)
    room.place_beside(lamp.at, kLampRadius + 2, lamp.name, {.size = 12, .colour = kSoftInk, .halo = true});
}

}  // namespace

SiteLabels site_labels(const SitePlan& plan, const PlanFrame& frame, const std::vector<PlanLamp>& lamps) {
  const std::vector<Covered> solids = covered_by(plan.project->site);
  LabelRoom settled{frame.low, frame.high, [&](PagePoint at) {
                      return std::any_of(solids.begin(), solids.end(), [&](const Covered& one) {
                        return geom::contains(one.ground, frame.to_plan(at));
                      });
                    }};
  settle(settled, plan, frame, lamps);
  std::vector<CameraLabel> cameras = camera_labels(plan, frame);
  LabelRoom room = with_cameras(settled, cameras);
  name_rest(room, plan, frame, lamps);
  for (const Covered& one : solids) name_solid(room, frame, one);
  SiteLabels labels{room.placed(), {}};
  for (CameraLabel& one : cameras)
    if (one.alone) labels.aside.push_back(std::move(one.words));
  return labels;
}

}  // namespace sightfall::draw
