// SPDX-License-Identifier: GPL-3.0-or-later
// Each camera in the report: what to buy, where it hangs, how it is aimed, what it will show, what carries it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "need/cautions.h"
#include "need/words.h"
#include "papers/aim_words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/money.h"
#include "papers/mount_place.h"
#include "papers/open_ground.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Block;
using draw::Heading;
using draw::Paragraph;
using draw::Table;
using draw::Tone;

std::string focus_words(const CameraPart& part, need::Units units) {
  return need::length_words(part.card.focus, units) +
         (part.camera->focus ? ", set" : ", taken, for none is stated: set it sharp there");
}

std::string supply_words(const camera::Sheet& sheet) { return sheet.power.supply.value_or("supply not stated"); }

void add_place(const Job& job, const CameraPart& part, const site::Scene& in_leaf, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  const need::Aim& aim = part.aim;
  Table table{{{"", 1.3}, {"", 8.7}}, {}};
  auto& rows = table.rows;
  rows.push_back({"buy", fmt::format("{}, {} x {} pixels, {}{}", part.sheet->name, part.sheet->columns,
                                     part.sheet->rows, supply_words(*part.sheet),
                                     part.sheet->price ? fmt::format(", price {:g}{}", *part.sheet->price,
                                                                     currency_after(job.project()))
                                                       : "")});
  rows.push_back({"mount", part.mount->name});
  if (!part.mount->access.empty()) rows.push_back({"reached by", part.mount->access});
  rows.push_back({"bracket", bracket_words(part)});
  rows.push_back({"held by", held_by_words(job, *part.mount)});
  rows.push_back({"where", fmt::format("{} on the plan; the lens {} above the ground",
                                       place_on_plan(part.mount->at, units), need::measured_words(aim.height, units))});
  rows.push_back({"from", mount_place_words(job.project(), *part.mount, in_leaf)});
  rows.push_back({"lens", fmt::format("{:g} mm, {} across; focus at {}", aim.focal.in(mm), angle(aim.view),
                                      focus_words(part, units))});
  std::string looks = fmt::format("heading {} clockwise from the plan's north, tilted {} below the horizon",
                                  angle(aim.heading), angle(aim.tilt));
  if (aim.roll != Angle{}) looks += ", rolled " + angle(aim.roll);
  rows.push_back({"looks", looks});
  blocks.emplace_back(table);
}

/// Whether a small mistake at the points turns much of the picture away.
bool close_together(const std::vector<need::AimPoint>& points) {
  constexpr double kApart = 0.15;  // of the picture
  return points.size() < 2 || std::hypot(points[0].right - points[1].right, points[0].down - points[1].down) < kApart;
}

/// How much a small mistake in aiming takes, for whoever decides when the aim is good enough.
std::string astray_words(const CameraPart& part) {
  constexpr double kAstray = 1;  // degree
  const double across = kAstray / part.aim.view.in(deg);
  const double down = across * part.sheet->columns / part.sheet->rows;
  return fmt::format(
      "Aimed {:g} deg astray, the picture shows {} % less on one side, or {} % above or below: what stands "
      "nearer to its edge than that is lost.",
      kAstray, number(100 * across), number(100 * down));
}

void add_aim(const Job& job, const CameraPart& part, const site::Scene& in_leaf, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  blocks.emplace_back(Heading{3, "Aim it by two points, alone"});
  if (part.aim.points.empty()) {
    blocks.emplace_back(
        Paragraph{"Nothing fixed that was entered stands free in this picture: aim by heading and tilt, and check with "
                  "somebody at the place that matters."});
    return;
  }
  Table table{{{"point", 6},
               {"away, on the ground", 3, true},
               {"heading", 2, true},
               {"from the left", 2, true},
               {"from the top", 2, true}},
              {}};
  char letter = 'a';
  for (const need::AimPoint& point : part.aim.points)
    table.rows.push_back({fmt::format("{}{}  {}", part.number, letter++, aim_point_words(job, part, point, in_leaf)),
                          point.name == need::kPlumb ? "below" : taped_words(point.distance, units),
                          angle(point.heading), number(100 * point.right) + " %", number(100 * point.down) + " %"});
  blocks.emplace_back(table);
  blocks.emplace_back(Paragraph{astray_words(part), Tone::kNote});
  if (close_together(part.aim.points))
    blocks.emplace_back(
        Paragraph{"The points lie close together or there is one alone: check with somebody at the place that matters.",
                  Tone::kNote});
}

/// Whose place the picture shows.
std::string shown_words(const Shown& shown) {
  if (!shown.need.empty()) return "the worst place of \"" + shown.need + "\" then";
  return fmt::format("the middle of the picture (no need has its worst place by {} before this camera)",
                     shown.night ? "night" : "day");
}

draw::Figure figure_of(const CameraPart& part, const Shown& shown, need::Units units) {
  const draw::PageSize size{shown.picture.columns, shown.picture.rows};
  const std::string words =
      fmt::format("{}: at {}, {}.", shown.condition, place_on_plan(shown.at, units), shown_words(shown));
  return {size,
          [&picture = shown.picture](draw::Canvas& canvas) {
            canvas.photograph({picture.columns, picture.rows, picture.rgb.data()}, {0, 0}, 1);
          },
          words,
          fmt::format("The whole picture of camera {} by {}, as it is predicted, with somebody or a car at that place.",
                      part.camera->name, shown.night ? "night" : "day")};
}

void add_pictures(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  draw::Figures figures{{}, 190, 0.7};
  for (const Shown& shown : part.shown) figures.row.push_back(figure_of(part, shown, job.project().settings.units));
  if (figures.row.empty()) return;
  blocks.emplace_back(figures);
}

/// Whether a need's worst place is this camera's to show, or no camera's and this one would mend it best.
bool is_its(const need::Verdict& verdict, const std::string& camera) {
  if (!verdict.worst->camera.empty()) return verdict.worst->camera == camera;
  return verdict.remedy && verdict.remedy->camera == camera;
}

/// Conditions that are not a need's worst in which the worst place is this camera's to show.
std::string shown_besides(const need::Verdict& verdict, const std::string& camera) {
  std::string all;
  for (const need::ConditionShare& share : verdict.conditions)
    if (share.camera == camera)
      all += fmt::format("{}{} ({})", all.empty() ? "" : ", ", share.condition, need::share_words(share.share));
  return all;
}

void add_promise(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  Table table{{{"need whose worst place it shows best", 5},
               {"verdict", 2},
               {"delivered there", 4},
               {"needs", 2, true},
               {"limit", 2}},
              {}};
  std::string besides;
  const need::Units units = job.project().settings.units;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    if (verdict.worst && is_its(verdict, part.camera->name))
      table.rows.push_back({verdict.need, verdict_word(verdict.answer),
                            need::worst_words(*verdict.worst, units) + ", " + verdict.worst->condition,
                            need::density_words(verdict.required, units), limit_words(verdict.limit)});
    else if (const std::string shown = shown_besides(verdict, part.camera->name); !shown.empty())
      besides += fmt::format("{}{}: {}", besides.empty() ? "" : "; ", verdict.need, shown);
  }
  if (!table.rows.empty()) blocks.emplace_back(table);
  if (!besides.empty())
    blocks.emplace_back(
        Paragraph{"In conditions that are not the worst for a need it shows the worst place of it best "
                  "(share of the need): " +
                  besides + "."});
  if (table.rows.empty() && besides.empty())
    blocks.emplace_back(
        Paragraph{"No need's worst place is this camera's to show. What each need comes to stands under Needs and "
                  "verdicts."});
}

/// What its sheet, its place and its mount ask to look out for.
std::vector<need::Caution> cautions_of(const Job& job, const CameraPart& part) {
  std::vector<need::Caution> cautions;
  const auto add = [&](const std::string& text) { cautions.push_back({part.camera->name, text}); };
  for (const loads::HeldMount& held : job.here.loads.mount.mounts)
    if (held.mount == part.mount->name) std::for_each(held.access.begin(), held.access.end(), add);
  // That heights kill is among how each mount is reached.
  for (const std::string& text : part.card.cautions)
    if (!text.ends_with(need::kHeightKills)) add(text);
  for (const auto* all : {&job.here.check.cautions, &job.here.loads.cable.cautions})
    for (const need::Caution& one : *all)
      if (one.about == part.camera->name && !one.text.ends_with(need::kHeightKills)) add(one.text);
  return cautions;
}

/// Of this camera alone: what is so of several is said before them. `all` is what is so of any.
void add_cautions(const CameraPart& part, const std::vector<Said>& all, std::vector<Block>& blocks) {
  draw::Points points;
  for (const Said& one : all)
    if (one.about == std::vector{part.camera->name}) points.items.push_back(one.text);
  if (points.items.empty()) return;
  blocks.emplace_back(Heading{3, "Look out"});
  blocks.emplace_back(std::move(points));
}

/// What the loads tell about this camera, its run or its mount.
void add_carried(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  Table table{{{"carried by", 4}, {"load, of what carries it", 6}, {"held", 2}, {"what to do", 6}}, {}};
  for (const loads::Ask& ask : job.here.asks)
    if (std::any_of(ask.of.begin(), ask.of.end(),
                    [&](const std::string& name) { return name == part.camera->name || name == part.mount->name; }))
      table.rows.push_back(
          {ask.part + ": " + ask.about, ask.words, std::string(loads::in_words(ask.held)), ask.remedy});
  if (!table.rows.empty()) {
    blocks.emplace_back(Heading{3, "What carries it"});
    blocks.emplace_back(table);
  }
}

/// What holds for every camera, before the first.
void add_common(const Job& job, const std::vector<Said>& cautions, std::vector<Block>& blocks) {
  draw::Points points{
      {kHolesAside,
       ("Set heading and tilt on the mount, come down, look at the picture, and correct until each point stands where "
        "the camera's table says, in shares of the picture from its left edge and from its top. The points are marked "
        "on the plan. Nobody climbs with a telephone in the hand."),
       ("Pictures are predicted, made small, before compression, which takes most from what is finer than they show; "
        "verdicts count it. People, cars and plates in them are invented."),
       "Headings are clockwise from the plan's north. " + north_words(job.project()),
       ("A verdict that counts on a lamp holds while the lamp burns, stands where the plan has it and is clean: look "
        "at "
        "each at the walk test, and write down who switches it and when.")}};
  for (const Said& one : cautions)
    if (one.about.size() > 1) points.items.push_back(caution_words(one));
  blocks.emplace_back(Heading{2, "What holds for more than one"});
  blocks.emplace_back(std::move(points));
}

}  // namespace

void add_cameras(const Job& job, std::vector<Block>& blocks) {
  if (job.cameras.empty()) return;
  blocks.emplace_back(Heading{1, "Cameras"});
  Table list{{{"", 1, true},
              {"camera", 4},
              {"sheet", 5},
              {"mount", 5},
              {"height", 2, true},
              {"heading", 2, true},
              {"tilt", 2, true}},
             {}};
  const need::Units units = job.project().settings.units;
  for (const CameraPart& part : job.cameras)
    list.rows.push_back({std::to_string(part.number), part.camera->name, part.sheet->name, part.mount->name,
                         need::measured_words(part.aim.height, units), angle(part.aim.heading), angle(part.aim.tilt)});
  blocks.emplace_back(list);
  std::vector<need::Caution> all;
  for (const CameraPart& part : job.cameras)
    for (need::Caution& one : cautions_of(job, part)) all.push_back(std::move(one));
  const std::vector<Said> cautions = said_once(all);
  add_common(job, cautions, blocks);
  const site::Scene in_leaf{job.project().site, site::Leaves::kOn};
  for (const CameraPart& part : job.cameras) {
    blocks.emplace_back(Heading{2, fmt::format("{}  {}", part.number, part.camera->name), true});
    add_place(job, part, in_leaf, blocks);
    add_aim(job, part, in_leaf, blocks);
    add_pictures(job, part, blocks);
    blocks.emplace_back(Heading{3, "What it is promised to show"});
    add_promise(job, part, blocks);
    add_light_relied_on(job, part, blocks);
    add_reach(job, part, blocks);
    add_cautions(part, cautions, blocks);
    add_carried(job, part, blocks);
  }
}

}  // namespace sightfall::papers
