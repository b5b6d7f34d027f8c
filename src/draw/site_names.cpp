// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/site_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "draw/detail_field.h"
#include "draw/signs.h"

namespace sightfall::draw {
namespace {

const Lettering kNameLetters{.size = 12, .colour = kSoftInk, .halo = true};

/// Something with a name, and where that may stand.
struct Thing {
  std::string name;
  std::vector<PagePoint> points;  ///< of it, beside which its name tells what is meant
  double clearance = 3;
  PagePoint middle, size;  ///< of the ground that it covers; no size: none that could hold a name
  bool lettered = false;
};

std::vector<PagePoint> points_on(const PlanFrame& frame, const std::vector<geom::PlanPoint>& line) {
  std::vector<PagePoint> points;
  for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95})
    points.push_back(frame.to_page(point_along(line, share * geom::length(line).si())));
  return points;
}

Thing thing_of(const PlanFrame& frame, const site::Solid& solid) {
  Thing thing{solid.name, {}};
  if (!solid.line.empty()) {
    thing.points = points_on(frame, solid.line);
    return thing;
  }
  const geom::Ring ring = solid.kind == site::SolidKind::kRoof ? solid.outline.outer : footprint(solid).outer;
  const geom::Box2 box = geom::bounds(ring);
  thing.middle = frame.to_page(box.centre());
  thing.size = frame.per_metre * (box.high - box.low);
  if (solid.kind == site::SolidKind::kBox || solid.kind == site::SolidKind::kVehicle) {
    thing.points = {thing.middle};
    thing.clearance += std::max(thing.size.x, thing.size.y) / 2;
    return thing;
  }
  for (size_t i = 0; i < ring.size(); ++i) {
    thing.points.push_back(frame.to_page(0.5 * (ring[i] + ring[(i + 1) % ring.size()])));
    thing.points.push_back(frame.to_page(ring[i]));
  }
  return thing;
}

Thing thing_of(const PlanFrame& frame, const site::Veil& veil) {
  if (veil.kind == site::VeilKind::kTree)
    return {veil.name, {frame.to_page(veil.at)}, 2 + frame.per_metre * veil.crown_radius.si()};
  return {veil.name, points_on(frame, veil.line), 3 + frame.per_metre * veil.thickness.si() / 2};
}

std::vector<Thing> things_on(const PlanFrame& frame, const need::Project& project) {
  const site::Site& site = project.site;
  std::vector<Thing> things;
  things.reserve(site.solids.size() + site.veils.size() + site.neighbours.size());
  for (const site::Solid& solid : site.solids) things.push_back(thing_of(frame, solid));
  for (const site::Veil& veil : site.veils) things.push_back(thing_of(frame, veil));
  for (const site::Window& window : site.neighbours) things.push_back({window.name, {frame.to_page(window.at)}, 6});
  for (const site::Mount* mount : spare_mounts(project))
    things.push_back({"mount " + mount->name, {frame.to_page(mount->at)}, kMountRadius + 3});
  std::erase_if(things, [](const Thing& thing) { return thing.name.empty() || thing.points.empty(); });
  return things;
}

/// In its middle, or above, under or beside it where there is no room there.
bool stands_inside(LabelRoom& room, const Thing& thing) {
  constexpr double kInset = 4;
  const TextSize size = measured(thing.name, kNameLetters);
  const PagePoint free = 0.5 * thing.size - PagePoint{size.width / 2 + kInset, size.height / 2 + kInset};
  if (free.x <= 0 || free.y <= 0) return false;
  for (const double across : {0.0, 0.5, -0.5, 1.0, -1.0})
    for (const double down : {0.0, -0.35, 0.35, -0.7, 0.7, -1.0, 1.0}) {
      const TurnedBox box{thing.middle + PagePoint{across * free.x, down * free.y}, size.width, size.height, 0};
      if (!room.is_crowded(box) && room.place_at(box, thing.name, kNameLetters)) return true;
    }
  return room.place_at({thing.middle, size.width, size.height, 0}, thing.name, kNameLetters);
}

/// `A` to `Z`, then `AA`.
std::string letters_of(size_t nth) {
  std::string letters(1, static_cast<char>('A' + nth % 26));
  for (nth /= 26; nth > 0; nth = (nth - 1) / 26) letters.insert(0, 1, static_cast<char>('A' + (nth - 1) % 26));
  return letters;
}

/// Names them; those that find no room are marked, for the next try.
bool try_names(LabelRoom& room, std::vector<Thing>& things) {
  const Lettering bold{.size = 13, .bold = true, .colour = kSoftInk, .halo = true};
  size_t nth = 0;
  for (const Thing& thing : things)
    if (thing.lettered) room.place_in_any_case(thing.points.front(), thing.clearance, letters_of(nth++), bold);
  bool all = true;
  for (Thing& thing : things)
    if (!thing.lettered && !stands_inside(room, thing) &&
        !room.place_beside(thing.points, thing.clearance, thing.name, kNameLetters, false)) {
      thing.lettered = true;
      all = false;
    }
  return all;
}

}  // namespace

void name_inside(LabelRoom& room, const PlanFrame& frame, const site::Site& site) {
  for (const site::Solid& solid : site.solids)
    if (const Thing thing = thing_of(frame, solid); !thing.points.empty()) stands_inside(room, thing);
}

std::vector<std::string> name_all_things(LabelRoom& room, const PlanFrame& frame, const need::Project& project) {
  std::vector<Thing> things = things_on(frame, project);
  const size_t left_out = things.size() - std::min(things.size(), kMostSiteNames);
  things.resize(things.size() - left_out);
  while (true) {
    LabelRoom tried = room;
    if (!try_names(tried, things)) continue;
    room = std::move(tried);
    break;
  }
  std::vector<std::string> lettered;
  for (const Thing& thing : things)
    if (thing.lettered) lettered.push_back(fmt::format("{}  {}", letters_of(lettered.size()), thing.name));
  if (left_out > 0) lettered.push_back(fmt::format("and {} more, in plan.dxf", left_out));
  return lettered;
}

}  // namespace sightfall::draw
