// SPDX-License-Identifier: GPL-3.0-or-later
// Each camera in the report: what to buy, where it hangs, how it is aimed, what it will show, what carries it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "need/words.h"
#include "papers/aim_words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/money.h"
#include "papers/reach_strip.h"
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
  const std::string at = need::length_words(part.card.focus, units);
  return part.camera->focus ? at + ", set" : at + ", assumed: set it, it is not known";
}

std::string supply_words(const camera::Sheet& sheet) { return sheet.power.supply.value_or("supply not stated"); }

void add_place(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  const need::Aim& aim = part.aim;
  Table table{{{"", 1}, {"", 9}}, {}};
  auto& rows = table.rows;
  rows.push_back({"buy", fmt::format("{}, {} x {} pixels, {}{}", part.sheet->name, part.sheet->columns,
                                     part.sheet->rows, supply_words(*part.sheet),
                                     part.sheet->price ? fmt::format(", price {:g}{}", *part.sheet->price,
                                                                     currency_after(job.project()))
                                                       : "")});
  rows.push_back({"mount", part.mount->name});
  rows.push_back({"bracket", bracket_words(part)});
  rows.push_back({"held by", held_by_words(job, *part.mount)});
  rows.push_back({"where", fmt::format("{} on the plan; the lens {} above the ground",
                                       place_on_plan(part.mount->at, units), need::length_words(aim.height, units))});
  if (aim.corner)
    rows.push_back({"from", fmt::format("{} from {}, on the plan", need::length_words(aim.corner->distance, units),
                                        aim.corner->name)});
  rows.push_back({"holes", kHolesAside});
  rows.push_back({"lens", fmt::format("{:g} mm, {} across; focus at {}", aim.focal.in(mm), angle(aim.view),
                                      focus_words(part, units))});
  std::string looks = fmt::format("heading {} clockwise from the plan's north, tilted {} below the horizon",
                                  angle(aim.heading), angle(aim.tilt));
  if (aim.roll != Angle{}) looks += ", rolled " + angle(aim.roll);
  if (job.project().site.anchor && job.project().site.anchor->turn != Angle{})
    looks += fmt::format("; true north is {} clockwise of the plan's", angle(job.project().site.anchor->turn));
  rows.push_back({"looks", looks});
  blocks.emplace_back(table);
}

/// Whether a small mistake at the points turns much of the picture away.
bool close_together(const std::vector<need::AimPoint>& points) {
  constexpr double kApart = 0.15;  // of the picture
  return points.size() < 2 || std::hypot(points[0].right - points[1].right, points[0].down - points[1].down) < kApart;
}

void add_aim(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  blocks.emplace_back(Heading{3, "Aim it by two points, alone"});
  if (part.aim.points.empty()) {
    blocks.emplace_back(
        Paragraph{"Nothing fixed that was entered stands free in this picture: aim by heading and tilt, and check with "
                  "somebody at the place that matters."});
    return;
  }
  blocks.emplace_back(
      Paragraph{"Set heading and tilt on the mount, come down, look at the picture, and correct until each point "
                "stands where the table "
                "says, in shares of the picture from its left edge and from its top. The points are marked on the "
                "plan. Nobody climbs "
                "with a telephone in the hand."});
  Table table{{{"point", 6},
               {"away, on the ground", 3, true},
               {"heading", 2, true},
               {"from the left", 2, true},
               {"from the top", 2, true}},
              {}};
  const site::Scene in_leaf{job.project().site, site::Leaves::kOn};
  char letter = 'a';
  for (const need::AimPoint& point : part.aim.points)
    table.rows.push_back({fmt::format("{}{}  {}", part.number, letter++, aim_point_words(job, part, point, in_leaf)),
                          need::length_words(point.distance, units), angle(point.heading),
                          number(100 * point.right) + " %", number(100 * point.down) + " %"});
  blocks.emplace_back(table);
  if (close_together(part.aim.points))
    blocks.emplace_back(
        Paragraph{"The points lie close together or there is one alone: check with somebody at the place that matters.",
                  Tone::kNote});
}

draw::Figure figure_of(const Shown& shown, need::Units units) {
  const draw::PageSize size{shown.picture.columns, shown.picture.rows};
  return {size,
          [&picture = shown.picture](draw::Canvas& canvas) {
            canvas.photograph({picture.columns, picture.rows, picture.rgb.data()}, {0, 0}, 1);
          },
          fmt::format(
              "{}: somebody at {}{}. Predicted, made small, before compression; people, cars and plates are invented.",
              shown.condition, place_on_plan(shown.at, units),
              shown.need.empty() ? "" : ", worst place of \"" + shown.need + "\"")};
}

void add_pictures(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  draw::Figures figures{{}, 190};
  for (const Shown& shown : part.shown) figures.row.push_back(figure_of(shown, job.project().settings.units));
  if (!figures.row.empty()) blocks.emplace_back(figures);
}

/// Whether a need's worst place is this camera's to show, or no camera's and this one would mend it best.
bool is_its(const need::Verdict& verdict, const std::string& camera) {
  if (!verdict.worst->camera.empty()) return verdict.worst->camera == camera;
  return verdict.remedy && verdict.remedy->camera == camera;
}

void add_promise(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  Table table{{{"need it is the one for, at its worst place", 5},
               {"verdict", 2},
               {"delivered there", 4},
               {"needs", 2, true},
               {"limit", 2}},
              {}};
  const need::Units units = job.project().settings.units;
  for (const need::Verdict& verdict : job.here.check.verdicts)
    if (verdict.worst && is_its(verdict, part.camera->name))
      table.rows.push_back({verdict.need, verdict_word(verdict.answer),
                            (verdict.worst->camera.empty() ? "no camera sees it"
                                                           : need::density_words(verdict.worst->delivered, units)) +
                                ", " + verdict.worst->condition,
                            need::density_words(verdict.required, units), limit_words(verdict.limit)});
  if (table.rows.empty())
    blocks.emplace_back(
        Paragraph{"No need's worst place is this camera's to show. What each need comes to stands under Needs and "
                  "verdicts."});
  else
    blocks.emplace_back(table);
}

std::string reach_words(const std::vector<card::LevelReach>& all, const card::LevelReach& like, need::Units units) {
  for (const card::LevelReach& reach : all)
    if (reach.table == like.table && reach.level == like.level) {
      if (!reach.nearest || !reach.farthest) return "nowhere";
      std::string text = fmt::format("{} to {}", need::length_words(*reach.nearest, units),
                                     need::length_words(*reach.farthest, units));
      for (const card::Gap& gap : reach.gaps)
        text +=
            fmt::format(", but not {} to {}", need::length_words(gap.from, units), need::length_words(gap.to, units));
      return text;
    }
  return "nowhere";
}

void add_card(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  blocks.emplace_back(Heading{3, "How far it reaches on open ground"});
  blocks.emplace_back(draw::Figures{{reach_strip(part.card, units)}, 100});
  Table table{{{"level", 2}, {"by day", 4}, {"by a black night, its own light", 4}}, {}};
  for (const card::LevelReach& reach : part.card.reach)
    table.rows.push_back(
        {reach.level, reach_words(part.card.reach, reach, units), reach_words(part.card.reach_night, reach, units)});
  blocks.emplace_back(table);
  draw::Points points;
  for (const std::string& caution : part.card.cautions) points.items.push_back(caution);
  for (const need::Caution& one : job.here.check.cautions)
    if (one.about == part.camera->name) points.items.push_back(one.text);
  if (!points.items.empty()) blocks.emplace_back(points);
}

/// What the loads tell about this camera, its run or its mount.
void add_carried(const Job& job, const CameraPart& part, std::vector<Block>& blocks) {
  const loads::Loads& loads = job.here.loads;
  Table table{{{"carried by", 4}, {"", 6}, {"held", 2}, {"what to do", 6}}, {}};
  for (const loads::Ask& ask : job.here.asks)
    if (std::any_of(ask.of.begin(), ask.of.end(),
                    [&](const std::string& name) { return name == part.camera->name || name == part.mount->name; }))
      table.rows.push_back(
          {ask.part + ": " + ask.about, ask.words, std::string(loads::in_words(ask.held)), for_installer(ask.remedy)});
  if (!table.rows.empty()) {
    blocks.emplace_back(Heading{3, "What carries it"});
    blocks.emplace_back(table);
  }
  draw::Points told;
  for (const need::Caution& one : loads.cable.cautions)
    if (one.about == part.camera->name) told.items.push_back(one.text);
  if (!told.items.empty()) blocks.emplace_back(std::move(told));
  draw::Points reached;
  if (!part.mount->access.empty()) reached.items.push_back("reached by: " + part.mount->access);
  for (const loads::HeldMount& held : loads.mount.mounts)
    if (held.mount == part.mount->name)
      reached.items.insert(reached.items.end(), held.access.begin(), held.access.end());
  if (reached.items.empty()) return;
  blocks.emplace_back(Heading{3, "How it is reached"});
  blocks.emplace_back(std::move(reached));
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
                         need::length_words(part.aim.height, units), angle(part.aim.heading), angle(part.aim.tilt)});
  blocks.emplace_back(list);
  for (const CameraPart& part : job.cameras) {
    blocks.emplace_back(Heading{2, fmt::format("{}  {}", part.number, part.camera->name), true});
    add_place(job, part, blocks);
    add_aim(job, part, blocks);
    add_pictures(job, part, blocks);
    blocks.emplace_back(Heading{3, "What it is promised to show"});
    add_promise(job, part, blocks);
    add_light_relied_on(job, part, blocks);
    add_card(job, part, blocks);
    add_carried(job, part, blocks);
  }
}

}  // namespace sightfall::papers
