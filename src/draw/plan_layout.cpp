// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "draw/missed.h"
#include "draw/signs.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

/// Beyond this many named solids or lamps in the picture the names would be all one sees.
constexpr int kMostNames = 40;

/// The signs keep their ground; the lines of the site are used for words only when nothing else is left.
void settle_signs(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame, const std::vector<PlanLamp>& lamps) {
  const site::Site& site = plan.project->site;
  for (const site::Mount& mount : site.mounts) {
    const PagePoint at = frame.to_page(mount.at);
    room.take({at, 2 * kMountRadius + 4, 2 * kMountRadius + 4, 0});
    for (const camera::Camera& camera : plan.project->cameras)
      if (camera.mount == mount.name) {
        const geom::PlanPoint ahead = geom::heading_vector(camera.heading);
        room.take(box_along(at, at + 28.0 * PagePoint{ahead.x, -ahead.y}, 5));
      }
  }
  for (const PlanLamp& lamp : lamps) {
    room.take({lamp.at, 2 * kLampRadius + 4, 2 * kLampRadius + 4, 0});
    if (geom::norm(lamp.along) > 0) room.take(box_along(lamp.at, lamp.at + 14.0 * lamp.along, 4));
  }
  if (plan.verdict != nullptr && plan.verdict->worst)
    room.take({frame.to_page(geom::plan(plan.verdict->worst->at_site)), 20, 20, 0});
  crowd_site(room, site, frame);
  if (const site::Place* place = place_of(plan)) {
    room.crowd(frame.to_page(outline_shape(place->outline)), kCrowdedLine);
    room.crowd(frame.to_page(line_shape(place->line)), std::max(18.0, frame.per_metre * place->width.si()));
  }
}

void name_cameras(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  for (const camera::Camera& camera : plan.project->cameras)
    if (const site::Mount* mount = need::find_named(plan.project->site.mounts, camera.mount))
      if (const PagePoint at = frame.to_page(mount->at); frame.holds(at))
        if (const Lettering lettering{.size = 16, .bold = true, .halo = true};
            !room.place_beside(at, kMountRadius + 3, camera.name, lettering))
          room.place_in_any_case(at, kMountRadius + 3, camera.name, lettering);
}

void name_worst(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  if (plan.verdict == nullptr || !plan.verdict->worst) return;
  const PagePoint at = frame.to_page(geom::plan(plan.verdict->worst->at_site));
  if (!frame.holds(at)) return;
  room.place_beside(at, 11, worst_note(*plan.verdict), {.size = 15, .bold = true, .colour = kAccent, .halo = true});
}

/// Beside the northernmost corner of a zone, or the middle of a line.
void name_place(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  const site::Place* place = place_of(plan);
  if (place == nullptr) return;
  const auto& points = place->kind == site::PlaceKind::kZone ? place->outline.outer : place->line;
  if (points.empty()) return;
  const geom::PlanPoint at =
      place->kind == site::PlaceKind::kZone
          ? *std::max_element(points.begin(), points.end(), [](auto a, auto b) { return a.y < b.y; })
          : point_along(points, geom::length(points).si() / 2);
  room.place_beside(frame.to_page(at), 3, place->name, {.size = 16, .bold = true, .colour = kAccent, .halo = true});
}

void name_solids(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  constexpr double kInset = 10;
  const Lettering lettering{.size = 14.5, .halo = true};
  std::vector<std::pair<TurnedBox, std::string>> names;
  for (const site::Solid& solid : plan.project->site.solids) {
    const geom::Outline ground = footprint(solid);
    const geom::Box2 box = geom::bounds(ground.outer);
    if (box.empty() || !frame.holds(frame.to_page(box.centre())) || !geom::contains(ground, box.centre())) continue;
    const TextSize size = measured(solid.name, lettering);
    const geom::Vec2 side = frame.per_metre * (box.high - box.low);
    const TurnedBox upright{frame.to_page(box.centre()), size.width, size.height, 0};
    const TurnedBox turned{upright.middle, size.width, size.height, -M_PI / 2};
    if (size.width + kInset < side.x && size.height + kInset < side.y)
      names.emplace_back(upright, solid.name);
    else if (size.width + kInset < side.y && size.height + kInset < side.x)
      names.emplace_back(turned, solid.name);
  }
  if (names.size() > kMostNames) return;
  for (const auto& [box, name] : names) room.place_at(box, name, lettering);
}

void name_windows(LabelRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  for (const site::Window& window : plan.project->site.neighbours)
    if (const PagePoint at = frame.to_page(window.at); frame.holds(at))
      room.place_beside(at, 6, window.name, {.size = 13, .colour = kSoftInk, .halo = true});
}

void name_lamps(LabelRoom& room, const std::vector<PlanLamp>& lamps) {
  if (lamps.size() > kMostNames) return;
  for (const PlanLamp& lamp : lamps)
    room.place_beside(lamp.at, kLampRadius + 2, lamp.name, {.size = 13, .colour = kSoftInk, .halo = true});
}

/// The ground that solids hide.
std::vector<geom::Outline> hidden_ground(const PlanMap& plan, const DetailField& field) {
  std::vector<geom::Outline> hidden;
  for (size_t i = 0; i < plan.project->site.solids.size(); ++i)
    if (geom::Outline ground = footprint(plan.project->site.solids[i]); !ground.outer.empty() && !field.open(i))
      hidden.push_back(std::move(ground));
  return hidden;
}

}  // namespace

void crowd_site(LabelRoom& room, const site::Site& site, const PlanFrame& frame) {
  for (const site::Solid& solid : site.solids) {
    room.crowd(frame.to_page(outline_shape(footprint(solid))), kCrowdedLine);
    room.crowd(frame.to_page(line_shape(solid.line)), kCrowdedLine);
  }
  for (const site::Veil& veil : site.veils) room.crowd(frame.to_page(line_shape(veil.line)), kCrowdedLine);
  room.crowd(frame.to_page(ring_shape(site.boundary)), kCrowdedLine);
}

const site::Place* place_of(const PlanMap& plan) {
  return need::find_named(plan.project->site.places, plan.map->place);
}

std::string worst_note(const need::Verdict& verdict) {
  const double delivered = verdict.worst->delivered.nominal.si();
  const detail::Limit limit = verdict.worst->limit;
  // A limit explains a miss; where the need is met nothing holds it back.
  const bool told = verdict.answer != need::Answer::kMet && limit != detail::Limit::kNone;
  return fmt::format("worst: {}{}", delivered > 0 ? fmt::format("{:.0f} px/m", delivered) : "unseen",
                     told ? fmt::format(", {}", detail::in_words(limit)) : "");
}

PlanLayout laid_out(const PlanMap& plan, const DetailField& field) {
  PlanLayout layout;
  layout.frame = frame_around(*plan.map);
  const PlanFrame& frame = layout.frame;
  constexpr double kEdge = 6;
  LabelRoom room{frame.low + PagePoint{kEdge, kEdge}, frame.high - PagePoint{kEdge, kEdge},
                 held_by(hidden_ground(plan, field), frame)};
  layout.lamps = lamps_on(plan, frame);
  settle_signs(room, plan, frame, layout.lamps);
  name_cameras(room, plan, frame);
  name_worst(room, plan, frame);
  name_place(room, plan, frame);
  name_solids(room, plan, frame);
  layout.contours = contour_lines(plan, field, frame, room);
  name_lamps(room, layout.lamps);
  name_windows(room, plan, frame);
  layout.labels = room.placed();
  layout.missed = missed_strokes(plan, field, frame);
  return layout;
}

}  // namespace sightfall::draw
