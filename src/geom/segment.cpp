// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/segment.h"

#include <algorithm>

namespace sightfall::geom {

PlanPoint nearest_on_segment(PlanPoint p, PlanPoint from, PlanPoint to) {
  const PlanPoint way = to - from;
  const double square = dot(way, way);
  return from + (square > 0 ? std::clamp(dot(p - from, way) / square, 0.0, 1.0) : 0.0) * way;
}

double distance_to_segment(PlanPoint p, PlanPoint from, PlanPoint to) {
  return norm(p - nearest_on_segment(p, from, to));
}

std::optional<std::pair<double, double>> part_within(PlanPoint from, PlanPoint to, const Box2& box) {
  double begin = 0, end = 1;
  const auto cut = [&](double start, double step, double low, double high) {
    if (step == 0) return start >= low && start <= high;
    const double one = (low - start) / step, other = (high - start) / step;
    begin = std::max(begin, std::min(one, other));
    end = std::min(end, std::max(one, other));
    return begin <= end;
  };
  if (!cut(from.x, to.x - from.x, box.low.x, box.high.x) || !cut(from.y, to.y - from.y, box.low.y, box.high.y))
    return std::nullopt;
  return std::pair{begin, end};
}

}  // namespace sightfall::geom
