// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/open_ground.h"

#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/reach_strip.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

const card::LevelReach* like_in(const std::vector<card::LevelReach>& all, const std::string& table,
                                const std::string& level) {
  const auto at = std::find_if(all.begin(), all.end(),
                               [&](const card::LevelReach& one) { return one.table == table && one.level == level; });
  return at == all.end() ? nullptr : &*at;
}

bool reaches(const card::LevelReach& reach, Length distance) {
  if (!reach.nearest || !reach.farthest || distance < *reach.nearest || distance > *reach.farthest) return false;
  return std::none_of(reach.gaps.begin(), reach.gaps.end(),
                      [&](const card::Gap& gap) { return distance > gap.from && distance < gap.to; });
}

/// What the limit at a place has to do with what open ground leaves out.
std::string beside_open_ground(detail::Limit limit) {
  using enum detail::Limit;
  switch (limit) {
    case kPixels:
      return "it stands to the side, is turned away or is seen from above there, and so takes fewer pixels";
    case kLens:
    case kFocus:
      return "its range of sharpness is wide, and the low end counts";
    case kMotion:
      return "it crosses the picture there, and is smeared";
    case kShake:
      return "the mount sways in wind there, and smears the picture";
    case kNoise:
      return "less light comes from it there";
    case kClipping:
    case kGlare:
      return "light burns out or strays into the lens there";
    case kContrast:
      return "too little stands out there";
    case kAir:
      return "fog, haze or rain lies in between there";
    case kVeil:
      return "leaves, a fence or glass stand in between";
    case kCompression:
      return "the stream leaves less of it";
    case kAngle:
      return "it is seen from the wrong side or from too steep there";
    case kOcclusion:
      return "something stands in the way";
    case kColour:
      return "it is asked for in colour";
    case kOutOfView:
      return "it is outside the picture there";
    case kMask:
      return "it is blacked out there";
    case kNone:
      break;
  }
  return "the low end of what is uncertain counts";
}

}  // namespace

std::string reach_words(const std::vector<card::LevelReach>& all, const card::LevelReach& like, need::Units units) {
  const card::LevelReach* reach = like_in(all, like.table, like.level);
  if (reach == nullptr || !reach->nearest || !reach->farthest) return "nowhere";
  std::string text =
      fmt::format("{} to {}", need::length_words(*reach->nearest, units), need::length_words(*reach->farthest, units));
  for (const card::Gap& gap : reach->gaps)
    text += fmt::format(", but not {} to {}", need::length_words(gap.from, units), need::length_words(gap.to, units));
  return text;
}

std::optional<std::string> less_than_reach(const Job& job, const CameraPart& part, const need::Verdict& verdict) {
  const need::Project& project = job.project();
  if (verdict.answer == need::Answer::kMet || !verdict.worst || verdict.worst->camera != part.camera->name)
    return std::nullopt;
  const need::Need& need = need::the_named(project.needs, verdict.need);
  const site::Condition& condition = need::the_named(project.conditions, verdict.worst->condition);
  const auto& all = loads::by_night(project, condition) ? part.card.reach_night : part.card.reach;
  const card::LevelReach* reach = like_in(all, project.settings.levels.name, need.level);
  const Length away{geom::norm(geom::plan(verdict.worst->at_site) - part.mount->at)};
  if (reach == nullptr || !reaches(*reach, away)) return std::nullopt;
  const need::Units units = project.settings.units;
  const Ranged<PixelDensity>& delivered = verdict.worst->delivered;
  // Nominally there is enough: then only the range, whose low end counts, tells the two apart.
  const std::string why = delivered.nominal >= verdict.required ? beside_open_ground(detail::Limit::kNone)
                                                                : beside_open_ground(verdict.worst->limit);
  return fmt::format("{}, {} at its worst place, {} away, although \"{}\" reaches there: {} are left of {}, for {}.",
                     verdict.need, verdict_word(verdict.answer), need::length_words(away, units), need.level,
                     need::density_words(delivered, units), need::density_words(verdict.required, units), why);
}

std::optional<std::string> farther_by_night(const CameraPart& part, need::Units units) {
  constexpr double kMuch = 1.05;
  std::string levels;
  const card::Mark* mark = nullptr;
  for (const card::LevelReach& day : part.card.reach) {
    const card::LevelReach* night = like_in(part.card.reach_night, day.table, day.level);
    if (day.table != part.card.reach.front().table || night == nullptr || !night->farthest) continue;
    if (day.farthest && *night->farthest <= kMuch * *day.farthest) continue;
    const Length ends = day.farthest.value_or(*night->nearest);
    const auto& marks = part.card.marks;
    const auto beyond =
        std::find_if(marks.begin(), marks.end(), [&](const card::Mark& one) { return one.distance > ends; });
    if (beyond == marks.end()) continue;
    levels += fmt::format("{}\"{}\"", levels.empty() ? "" : ", ", day.level);
    if (mark == nullptr) mark = &*beyond;
  }
  if (mark == nullptr) return std::nullopt;
  std::string why = fmt::format(
      "By night it reaches farther than by day for {}. At {} {} is the limit by day ({} are left), {} by night ({}).",
      levels, need::length_words(mark->distance, units), limit_words(mark->day.limit),
      need::density_words(mark->day.delivered.nominal, units), limit_words(mark->night.limit),
      need::density_words(mark->night.delivered.nominal, units));
  if (mark->day.limit == detail::Limit::kLens && part.sheet->iris == camera::Iris::kAutomatic && !part.camera->f_number)
    why += " In bright light its iris closes, and a small opening blurs; by night it is open.";
  return why;
}

void add_reach(const Job& job, const CameraPart& part, std::vector<draw::Block>& blocks) {
  const need::Units units = job.project().settings.units;
  blocks.emplace_back(draw::Heading{3, "How far it reaches on open ground"});
  blocks.emplace_back(draw::Figures{{reach_strip(part.card, units)}, 140, 0.8});
  draw::Table table{{{"level", 2}, {"by day", 4}, {"by a black night, its own light", 4}}, {}};
  for (const card::LevelReach& reach : part.card.reach)
    table.rows.push_back(
        {reach.level, reach_words(part.card.reach, reach, units), reach_words(part.card.reach_night, reach, units)});
  blocks.emplace_back(std::move(table));
  if (auto why = farther_by_night(part, units)) blocks.emplace_back(draw::Paragraph{std::move(*why)});
  draw::Points less;
  for (const need::Verdict& verdict : job.here.check.verdicts)
    if (auto words = less_than_reach(job, part, verdict)) less.items.push_back(std::move(*words));
  if (less.items.empty()) return;
  blocks.emplace_back(draw::Paragraph{
      "The table is for a face that walks straight at the camera, in the middle of the picture, over flat ground, in "
      "clear and still air, nominally. A verdict is for its own subject at its worst place, with the whole range:"});
  blocks.emplace_back(std::move(less));
}

}  // namespace sightfall::papers
