// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/reach_strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Canvas;
using draw::PagePoint;

constexpr double kLeft = 150, kRight = 940, kTop = 34, kRow = 34, kBar = 9;
constexpr Length kNear{1}, kFar{200};
constexpr int kWidth = 980;

/// The stretches of a level between its ends, without its gaps.
std::vector<card::Gap> stretches(const card::LevelReach& reach) {
  if (!reach.nearest || !reach.farthest) return {};
  std::vector<card::Gap> parts;
  Length from = *reach.nearest;
  for (const card::Gap& gap : reach.gaps) {
    parts.push_back({from, gap.from});
    from = gap.to;
  }
  parts.push_back({from, *reach.farthest});
  return parts;
}

void draw_bar(Canvas& canvas, double top, const card::LevelReach& reach, bool night) {
  for (const card::Gap& part : stretches(reach)) {
    if (part.to <= kNear || part.from >= kFar) continue;
    const draw::Shape bar =
        draw::rectangle({strip_at(part.from), top}, {std::max(strip_at(part.to), strip_at(part.from) + 1), top + kBar});
    // By night the bar is filled; by day it is open, so that the two are told apart without colour.
    canvas.fill(bar, night ? draw::kInk : draw::with_opacity(draw::kAccent, 0.25));
    canvas.stroke(bar, {.colour = night ? draw::kInk : draw::kAccent, .width = 1});
  }
}

void draw_distances(Canvas& canvas, double bottom, bool feet) {
  const std::vector<double> marks = feet ? std::vector<double>{4, 5, 7, 10, 15, 20, 30, 50, 70, 100, 150, 200, 300, 500}
                                         : std::vector<double>{1, 2, 3, 5, 7, 10, 15, 20, 30, 50, 70, 100, 150, 200};
  for (const double mark : marks) {
    const double x = strip_at(feet ? mark * ft : Length{mark});
    canvas.stroke(draw::line_shape({{x, kTop - 6}, {x, bottom}}), {.colour = draw::kFaintInk, .width = 0.6});
    canvas.letter(fmt::format("{:g}", mark), {.size = 15}, {x, kTop - 18});
  }
  canvas.letter_from(feet ? "distance, ft" : "distance, m", {.size = 15, .bold = true}, {0, kTop - 27});
}

const card::LevelReach* reach_of(const std::vector<card::LevelReach>& all, const card::LevelReach& like) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const card::LevelReach& one) {
    return one.table == like.table && one.level == like.level;
  });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace

double strip_at(Length distance) {
  const Length within = std::clamp(distance, kNear, kFar);
  return kLeft + (kRight - kLeft) * std::log(within / kNear) / std::log(kFar / kNear);
}

draw::Figure reach_strip(const card::RangeCard& card, need::Units units) {
  std::vector<card::LevelReach> rows;
  for (const card::LevelReach& reach : card.reach)
    if (rows.empty() || reach.table == rows.front().table) rows.push_back(reach);
  const double bottom = kTop + kRow * static_cast<double>(rows.size());
  const bool feet = units == need::Units::kFeet;
  return {{kWidth, static_cast<int>(bottom) + 4},
          [rows, night = card.reach_night, bottom, feet](Canvas& canvas) {
            draw_distances(canvas, bottom, feet);
            double top = kTop;
            for (const card::LevelReach& day : rows) {
              canvas.letter_from(day.level, {.size = 15}, {0, top + 2});
              draw_bar(canvas, top, day, false);
              if (const card::LevelReach* dark = reach_of(night, day)) draw_bar(canvas, top + kBar + 3, *dark, true);
              top += kRow;
            }
          },
          "How far a face is delivered at each level on open ground: open bar by day, filled bar by a black night with "
          "the camera's own light. Nominal values.",
          "For each level two bars along a scale of distance; the table after it has their ends as figures."};
}

}  // namespace sightfall::papers
