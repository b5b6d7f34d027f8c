// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/site_labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "draw/detail_field.h"
#include "draw/plan_layout.h"
#include "draw/signs.h"
#include "draw/site_names.h"
#include "geom/pose.h"
#include "need/words.h"

namespace sightfall::draw {
namespace {

void settle(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame, const SiteSigns& signs) {
  for (const site::Mount& mount : plan.project->site.mounts) {
    const PagePoint at = frame.to_page(mount.at);
    room.take({at, 2 * kMountRadius + 4, 2 * kMountRadius + 4, 0});
    for (const camera::Camera& camera : plan.project->cameras)
      if (camera.mount == mount.name) {
        room.take(box_along(at, at + 28.0 * on_page(geom::heading_vector(camera.heading)), 5));
      }
  }
  crowd_site(room, plan.project->site, frame);
  room.crowd(grid_crosses(frame), kCrowdedLine);
  for (const PlanStretch& stretch : signs.stretches) room.crowd(frame.to_page(line_shape(stretch.line)), kCrowdedLine);
  for (const PlanFeed& feed : signs.feeds) {
    room.take({feed.at, 18, 18, 0});
    room.crowd(box_along(feed.place, feed.at, 1));
  }
  for (const PlanMark& mark : plan.marks) room.take({frame.to_page(mark.at), 2 * kMarkArm, 2 * kMarkArm, 0});
  for (const PlanLamp& lamp : signs.lamps) {
    room.take({lamp.at, 2 * kLampRadius, 2 * kLampRadius, 0});
    room.crowd(box_along(lamp.place, lamp.at, 1));
  }
}

/// What only the whole plan has.
void settle_tests(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame) {
  for (const PlanMark& test : plan.tests) room.take({frame.to_page(test.at), 2 * kTestArm + 5, 2 * kTestArm + 5, 0});
  for (const site::Place* route : routes_asked(*plan.project))
    room.crowd(frame.to_page(line_shape(route->line)), kCrowdedLine);
}

std::vector<PagePoint> points_along(const PlanFrame& frame, const std::vector<geom::PlanPoint>& line) {
  std::vector<PagePoint> points;
  for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95})
    points.push_back(frame.to_page(point_along(line, share * geom::length(line).si())));
  return points;
}

/// Beside the stretch's own line and on no other, from its middle outwards, if there is such a place. Where a camera's
/// cable lies alone the camera's words have its name.
void name_stretch(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame, const PlanStretch& stretch) {
  const bool alone = stretch.cables.size() == 1;
  if (alone && need::find_named(plan.project->cameras, plan.cables[stretch.cables.front()].to) != nullptr) return;
  room.place_beside(points_along(frame, stretch.line), kCrowdedLine / 2, stretch_words(plan.cables, stretch),
                    {.size = 13, .colour = kAccent, .halo = true});
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

/// The ground that solids cover.
std::vector<geom::Outline> covered_ground(const site::Site& site) {
  std::vector<geom::Outline> covered;
  for (const site::Solid& solid : site.solids)
    if (geom::Outline ground = footprint(solid); !ground.outer.empty()) covered.push_back(std::move(ground));
  return covered;
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

/// Beside the place, those of one place together.
void number_tests(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame) {
  constexpr double kOnePlace = 3;
  std::vector<std::pair<PagePoint, std::string>> places;
  for (const PlanMark& test : plan.tests) {
    const PagePoint at = frame.to_page(test.at);
    const auto same = std::find_if(places.begin(), places.end(),
                                   [&](const auto& one) { return geom::norm(one.first - at) <= kOnePlace; });
    if (same == places.end())
      places.emplace_back(at, test.label);
    else
      same->second += ", " + test.label;
  }
  for (const auto& [at, numbers] : places)
    room.place_in_any_case(at, kTestArm, numbers, {.size = 12, .bold = true, .colour = kAccent, .halo = true});
}

void name_rest(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame, const SiteSigns& signs) {
  const Lettering soft{.size = 12, .colour = kSoftInk, .halo = true};
  for (const PlanMark& mark : plan.marks) room.place_beside(frame.to_page(mark.at), kMarkArm, mark.label, soft);
  // A cord between two devices leaves the room to their names.
  constexpr double kCord = 20;
  const auto name_stretches = [&](bool cords) {
    for (const PlanStretch& stretch : signs.stretches)
      if ((frame.per_metre * geom::length(stretch.line).si() < kCord) == cords)
        name_stretch(room, plan, frame, stretch);
  };
  name_stretches(false);
  for (const PlanFeed& feed : signs.feeds) room.place_beside(feed.at, 9, feed.name, {.size = 14, .halo = true});
  name_stretches(true);
  for (const PlanLamp& lamp : signs.lamps) room.place_beside(lamp.at, kLampRadius + 2, lamp.name, soft);
}

void name_lines(LabelRoom& room, const SitePlan& plan, const PlanFrame& frame) {
  for (const site::Place* route : routes_asked(*plan.project))
    room.place_beside(points_along(frame, route->line), kCrowdedLine / 2, route->name, {.size = 12, .halo = true});
  for (const site::Way* way : ways_taken(plan.project->site, plan.cables))
    room.place_beside(points_along(frame, way->line), kCrowdedLine / 2, way_words(*way, plan.project->settings.units),
                      {.size = 11, .colour = kAccent, .halo = true});
}

}  // namespace

SiteLabels site_labels(const SitePlan& plan, const PlanFrame& frame, const SiteSigns& signs, bool whole) {
  LabelRoom settled{frame.low, frame.high, held_by(covered_ground(plan.project->site), frame)};
  settle(settled, plan, frame, signs);
  if (whole) settle_tests(settled, plan, frame);
  std::vector<CameraLabel> cameras = camera_labels(plan, frame);
  LabelRoom room = with_cameras(settled, cameras);
  SiteLabels labels;
  if (whole) number_tests(room, plan, frame);
  name_rest(room, plan, frame, signs);
  if (whole) {
    labels.lettered = name_all_things(room, frame, *plan.project);
    name_lines(room, plan, frame);
  } else {
    name_inside(room, frame, plan.project->site);
  }
  labels.placed = room.placed();
  for (CameraLabel& one : cameras)
    if (one.alone) labels.aside.push_back(std::move(one.words));
  return labels;
}

}  // namespace sightfall::draw
