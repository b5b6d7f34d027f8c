// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/site_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <utility>

#include "draw/detail_field.h"
#include "draw/key.h"
#include "draw/plan_ink.h"
#include "draw/plan_lamps.h"
#include "draw/plan_layout.h"
#include "draw/scale_bar.h"
#include "draw/signs.h"
#include "geom/pose.h"
#include "need/words.h"

namespace sightfall::draw {
namespace {

constexpr double kPlanMargin = 60, kColumn = 330;
constexpr double kUnitsAMetre = 72 / 0.0254 / kSheetUnit;  // at a scale of one to one

/// Everything of a plan with its place.
struct Laid {
  SitePlan plan;
  PlanFrame frame;
  std::vector<PlanLamp> lamps;
  std::vector<PlacedLabel> labels;
  int scale = 0;  // of a sheet
};

/// The site's lamps; those count as burning that a promise counts on.
std::vector<PlanLamp> site_lamps(const SitePlan& plan, const PlanFrame& frame) {
  PlanMap map;
  map.project = plan.project;
  map.burning = plan.lamps;
  return lamps_on(map, frame);
}

void settle(LabelRoom& room, const Laid& laid) {
  const SitePlan& plan = laid.plan;
  const PlanFrame& frame = laid.frame;
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
  for (const PlanCable& cable : plan.cables) room.crowd(frame.to_page(line_shape(cable.line)), kCrowdedLine);
  for (const PlanMark& mark : plan.marks) room.take({frame.to_page(mark.at), 2 * kMarkArm, 2 * kMarkArm, 0});
  for (const PlanLamp& lamp : laid.lamps) room.take({lamp.at, 2 * kLampRadius, 2 * kLampRadius, 0});
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
      fmt::format("{}  {}, {}", number, camera.name, need::length_words(mount.height, plan.project->settings.units));
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

std::vector<PlacedLabel> labels_of(const Laid& laid) {
  const SitePlan& plan = laid.plan;
  const PlanFrame& frame = laid.frame;
  const std::vector<Covered> solids = covered_by(plan.project->site);
  LabelRoom room{frame.low, frame.high, [&](PagePoint at) {
                   return std::any_of(solids.begin(), solids.end(), [&](const Covered& one) {
                     return geom::contains(one.ground, frame.to_plan(at));
                   });
                 }};
  settle(room, laid);
  size_t number = 0;
  for (const camera::Camera& camera : plan.project->cameras) {
    const PagePoint at = frame.to_page(need::the_named(plan.project->site.mounts, camera.mount).at);
    room.place_beside(at, kMountRadius + 3, camera_words(plan, ++number, camera),
                      {.size = 15, .bold = true, .halo = true});
  }
  for (const PlanMark& mark : plan.marks)
    room.place_beside(frame.to_page(mark.at), kMarkArm, mark.label, {.size = 12, .colour = kSoftInk, .halo = true});
  for (const site::Feed& feed : plan.project->site.feeds)
    room.place_beside(frame.to_page(feed.at), 9, feed.name, {.size = 14, .halo = true});
  for (const PlanCable& cable : plan.cables)
    if (need::find_named(plan.project->cameras, cable.to) == nullptr && cable.line.size() > 1)
      name_cable(room, frame, cable);
  for (const PlanLamp& lamp : laid.lamps)
    room.place_beside(lamp.at, kLampRadius + 2, lamp.name, {.size = 12, .colour = kSoftInk, .halo = true});
  for (const Covered& one : solids) name_solid(room, frame, one);
  return room.placed();
}

void draw_plan(Canvas& canvas, const Laid& laid) {
  const PlanFrame& frame = laid.frame;
  const need::Project& project = *laid.plan.project;
  canvas.within(frame.shape(), [&] {
    draw_grid_crosses(canvas, frame);
    draw_site(canvas, frame, project.site, [](size_t) { return false; });
    for (const PlanCable& cable : laid.plan.cables)
      sign_cable(canvas, frame.to_page(line_shape(cable.line)).lines.front().points, cable.fibre);
    for (const site::Feed& feed : project.site.feeds) sign_feed(canvas, frame.to_page(feed.at));
    draw_lamps(canvas, laid.lamps);
    for (const PlanMark& mark : laid.plan.marks) sign_mark(canvas, frame.to_page(mark.at));
    draw_mounts(canvas, frame, project);
    for (const PlacedLabel& label : laid.labels)
      if (!label.leader.empty())
        canvas.stroke(line_shape(label.leader), {.colour = label.lettering.colour, .width = 1});
    for (const PlacedLabel& label : laid.labels)
      canvas.letter(label.text, label.lettering, label.box.middle, label.box.turn);
  });
  draw_frame(canvas, frame);
}

std::vector<KeyEntry> key_of(const Laid& laid) {
  std::vector<KeyEntry> entries;
  entries.push_back({"camera and its heading", [](Canvas& c, PagePoint p) {
                       sign_mount(c, p + PagePoint{9, 0}, {{1, 0}});
                     }});
  const site::Site& site = laid.plan.project->site;
  const bool spare = std::any_of(site.mounts.begin(), site.mounts.end(), [&](const site::Mount& mount) {
    return std::none_of(laid.plan.project->cameras.begin(), laid.plan.project->cameras.end(),
                        [&](const camera::Camera& camera) { return camera.mount == mount.name; });
  });
  if (spare)
    entries.push_back({"mount without a camera", [](Canvas& c, PagePoint p) {
                         sign_mount(c, p + PagePoint{9, 0}, {});
                       }});
  if (!laid.plan.marks.empty())
    entries.push_back({"point to aim by", [](Canvas& c, PagePoint p) { sign_mark(c, p + PagePoint{9, 0}); }});
  for (const bool counted : {true, false})
    if (std::any_of(laid.lamps.begin(), laid.lamps.end(),
                    [&](const PlanLamp& lamp) { return lamp.burning == counted; }))
      entries.push_back({counted ? "lamp there, counted on" : "lamp there", [counted](Canvas& c, PagePoint p) {
                           sign_lamp(c, p + PagePoint{9, 0}, {1, 0}, counted);
                         }});
  if (!site.feeds.empty())
    entries.push_back({"switch, recorder, supply", [](Canvas& c, PagePoint p) { sign_feed(c, p + PagePoint{9, 0}); }});
  for (const bool fibre : {false, true})
    if (std::any_of(laid.plan.cables.begin(), laid.plan.cables.end(),
                    [&](const PlanCable& one) { return one.fibre == fibre; }))
      entries.push_back({fibre ? "cable, fibre" : "cable, copper", [fibre](Canvas& c, PagePoint p) {
                           sign_cable(c, {p, p + PagePoint{kKeySignWidth, 0}}, fibre);
                         }});
  for (KeyEntry& entry : key_of_site(site)) entries.push_back(std::move(entry));
  return entries;
}

constexpr const char* kCaution =
    "Heights are of the lens above the ground under it. Check each place for what is in the wall and in the ground, "
    "and "
    "measure on the spot: the plan is as good as what it was drawn from. Work at height and near mains can kill: local "
    "codes and licensed trades decide.";

std::string scale_words(const Laid& laid, PageSize points) {
  return fmt::format("1 : {} on paper of {:.0f} x {:.0f} mm, printed at 100 %", laid.scale, points.width * 25.4 / 72,
                     points.height * 25.4 / 72);
}

void draw_column(Canvas& canvas, const Laid& laid, const std::string& scale) {
  const PlanFrame& frame = laid.frame;
  const need::Project& project = *laid.plan.project;
  const double left = frame.page.width - kColumn;
  double top = kPlanMargin;
  const auto write = [&](const std::string& text, Lettering lettering, double gap) {
    if (text.empty()) return;
    lettering.wrap = kColumn - kPlanMargin;
    canvas.letter_from(text, lettering, {left, top});
    top += measured(text, lettering).height + gap;
  };
  write(project.name, {.size = 25, .bold = true}, 4);
  write("Cameras, heights, cable routes", {.size = 16}, 4);
  write(laid.plan.subtitle, {.size = 15, .colour = kSoftInk}, 4);
  write(scale, {.size = 15}, 24);
  const std::vector<KeyEntry> key = key_of(laid);
  draw_entries(canvas, key, {left, top}, key.size());
  top += 27.0 * static_cast<double>(key.size()) + 30;
  draw_north(canvas, {left + 40, top + 50}, project.site.anchor ? project.site.anchor->turn : Angle{});
  top += 160;
  draw_scale_bar(canvas, frame, {left, top}, Length{1}, "m");
  top += 40;
  if (project.settings.units == need::Units::kFeet) {
    draw_scale_bar(canvas, frame, {left, top}, units::ft, "ft");
    top += 40;
  }
  write(kCaution, {.size = 13, .colour = kAccent}, 0);
}

PlanFrame framed(PagePoint low, PagePoint room, const geom::Box2& box, double per_metre) {
  PlanFrame frame;
  frame.per_metre = per_metre;
  frame.south_west = box.low;
  const PagePoint size = per_metre * (box.high - box.low);
  frame.low = low + 0.5 * (room - size);
  frame.high = frame.low + size;
  return frame;
}

std::vector<std::string> words_on(const Laid& laid, const std::vector<KeyEntry>& key, const std::string& scale) {
  std::vector<std::string> words{laid.plan.project->name, laid.plan.subtitle, scale};
  for (const PlacedLabel& label : laid.labels) words.push_back(label.text);
  for (const KeyEntry& entry : key) words.push_back(entry.name);
  std::erase(words, "");
  return words;
}

}  // namespace

geom::Box2 plan_extent(const need::Project& project) {
  const site::Site& site = project.site;
  geom::Box2 box;
  const auto take = [&](const std::vector<geom::PlanPoint>& line) {
    for (const geom::PlanPoint p : line) box.include(p);
  };
  for (const site::Solid& solid : site.solids) take(footprint(solid).outer), take(solid.line);
  for (const site::Veil& veil : site.veils) take(veil.line);
  for (const site::Way& way : site.ways) take(way.line);
  take(site.boundary);
  for (const site::Mount& mount : site.mounts) box.include(mount.at);
  for (const site::Feed& feed : site.feeds) box.include(feed.at);
  for (const site::Window& window : site.neighbours) box.include(window.at);
  if (box.empty()) box.include({0, 0});
  constexpr double kAround = 3;  // m
  return box.grown(kAround);
}

std::string heard(const PlanSheet& sheet) {
  return fmt::format("The site from above. Written on it: {}.", fmt::join(sheet.words, "; "));
}

PlanSheet site_sheet(const SitePlan& plan, PageSize points) {
  constexpr std::array kScales{50,   100,  200,  250,  300,  400,   500,   750,
                               1000, 1500, 2000, 2500, 5000, 10000, 20000, 50000};
  const geom::Box2 box = plan_extent(*plan.project);
  const PageSize page{static_cast<int>(points.width / kSheetUnit), static_cast<int>(points.height / kSheetUnit)};
  const PagePoint room{page.width - kColumn - 1.5 * kPlanMargin - 20, page.height - 2 * kPlanMargin};
  const geom::Vec2 size = box.high - box.low;
  const auto* scale = std::find_if(kScales.begin(), kScales.end(), [&](int one) {
    const double per_metre = kUnitsAMetre / one;
    return per_metre * size.x <= room.x && per_metre * size.y <= room.y;
  });
  auto laid = std::make_shared<Laid>();
  laid->plan = plan;
  laid->scale = scale == kScales.end() ? kScales.back() : *scale;
  laid->frame = framed({kPlanMargin, kPlanMargin}, room, box, kUnitsAMetre / laid->scale);
  laid->frame.page = page;
  laid->lamps = site_lamps(plan, laid->frame);
  laid->labels = labels_of(*laid);
  const std::string words = scale_words(*laid, points);
  return {page, laid->scale,
          [laid, words](Canvas& canvas) {
            draw_plan(canvas, *laid);
            draw_column(canvas, *laid, words);
          },
          words_on(*laid, key_of(*laid), words), laid->labels};
}

PlanSheet site_figure(const SitePlan& plan, int width) {
  constexpr double kEdge = 34;
  const geom::Box2 box = plan_extent(*plan.project);
  const geom::Vec2 size = box.high - box.low;
  const double per_metre = std::min((width - 2 * kEdge) / size.x, 1.25 * width / size.y);
  auto laid = std::make_shared<Laid>();
  laid->plan = plan;
  const PagePoint room{width - 2 * kEdge, per_metre * size.y};
  laid->frame = framed({kEdge, kEdge}, room, box, per_metre);
  laid->frame.page = {width, static_cast<int>(std::ceil(room.y + 2 * kEdge))};
  laid->lamps = site_lamps(plan, laid->frame);
  laid->labels = labels_of(*laid);
  return {laid->frame.page, 0, [laid](Canvas& canvas) { draw_plan(canvas, *laid); }, words_on(*laid, {}, ""),
          laid->labels};
}

}  // namespace sightfall::draw
