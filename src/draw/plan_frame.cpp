// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "draw/plan_map.h"
#include "draw/plan_strip.h"

namespace sightfall::draw {
namespace {

constexpr double kFrameMargin = 56, kTallest = 1500, kShortest = 240;
constexpr double kGridSpacing = 130;  // least, page units

double grid_step(const PlanFrame& frame) {
  // Twice and a half the next lower round number is never below the spacing asked for.
  const double least = kGridSpacing / frame.per_metre;
  const double below = round_down_125(least);
  for (const double step : {below, 2 * below, 2.5 * below, 5 * below})
    if (step >= least && std::abs(step - round_down_125(step * 1.0001)) < 1e-9 * step) return step;
  return 5 * below;
}

}  // namespace

std::function<bool(PagePoint)> held_by(const std::vector<geom::Outline>& outlines, const PlanFrame& frame) {
  std::vector<std::pair<geom::Box2, geom::Outline>> boxed;
  boxed.reserve(outlines.size());
  for (const geom::Outline& outline : outlines) boxed.emplace_back(geom::bounds(outline.outer), outline);
  return [boxed = std::move(boxed), frame](PagePoint at) {
    const geom::PlanPoint p = frame.to_plan(at);
    return std::any_of(boxed.begin(), boxed.end(), [&](const auto& one) {
      const auto& [box, outline] = one;
      return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y &&
             geom::contains(outline, p);
    });
  };
}

Shape PlanFrame::to_page(const Shape& shape) const {
  Shape result = shape;
  for (geom::Polyline& line : result.lines)
    for (PagePoint& p : line.points) p = to_page(p);
  return result;
}

PlanFrame frame_around(const need::DetailMap& map) {
  const double width = map.step.si() * std::max(1, map.columns - 1);
  const double height = map.step.si() * std::max(1, map.rows - 1);
  const double widest = kPictureWidth - 2 * kFrameMargin;
  PlanFrame frame;
  frame.south_west = map.south_west;
  frame.per_metre = std::min(widest / width, kTallest / height);
  const double across = frame.per_metre * width, down = frame.per_metre * height;
  const double top = kFrameMargin + std::max(0.0, (kShortest - down) / 2);
  frame.low = {(kPictureWidth - across) / 2, top};
  frame.high = frame.low + PagePoint{across, down};
  frame.page = {kPictureWidth,
                static_cast<int>(std::ceil(std::max(kShortest + kFrameMargin, frame.high.y) + kStripHeight))};
  return frame;
}

double round_down_125(double value) {
  const double decade = std::pow(10, std::floor(std::log10(value)));
  for (const double leading : {5.0, 2.0, 1.0})
    if (leading * decade <= value) return leading * decade;
  return decade;
}

Shape grid_crosses(const PlanFrame& frame) {
  constexpr double kArm = 5;
  const double step = grid_step(frame);
  const geom::PlanPoint north_east = frame.to_plan({frame.high.x, frame.low.y});
  Shape crosses;
  for (const double x : multiples(step, frame.south_west.x, north_east.x))
    for (const double y : multiples(step, frame.south_west.y, north_east.y)) {
      const PagePoint p = frame.to_page(geom::PlanPoint{x, y});
      crosses.lines.push_back({{p - PagePoint{kArm, 0}, p + PagePoint{kArm, 0}}, false});
      crosses.lines.push_back({{p - PagePoint{0, kArm}, p + PagePoint{0, kArm}}, false});
    }
  return crosses;
}

void draw_grid_crosses(Canvas& canvas, const PlanFrame& frame) {
  canvas.within(frame.shape(), [&] { canvas.stroke(grid_crosses(frame), {.colour = kSoftInk, .width = 0.7}); });
}

void draw_frame(Canvas& canvas, const PlanFrame& frame) {
  constexpr double kGap = 5, kTick = 6;
  canvas.stroke(frame.shape(), {.width = 1});
  canvas.stroke(rectangle(frame.low - PagePoint{kGap, kGap}, frame.high + PagePoint{kGap, kGap}), {.width = 2});
  const Lettering figures{.size = 12.5, .colour = kSoftInk};
  const double step = grid_step(frame);
  const geom::PlanPoint north_east = frame.to_plan({frame.high.x, frame.low.y});
  Shape ticks;
  for (const double x : multiples(step, frame.south_west.x, north_east.x)) {
    const double at = frame.to_page(geom::PlanPoint{x, 0}).x;
    for (const double y : {frame.low.y - kGap, frame.high.y + kGap}) {
      const double out = y < frame.low.y ? -1 : 1;
      ticks.lines.push_back({{{at, y}, {at, y + out * kTick}}, false});
      canvas.letter(fmt::format("{:g}", x), figures, {at, y + out * (kTick + 10)});
    }
  }
  for (const double y : multiples(step, frame.south_west.y, north_east.y)) {
    const double at = frame.to_page(geom::PlanPoint{0, y}).y;
    for (const double x : {frame.low.x - kGap, frame.high.x + kGap}) {
      const double out = x < frame.low.x ? -1 : 1;
      ticks.lines.push_back({{{x, at}, {x + out * kTick, at}}, false});
      canvas.letter(fmt::format("{:g}", y), figures, {x + out * (kTick + 10), at}, -1.5707963267948966);
    }
  }
  canvas.stroke(ticks, {.width = 1});
}

}  // namespace sightfall::draw
