// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/missed.h"

#include <algorithm>
#include <cmath>

#include "draw/plan_layout.h"

namespace sightfall::draw {
namespace {

constexpr double kLeastHalfWidth = 7;  // page units

/// Whether the line comes nearest to a point at an end that the point lies beyond.
bool beyond_an_end(const std::vector<geom::PlanPoint>& line, geom::PlanPoint p) {
  const double near = distance_to_line(line, p);
  const auto beyond = [&](geom::PlanPoint end, geom::PlanPoint next) {
    return geom::norm(p - end) <= near && geom::dot(p - end, next - end) < 0;
  };
  return line.size() < 2 || beyond(line.front(), line[1]) || beyond(line.back(), line[line.size() - 2]);
}

/// The part of the page that the place can touch.
geom::Box2 reach(const site::Place& place, const PlanFrame& frame) {
  geom::Box2 box;
  const auto include = [&](geom::PlanPoint p) { box.include(frame.to_page(p)); };
  std::for_each(place.outline.outer.begin(), place.outline.outer.end(), include);
  std::for_each(place.line.begin(), place.line.end(), include);
  box = box.grown(frame.per_metre * place.width.si() / 2 + kLeastHalfWidth);
  return {{std::max(box.low.x, frame.low.x), std::max(box.low.y, frame.low.y)},
          {std::min(box.high.x, frame.high.x), std::min(box.high.y, frame.high.y)}};
}

/// The stretches of the line x - y = k within the box on which `holds` is true.
template <class Holds>
void add_stretches(Shape& strokes, const geom::Box2& box, double k, Holds holds) {
  constexpr double kStep = 1;
  std::vector<PagePoint> stretch;
  const auto finish = [&] {
    if (stretch.size() > 1) strokes.lines.push_back({{stretch.front(), stretch.back()}, false});
    stretch.clear();
  };
  for (const double x : multiples(kStep, std::max(box.low.x, k + box.low.y), std::min(box.high.x, k + box.high.y))) {
    if (const PagePoint at{x, x - k}; holds(at))
      stretch.push_back(at);
    else
      finish();
  }
  finish();
}

/// A way on which every passage is seen often enough is not missed where it is seen less.
bool met_on_the_way(const PlanMap& plan) {
  if (plan.verdict == nullptr || plan.verdict->answer != need::Answer::kMet) return false;
  const need::Need* need = need::find_named(plan.project->needs, plan.verdict->need);
  return need != nullptr && need->once_a_passage.has_value();
}

}  // namespace

bool in_place(const site::Place& place, geom::PlanPoint p, Length least_half_width) {
  if (place.kind == site::PlaceKind::kZone) return geom::contains(place.outline, p);
  return !beyond_an_end(place.line, p) &&
         distance_to_line(place.line, p) <= std::max(place.width / 2, least_half_width).si();
}

Shape missed_strokes(const PlanMap& plan, const DetailField& field, const PlanFrame& frame) {
  constexpr double kSpacing = 8;
  Shape strokes;
  // A line without width is as wide as a pen's stroke can show.
  const Length least_half_width{kLeastHalfWidth / frame.per_metre};
  const site::Place* place = place_of(plan);
  if (place == nullptr || !(plan.required > PixelDensity{}) || met_on_the_way(plan)) return strokes;
  const auto missed = [&](PagePoint at) {
    const geom::PlanPoint p = frame.to_plan(at);
    return field.at(p) < plan.required && in_place(*place, p, least_half_width);
  };
  const geom::Box2 box = reach(*place, frame);
  const double between = kSpacing * std::sqrt(2.0);
  for (const double k : multiples(between, box.low.x - box.high.y, box.high.x - box.low.y))
    add_stretches(strokes, box, k, missed);
  return strokes;
}

}  // namespace sightfall::draw
