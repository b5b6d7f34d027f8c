// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/label.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sightfall::draw {
namespace {

std::array<PagePoint, 4> corners(const TurnedBox& box) {
  const PagePoint across = (box.width / 2) * PagePoint{std::cos(box.turn), std::sin(box.turn)};
  const PagePoint down = (box.height / 2) * PagePoint{-std::sin(box.turn), std::cos(box.turn)};
  return {box.middle - across - down, box.middle + across - down, box.middle + across + down,
          box.middle - across + down};
}

/// Whether a line along one of a's sides parts the two boxes.
bool parted(const TurnedBox& a, const TurnedBox& b) {
  for (const double turn : {a.turn, a.turn + M_PI / 2}) {
    const PagePoint axis{std::cos(turn), std::sin(turn)};
    double a_low = HUGE_VAL, a_high = -HUGE_VAL, b_low = HUGE_VAL, b_high = -HUGE_VAL;
    for (const PagePoint p : corners(a)) {
      a_low = std::min(a_low, geom::dot(p, axis));
      a_high = std::max(a_high, geom::dot(p, axis));
    }
    for (const PagePoint p : corners(b)) {
      b_low = std::min(b_low, geom::dot(p, axis));
      b_high = std::max(b_high, geom::dot(p, axis));
    }
    if (a_high <= b_low || b_high <= a_low) return true;
  }
  return false;
}

constexpr double kClose = 4;  // a label so near to its thing needs no leader

/// Directions to try, the reader's favourite first: to the right and up, then round, then what lies between.
constexpr std::array<PagePoint, 16> kDirections{{{1, 0},
                                                 {0.7, -0.7},
                                                 {0.7, 0.7},
                                                 {-1, 0},
                                                 {-0.7, -0.7},
                                                 {-0.7, 0.7},
                                                 {0, -1},
                                                 {0, 1},
                                                 {0.92, -0.38},
                                                 {0.92, 0.38},
                                                 {-0.92, -0.38},
                                                 {-0.92, 0.38},
                                                 {0.38, -0.92},
                                                 {0.38, 0.92},
                                                 {-0.38, -0.92},
                                                 {-0.38, 0.92}}};

/// The box whose edge lies at a distance from the point in a direction.
TurnedBox box_beside(PagePoint point, PagePoint direction, double distance, TextSize size) {
  const PagePoint middle = point + distance * direction +
                           PagePoint{direction.x == 0 ? 0 : std::copysign(size.width / 2, direction.x),
                                     std::clamp(direction.y * 2, -1.0, 1.0) * size.height / 2};
  return {middle, size.width, size.height, 0};
}

/// From the thing's edge to the nearest point of its words.
std::vector<PagePoint> leader_to(PagePoint point, double clearance, const TurnedBox& box) {
  constexpr double kPadding = 3;
  const PagePoint end{
      std::clamp(point.x, box.middle.x - box.width / 2 - kPadding, box.middle.x + box.width / 2 + kPadding),
      std::clamp(point.y, box.middle.y - box.height / 2 + kPadding, box.middle.y + box.height / 2 - kPadding)};
  const PagePoint along = end - point;
  return {point + (clearance / geom::norm(along)) * along, end};
}

}  // namespace

bool overlap(const TurnedBox& a, const TurnedBox& b) {
  const double reach = std::hypot(a.width, a.height) / 2 + std::hypot(b.width, b.height) / 2;
  return geom::norm(b.middle - a.middle) <= reach && !parted(a, b) && !parted(b, a);
}

TurnedBox box_along(PagePoint from, PagePoint to, double width) {
  const PagePoint along = to - from;
  return {0.5 * (from + to), geom::norm(along), width, std::atan2(along.y, along.x)};
}

std::vector<TurnedBox> boxes_along(const Shape& lines, double width) {
  std::vector<TurnedBox> boxes;
  for (const geom::Polyline& line : lines.lines) {
    for (size_t i = 1; i < line.points.size(); ++i)
      boxes.push_back(box_along(line.points[i - 1], line.points[i], width));
    if (line.closed && line.points.size() > 2)
      boxes.push_back(box_along(line.points.back(), line.points.front(), width));
  }
  return boxes;
}

bool LabelRoom::is_free(const TurnedBox& box) const {
  for (const PagePoint p : corners(box))
    if (p.x < low_.x || p.y < low_.y || p.x > high_.x || p.y > high_.y) return false;
  return std::none_of(taken_.begin(), taken_.end(), [&](const TurnedBox& other) { return overlap(box, other); });
}

void LabelRoom::crowd(const TurnedBox& box) {
  const PagePoint size = high_ - low_;
  if (overlap(box, {0.5 * (low_ + high_), size.x, size.y, 0})) crowded_.push_back(box);
}

void LabelRoom::crowd(const Shape& lines, double width) {
  for (const TurnedBox& box : boxes_along(lines, width)) crowd(box);
}

bool LabelRoom::is_covered(const TurnedBox& box) const {
  const auto points = corners(box);
  return covered_(box.middle) || std::any_of(points.begin(), points.end(), covered_);
}

bool LabelRoom::is_crowded(const TurnedBox& box) const {
  return std::any_of(crowded_.begin(), crowded_.end(), [&](const TurnedBox& other) { return overlap(box, other); });
}

bool LabelRoom::place_at(const TurnedBox& box, const std::string& text, const Lettering& lettering) {
  if (!is_free(box)) return false;
  take(box);
  placed_.push_back({text, lettering, box, {}});
  return true;
}

bool LabelRoom::strikes(PagePoint point, const std::vector<PagePoint>& leader) const {
  const TurnedBox line = box_along(leader.front(), leader.back(), 1), at{point, 1, 1, 0};
  return std::any_of(taken_.begin(), taken_.end(),
                     [&](const TurnedBox& one) { return overlap(line, one) && !overlap(at, one); });
}

bool LabelRoom::suits(PagePoint point, const TurnedBox& box, const std::vector<PagePoint>& leader,
                      const Terms& accept) const {
  return (accept.strike || leader.empty() || !strikes(point, leader)) && (accept.cover || !is_covered(box)) &&
         (accept.crowd || !is_crowded(box));
}

/// In the first of the directions in which it suits.
bool LabelRoom::place_around(PagePoint point, double clearance, double distance, const Words& words,
                             const Terms& accept) {
  for (const PagePoint direction : kDirections) {
    const TurnedBox box = box_beside(point, direction, clearance + distance, words.size);
    std::vector<PagePoint> leader;
    if (distance != kClose) leader = leader_to(point, clearance + 1, box);
    if (!is_free(box) || !suits(point, box, leader, accept)) continue;
    take(box);
    placed_.push_back({words.text, words.lettering, box, {}});
    // Words that come later keep off this leader.
    if (!leader.empty()) crowd(box_along(leader.front(), leader.back(), 1));
    placed_.back().leader = std::move(leader);
    return true;
  }
  return false;
}

bool LabelRoom::place_beside(const std::vector<PagePoint>& points, double clearance, const std::string& text,
                             const Lettering& lettering, bool strike) {
  const Words words{text, lettering, measured(text, lettering)};
  for (const Terms accept :
       {Terms{false, false, false}, Terms{true, false, false}, Terms{true, true, false}, Terms{true, true, strike}})
    for (const double distance : {kClose, 14.0, 21.0, 28.0, 42.0, 56.0, 70.0, 84.0})
      for (const PagePoint point : points)
        if (place_around(point, clearance, distance, words, accept)) return true;
  return false;
}

void LabelRoom::place_in_any_case(PagePoint point, double clearance, const std::string& text,
                                  const Lettering& lettering) {
  constexpr double kFarther = 10;
  const Words words{text, lettering, measured(text, lettering)};
  const int most = static_cast<int>(geom::norm(high_ - low_) / kFarther);
  for (const Terms accept : {Terms{true, true, false}, Terms{true, true, true}})
    for (int step = 0; step <= most; ++step)
      if (place_around(point, clearance, kClose + step * kFarther, words, accept)) return;
  placed_.push_back({text, lettering, {point, words.size.width, words.size.height, 0}, {}});
}

}  // namespace sightfall::draw
