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
#include "draw/site_labels.h"

namespace sightfall::draw {
namespace {

constexpr double kPlanMargin = 60, kColumn = 330;
constexpr double kUnitsAMetre = 72 / 0.0254 / kSheetUnit;  // at a scale of one to one

/// Everything of a plan with its place.
struct Laid {
  SitePlan plan;
  bool whole = false;  // with names, routes and walk tests
  PlanFrame frame;
  SiteSigns signs;
  SiteLabels labels;
  int scale = 0;  // of a sheet
};

/// Mounts and points keep their places; devices and lamps stand beside theirs where that is taken.
SiteSigns site_signs(const SitePlan& plan, const PlanFrame& frame, bool whole) {
  SiteSigns signs;
  signs.stretches = stretches_of(plan.cables);
  SignRoom room{frame.low, frame.high};
  take_mounts(room, *plan.project, frame);
  for (const PlanMark& mark : plan.marks) room.take(frame.to_page(mark.at), kMarkArm);
  if (whole)
    for (const PlanMark& test : plan.tests) room.take(frame.to_page(test.at), kTestArm);
  for (const PlanStretch& stretch : signs.stretches)
    room.keep_off(frame.to_page(line_shape(stretch.line)).lines.front().points);
  for (const site::Feed& feed : plan.project->site.feeds) {
    const PagePoint place = frame.to_page(feed.at);
    signs.feeds.push_back({feed.name, place, room.settle(place, kFeedHalf + 2)});
  }
  // Those lamps count as burning that a promise counts on.
  PlanMap map;
  map.project = plan.project;
  map.burning = plan.lamps;
  signs.lamps = lamps_beside(room, map, frame);
  return signs;
}

void lay_out(Laid& laid) {
  laid.signs = site_signs(laid.plan, laid.frame, laid.whole);
  laid.labels = site_labels(laid.plan, laid.frame, laid.signs, laid.whole);
}

/// What lies in a stretch.
enum class Media { kCopper, kFibre, kBoth };

Media media_of(const SitePlan& plan, const PlanStretch& stretch) {
  const auto fibre = [&](size_t cable) { return plan.cables[cable].fibre; };
  if (std::all_of(stretch.cables.begin(), stretch.cables.end(), fibre)) return Media::kFibre;
  return std::any_of(stretch.cables.begin(), stretch.cables.end(), fibre) ? Media::kBoth : Media::kCopper;
}

void sign_stretch(Canvas& canvas, const std::vector<PagePoint>& line, Media media) {
  media == Media::kBoth ? sign_cables_of_both(canvas, line) : sign_cable(canvas, line, media == Media::kFibre);
}

void draw_plan(Canvas& canvas, const Laid& laid) {
  const PlanFrame& frame = laid.frame;
  const need::Project& project = *laid.plan.project;
  canvas.within(frame.shape(), [&] {
    draw_grid_crosses(canvas, frame);
    draw_site(canvas, frame, project.site, [](size_t) { return false; });
    const auto on_paper = [&](const std::vector<geom::PlanPoint>& line) {
      return frame.to_page(line_shape(line)).lines.front().points;
    };
    if (laid.whole)
      for (const site::Place* route : routes_asked(project)) sign_way_gone(canvas, on_paper(route->line));
    for (const PlanStretch& stretch : laid.signs.stretches)
      sign_stretch(canvas, on_paper(stretch.line), media_of(laid.plan, stretch));
    for (const PlanMark& mark : laid.plan.marks) sign_mark(canvas, frame.to_page(mark.at));
    draw_mounts(canvas, frame, project);
    for (const PlanFeed& feed : laid.signs.feeds) {
      draw_sign_leader(canvas, feed.place, feed.at);
      sign_feed(canvas, feed.at);
    }
    draw_lamps(canvas, laid.signs.lamps);
    if (laid.whole)
      for (const PlanMark& test : laid.plan.tests) sign_test(canvas, frame.to_page(test.at));
    for (const PlacedLabel& label : laid.labels.placed)
      if (!label.leader.empty())
        canvas.stroke(line_shape(label.leader), {.colour = label.lettering.colour, .width = 1});
    for (const PlacedLabel& label : laid.labels.placed)
      canvas.letter(label.text, label.lettering, label.box.middle, label.box.turn);
  });
  draw_frame(canvas, frame);
}

template <typename Sign>
bool stands_beside(const Sign& sign) {
  return geom::norm(sign.at - sign.place) > 1e-6;
}

/// Lamps, devices and cables.
std::vector<KeyEntry> key_of_devices(const Laid& laid) {
  std::vector<KeyEntry> entries;
  const auto& [feeds, lamps, stretches] = laid.signs;
  for (const bool counted : {true, false})
    if (std::any_of(lamps.begin(), lamps.end(), [&](const PlanLamp& lamp) { return lamp.burning == counted; }))
      entries.push_back({counted ? "lamp there, counted on" : "lamp there", [counted](Canvas& c, PagePoint p) {
                           sign_lamp(c, p + PagePoint{9, 0}, {1, 0}, counted);
                         }});
  if (!feeds.empty())
    entries.push_back({"switch, recorder, supply", [](Canvas& c, PagePoint p) { sign_feed(c, p + PagePoint{9, 0}); }});
  if (std::any_of(lamps.begin(), lamps.end(), stands_beside<PlanLamp>) ||
      std::any_of(feeds.begin(), feeds.end(), stands_beside<PlanFeed>))
    entries.push_back({"true place of a symbol", [](Canvas& c, PagePoint p) {
                         draw_sign_leader(c, p + PagePoint{9, 0}, p + PagePoint{kKeySignWidth, 0});
                       }});
  constexpr std::array kMedia{std::pair{Media::kCopper, "cable, copper"}, std::pair{Media::kFibre, "cable, fibre"},
                              std::pair{Media::kBoth, "copper and fibre"}};
  for (const auto& [media, name] : kMedia)
    if (std::any_of(stretches.begin(), stretches.end(),
                    [&, media = media](const PlanStretch& one) { return media_of(laid.plan, one) == media; }))
      entries.push_back({name, [media = media](Canvas& c, PagePoint p) {
                           sign_stretch(c, {p, p + PagePoint{kKeySignWidth, 0}}, media);
                         }});
  return entries;
}

std::vector<KeyEntry> key_of(const Laid& laid) {
  std::vector<KeyEntry> entries;
  entries.push_back({"camera and its heading", [](Canvas& c, PagePoint p) {
                       sign_mount(c, p + PagePoint{9, 0}, {{1, 0}});
                     }});
  const need::Project& project = *laid.plan.project;
  if (!spare_mounts(project).empty())
    entries.push_back({"mount, no camera", [](Canvas& c, PagePoint p) { sign_mount(c, p + PagePoint{9, 0}, {}); }});
  if (!laid.plan.marks.empty())
    entries.push_back({"point to aim by", [](Canvas& c, PagePoint p) { sign_mark(c, p + PagePoint{9, 0}); }});
  if (!laid.plan.tests.empty())
    entries.push_back({"place of a walk test", [](Canvas& c, PagePoint p) { sign_test(c, p + PagePoint{9, 0}); }});
  if (!routes_asked(project).empty())
    entries.push_back({"way walked or driven", [](Canvas& c, PagePoint p) {
                         sign_way_gone(c, {p, p + PagePoint{kKeySignWidth, 0}});
                       }});
  for (KeyEntry& entry : key_of_devices(laid)) entries.push_back(std::move(entry));
  for (KeyEntry& entry : key_of_site(project.site)) entries.push_back(std::move(entry));
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

constexpr const char* kPlansNorth = "Headings are clockwise from the plan's north, which is up.";

/// From the plan's north to true north.
Angle turn_of(const need::Project& project) { return project.site.anchor ? project.site.anchor->turn : Angle{}; }

/// The words beside the plan. Gives where they end; without a canvas nothing is drawn.
double lay_column(Canvas* canvas, const Laid& laid, const std::string& scale) {
  const need::Project& project = *laid.plan.project;
  const double left = laid.frame.page.width - kColumn;
  double top = kPlanMargin;
  const auto write = [&](const std::string& text, Lettering lettering, double gap) {
    if (text.empty()) return;
    lettering.wrap = kColumn - kPlanMargin;
    if (canvas != nullptr) canvas->letter_from(text, lettering, {left, top});
    top += measured(text, lettering).height + gap;
  };
  const auto draw = [&](double height, const std::function<void(Canvas&, PagePoint)>& thing) {
    if (canvas != nullptr) thing(*canvas, {left, top});
    top += height;
  };
  write(project.name, {.size = 25, .bold = true}, 4);
  write("Cameras, heights, cable routes", {.size = 16}, 4);
  write(laid.plan.subtitle, {.size = 15, .colour = kSoftInk}, 4);
  write(scale, {.size = 15}, 24);
  const std::vector<KeyEntry> key = key_of(laid);
  draw(27.0 * static_cast<double>(key.size()) + 30,
       [&](Canvas& c, PagePoint at) { draw_entries(c, key, at, key.size()); });
  draw(160, [&](Canvas& c, PagePoint at) { draw_north(c, at + PagePoint{40, 50}, turn_of(project)); });
  if (turn_of(project) != Angle{0}) write(kPlansNorth, {.size = 14}, 24);
  draw(40, [&](Canvas& c, PagePoint at) { draw_scale_bar(c, laid.frame, at, Length{1}, "m"); });
  if (project.settings.units == need::Units::kFeet)
    draw(40, [&](Canvas& c, PagePoint at) { draw_scale_bar(c, laid.frame, at, units::ft, "ft"); });
  write(kCaution, {.size = 13, .colour = kAccent}, 0);
  return top;
}

constexpr const char* kAsideTitle = "Cameras with a number alone on the plan";
constexpr const char* kLetteredTitle = "With a letter alone on the plan";
constexpr double kAsideGap = 24;

/// A line of the list of those whose words found no room on the plan.
struct AsideLine {
  std::string text;
  Lettering lettering;
  double height;
};

std::vector<AsideLine> aside_lines(const SiteLabels& labels) {
  std::vector<AsideLine> lines;
  const auto add = [&](const std::string& text, bool bold, double gap) {
    const Lettering lettering{.size = 14, .bold = bold, .wrap = kColumn - kPlanMargin};
    lines.push_back({text, lettering, measured(text, lettering).height + gap});
  };
  if (!labels.aside.empty()) add(kAsideTitle, true, 6);
  for (const std::string& one : labels.aside) add(one, false, 3);
  if (!labels.lettered.empty()) add(kLetteredTitle, true, 6);
  for (const std::string& one : labels.lettered) add(one, false, 3);
  return lines;
}

/// Where each line of the list stands: under the words beside the plan, or in columns of its own to their left. Those
/// that find no room there have none.
std::vector<PagePoint> aside_places(const Laid& laid, const std::vector<AsideLine>& lines, double under, int columns) {
  std::vector<PagePoint> places;
  const double bottom = laid.frame.page.height - kPlanMargin;
  PagePoint at{laid.frame.page.width - kColumn * (columns + 1), columns == 0 ? under + kAsideGap : kPlanMargin};
  for (const AsideLine& line : lines) {
    if (at.y + line.height > bottom && --columns > 0) at = {at.x + kColumn, kPlanMargin};
    if (at.y + line.height > bottom) break;
    places.push_back(at);
    at.y += line.height;
  }
  return places;
}

/// Cuts the list where the page ends; the last line then tells how many have no line.
void end_with_rest(std::vector<AsideLine>& lines, size_t count) {
  if (count >= lines.size()) return;
  const size_t rest = lines.size() - count + 1;
  lines.resize(count);
  if (!lines.empty()) lines.back().text = fmt::format("and {} more, in the schedules and in plan.dxf", rest);
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
  if (turn_of(*laid.plan.project) != Angle{0}) words.emplace_back(kPlansNorth);
  for (const PlacedLabel& label : laid.labels.placed) words.push_back(label.text);
  words.insert(words.end(), laid.labels.aside.begin(), laid.labels.aside.end());
  words.insert(words.end(), laid.labels.lettered.begin(), laid.labels.lettered.end());
  for (const KeyEntry& entry : key) words.push_back(entry.name);
  std::erase(words, "");
  return words;
}

/// With the points that have numbers, wherever they lie.
geom::Box2 extent_of(const SitePlan& plan) {
  geom::Box2 box = plan_extent(*plan.project);
  for (const auto* marks : {&plan.marks, &plan.tests})
    for (const PlanMark& mark : *marks) box.include(mark.at);
  return box;
}

/// On a page with so many columns for a list beside the words.
std::shared_ptr<const Laid> laid_on(const SitePlan& plan, PageSize page, int columns) {
  constexpr std::array kScales{50,   100,  200,  250,  300,  400,   500,   750,
                               1000, 1500, 2000, 2500, 5000, 10000, 20000, 50000};
  const geom::Box2 box = extent_of(plan);
  const PagePoint room{page.width - kColumn * (columns + 1) - 1.5 * kPlanMargin - 20, page.height - 2 * kPlanMargin};
  const geom::Vec2 size = box.high - box.low;
  const auto* scale = std::find_if(kScales.begin(), kScales.end(), [&](int one) {
    const double per_metre = kUnitsAMetre / one;
    return per_metre * size.x <= room.x && per_metre * size.y <= room.y;
  });
  auto laid = std::make_shared<Laid>();
  laid->plan = plan;
  laid->whole = true;
  laid->scale = scale == kScales.end() ? kScales.back() : *scale;
  laid->frame = framed({kPlanMargin, kPlanMargin}, room, box, kUnitsAMetre / laid->scale);
  laid->frame.page = page;
  lay_out(*laid);
  return laid;
}

}  // namespace

std::vector<const site::Place*> routes_asked(const need::Project& project) {
  std::vector<const site::Place*> routes;
  for (const site::Place& place : project.site.places)
    if (place.kind == site::PlaceKind::kRoute && place.line.size() > 1 &&
        std::any_of(project.needs.begin(), project.needs.end(),
                    [&](const need::Need& need) { return need.place == place.name; }))
      routes.push_back(&place);
  return routes;
}

std::vector<const site::Mount*> spare_mounts(const need::Project& project) {
  std::vector<const site::Mount*> spare;
  for (const site::Mount& mount : project.site.mounts)
    if (std::none_of(project.cameras.begin(), project.cameras.end(),
                     [&](const camera::Camera& camera) { return camera.mount == mount.name; }))
      spare.push_back(&mount);
  return spare;
}

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
  for (const site::Lamp& lamp : site.lamps) box.include(lamp.at);
  for (const site::Place* route : routes_asked(project)) take(route->line);
  if (box.empty()) box.include({0, 0});
  constexpr double kAround = 3;  // m
  return box.grown(kAround);
}

std::string heard(const PlanSheet& sheet) {
  return fmt::format("The site from above. Written on it: {}.", fmt::join(sheet.words, "; "));
}

PlanSheet site_sheet(const SitePlan& plan, PageSize points) {
  const PageSize page{static_cast<int>(points.width / kSheetUnit), static_cast<int>(points.height / kSheetUnit)};
  const int most_columns =
      std::max(0, static_cast<int>(page.width / (2 * kColumn)) - 1);  // half the page is the plan's
  for (int columns = 0;; ++columns) {
    const std::shared_ptr<const Laid> laid = laid_on(plan, page, columns);
    const std::string words = scale_words(*laid, points);
    std::vector<AsideLine> lines = aside_lines(laid->labels);
    const std::vector<PagePoint> places = aside_places(*laid, lines, lay_column(nullptr, *laid, words), columns);
    if (places.size() < lines.size() && columns < most_columns) continue;
    end_with_rest(lines, places.size());
    return {page, laid->scale,
            [=](Canvas& canvas) {
              draw_plan(canvas, *laid);
              lay_column(&canvas, *laid, words);
              for (size_t i = 0; i < places.size(); ++i)
                canvas.letter_from(lines[i].text, lines[i].lettering, places[i]);
            },
            words_on(*laid, key_of(*laid), words), laid->labels};
  }
}

PlanSheet site_figure(const SitePlan& plan, int width) {
  constexpr double kEdge = 34;
  const geom::Box2 box = extent_of(plan);
  const geom::Vec2 size = box.high - box.low;
  const double per_metre = std::min((width - 2 * kEdge) / size.x, 1.25 * width / size.y);
  auto laid = std::make_shared<Laid>();
  laid->plan = plan;
  const PagePoint room{width - 2 * kEdge, per_metre * size.y};
  laid->frame = framed({kEdge, kEdge}, room, box, per_metre);
  laid->frame.page = {width, static_cast<int>(std::ceil(room.y + 2 * kEdge))};
  lay_out(*laid);
  return {laid->frame.page, 0, [laid](Canvas& canvas) { draw_plan(canvas, *laid); }, words_on(*laid, {}, ""),
          laid->labels};
}

}  // namespace sightfall::draw
