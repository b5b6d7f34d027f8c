// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geom/pose.h"

namespace sightfall::draw {
namespace {

using geom::Polyline;
using geom::Ring;
using geom::Vec2;

Vec2 left_of(Vec2 along) { return (1 / geom::norm(along)) * Vec2{-along.y, along.x}; }

std::vector<Vec2> without_repeats(const std::vector<Vec2>& line) {
  std::vector<Vec2> result;
  for (const Vec2 p : line)
    if (result.empty() || geom::norm(p - result.back()) > 1e-9) result.push_back(p);
  return result;
}

/// The step aside at a corner between two directions: along the mitre, but never more than twice the half width.
Vec2 aside(Vec2 before, Vec2 after, double half) {
  const Vec2 sum = left_of(before) + left_of(after);
  const double square = geom::dot(sum, sum);
  if (square < 1) return half * left_of(after);
  return (2 * half / square) * sum;
}

}  // namespace

Shape ring_shape(const Ring& ring) { return {{{ring, true}}}; }

Shape outline_shape(const geom::Outline& outline) {
  Shape result = ring_shape(outline.outer);
  for (const Ring& hole : outline.holes) result.lines.push_back({hole, true});
  return result;
}

Shape line_shape(const std::vector<Vec2>& line) { return {{{line, false}}}; }

Shape circle(Vec2 centre, double radius) {
  constexpr int kSides = 64;
  Polyline ring{{}, true};
  for (int i = 0; i < kSides; ++i) {
    const double turn = 2 * std::numbers::pi * i / kSides;
    ring.points.push_back(centre + radius * Vec2{std::cos(turn), std::sin(turn)});
  }
  return {{ring}};
}

Shape rectangle(Vec2 low, Vec2 high) { return ring_shape({low, {high.x, low.y}, high, {low.x, high.y}}); }

Ring turned_box(geom::PlanPoint centre, double across, double along, Angle heading) {
  const Vec2 ahead = geom::heading_vector(heading);
  const Vec2 right{ahead.y, -ahead.x};
  const Vec2 a = (along / 2) * ahead, b = (across / 2) * right;
  return {centre - a - b, centre - a + b, centre + a + b, centre + a - b};
}

Ring band(const std::vector<Vec2>& line, double width) {
  const std::vector<Vec2> points = without_repeats(line);
  if (points.size() < 2) return {};
  Ring left, right;
  for (size_t i = 0; i < points.size(); ++i) {
    const Vec2 before = i > 0 ? points[i] - points[i - 1] : points[1] - points[0];
    const Vec2 after = i + 1 < points.size() ? points[i + 1] - points[i] : before;
    const Vec2 step = aside(before, after, width / 2);
    left.push_back(points[i] + step);
    right.push_back(points[i] - step);
  }
  left.insert(left.end(), right.rbegin(), right.rend());
  return left;
}

Polyline smoothed(const Polyline& line, double at_most) {
  constexpr int kRounds = 8;  // a spread of two points
  Polyline result = line;
  const size_t count = line.points.size();
  if (count < 3) return result;
  for (int round = 0; round < kRounds; ++round) {
    const std::vector<Vec2> before = result.points;
    for (size_t i = 0; i < count; ++i) {
      if (!line.closed && (i == 0 || i + 1 == count)) continue;
      const Vec2 mean = 0.25 * (before[(i + count - 1) % count] + 2 * before[i] + before[(i + 1) % count]);
      const Vec2 moved = mean - line.points[i];
      const double far = geom::norm(moved);
      result.points[i] = far > at_most ? line.points[i] + (at_most / far) * moved : mean;
    }
  }
  return result;
}

std::vector<Polyline> broken(const Polyline& line, double from, double to) {
  std::vector<Vec2> points = line.points;
  if (line.closed) points.push_back(points.front());
  std::vector<Polyline> parts{{}, {}};
  double walked = 0;
  for (size_t i = 0; i < points.size(); ++i) {
    const double step = i > 0 ? geom::norm(points[i] - points[i - 1]) : 0;
    const auto between = [&](double at) {
      return points[i - 1] + ((at - walked) / step) * (points[i] - points[i - 1]);
    };
    if (step > 0 && walked < from && walked + step >= from) parts[0].points.push_back(between(from));
    if (step > 0 && walked < to && walked + step >= to) parts[1].points.push_back(between(to));
    walked += step;
    if (walked < from) parts[0].points.push_back(points[i]);
    if (walked > to) parts[1].points.push_back(points[i]);
  }
  std::erase_if(parts, [](const Polyline& part) { return part.points.size() < 2; });
  return parts;
}

Vec2 point_along(const std::vector<Vec2>& line, double distance) {
  for (size_t i = 1; i < line.size(); ++i) {
    const double step = geom::norm(line[i] - line[i - 1]);
    if (step > 0 && distance <= step) return line[i - 1] + std::max(0.0, distance / step) * (line[i] - line[i - 1]);
    distance -= step;
  }
  return line.back();
}

std::vector<double> multiples(double step, double from, double to) {
  std::vector<double> result;
  const auto last = static_cast<long>(std::floor(to / step));
  for (long k = std::lround(std::ceil(from / step)); k <= last; ++k) result.push_back(static_cast<double>(k) * step);
  return result;
}

double distance_to_line(const std::vector<Vec2>& line, Vec2 point) {
  double least = line.empty() ? HUGE_VAL : geom::norm(point - line.front());
  for (size_t i = 1; i < line.size(); ++i) {
    const Vec2 along = line[i] - line[i - 1], to = point - line[i - 1];
    const double square = geom::dot(along, along);
    const double share = square > 0 ? std::clamp(geom::dot(along, to) / square, 0.0, 1.0) : 0;
    least = std::min(least, geom::norm(to - share * along));
  }
  return least;
}

}  // namespace sightfall::draw
