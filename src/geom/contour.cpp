// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/contour.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <utility>

#include "base/check.h"

namespace sightfall::geom {
namespace {

/// The sides of a cell.
enum Side : int8_t { kNone = -1, kSouth, kEast, kNorth, kWest };

struct Crossing {
  Side in = kNone, out = kNone;
};

using CellCrossings = std::array<Crossing, 2>;

/// By which corners are high: 1 south-west, 2 south-east, 4 north-east, 8 north-west. The high side is on the left.
/// The saddles (5 and 10) stand here with a low middle.
constexpr std::array<CellCrossings, 16> kCrossings{{
    {},
    {{{kSouth, kWest}}},
    {{{kEast, kSouth}}},
    {{{kEast, kWest}}},
    {{{kNorth, kEast}}},
    {{{kSouth, kWest}, {kNorth, kEast}}},
    {{{kNorth, kSouth}}},
    {{{kNorth, kWest}}},
    {{{kWest, kNorth}}},
    {{{kSouth, kNorth}}},
    {{{kEast, kSouth}, {kWest, kNorth}}},
    {{{kEast, kNorth}}},
    {{{kWest, kEast}}},
    {{{kSouth, kEast}}},
    {{{kWest, kSouth}}},
    {},
}};
constexpr CellCrossings kSaddle5WithHighMiddle{{{kNorth, kWest}, {kSouth, kEast}}};
constexpr CellCrossings kSaddle10WithHighMiddle{{{kWest, kSouth}, {kEast, kNorth}}};

/// Joins the crossings of all cells. A line passes from cell to cell through sides of the grid, and each side is
/// left by at most one line and entered by at most one.
class Tracer {
 public:
  Tracer(const ValueGrid& grid, float level)
      : grid_{grid}, level_{level}, next_(2 * grid.values.size(), kNowhere), entered_(2 * grid.values.size(), false) {}

  void add_cell(int c, int r) {
    const float sw = grid_.at(c, r), se = grid_.at(c + 1, r), ne = grid_.at(c + 1, r + 1), nw = grid_.at(c, r + 1);
    const float mean = (sw + se + ne + nw) / 4;
    if (!std::isfinite(mean)) return;
    const unsigned high =
        (sw >= level_ ? 1U : 0U) | (se >= level_ ? 2U : 0U) | (ne >= level_ ? 4U : 0U) | (nw >= level_ ? 8U : 0U);
    const bool high_middle = mean >= level_;
    const CellCrossings& crossings = high == 5 && high_middle    ? kSaddle5WithHighMiddle
                                     : high == 10 && high_middle ? kSaddle10WithHighMiddle
                                                                 : kCrossings[high];
    for (const Crossing crossing : crossings) {
      if (crossing.in == kNone) continue;
      const size_t from = side(c, r, crossing.in), to = side(c, r, crossing.out);
      next_[from] = static_cast<int64_t>(to);
      entered_[to] = true;
    }
  }

  std::vector<Polyline> lines() {
    std::vector<Polyline> result;
    for (size_t start = 0; start < next_.size(); ++start)
      if (next_[start] != kNowhere && !entered_[start]) result.push_back(follow(start));
    for (size_t start = 0; start < next_.size(); ++start)
      if (next_[start] != kNowhere) result.push_back(follow(start));
    std::erase_if(result, [](const Polyline& line) { return line.points.size() < 2; });
    return result;
  }

 private:
  static constexpr int64_t kNowhere = -1;

  /// Sides that run east are even, sides that run north are odd; both are named by their first point.
  size_t side(int c, int r, Side which) const {
    const int column = which == kEast ? c + 1 : c;
    const int row = which == kNorth ? r + 1 : r;
    const size_t point = static_cast<size_t>(row) * static_cast<size_t>(grid_.columns) + static_cast<size_t>(column);
    return 2 * point + (which == kEast || which == kWest ? 1 : 0);
  }

  PlanPoint crossing_point(size_t side) const {
    const int c = static_cast<int>(side / 2) % grid_.columns, r = static_cast<int>(side / 2) / grid_.columns;
    const bool northwards = side % 2 == 1;
    const double from = grid_.at(c, r), to = northwards ? grid_.at(c, r + 1) : grid_.at(c + 1, r);
    const double share = (level_ - from) / (to - from);
    return grid_.south_west + grid_.step * PlanPoint{c + (northwards ? 0 : share), r + (northwards ? share : 0)};
  }

  Polyline follow(size_t start) {
    Polyline line;
    size_t here = start;
    for (;;) {
      const PlanPoint p = crossing_point(here);
      if (line.points.empty() || !(line.points.back() == p)) line.points.push_back(p);
      const int64_t next = std::exchange(next_[here], kNowhere);
      if (next == kNowhere) break;
      here = static_cast<size_t>(next);
    }
    line.closed = here == start;
    if (line.points.size() > 1 && line.closed && line.points.front() == line.points.back()) line.points.pop_back();
    return line;
  }

  const ValueGrid& grid_;
  double level_;
  std::vector<int64_t> next_;
  std::vector<bool> entered_;
};

}  // namespace

std::vector<Polyline> contours(const ValueGrid& grid, float level, std::span<const char> left_out) {
  CHECK_EQ(grid.values.size(), static_cast<size_t>(grid.columns) * static_cast<size_t>(grid.rows));
  Tracer tracer{grid, level};
  for (int r = 0; r + 1 < grid.rows; ++r)
    for (int c = 0; c + 1 < grid.columns; ++c)
      if (left_out.empty() || left_out[grid.cell(c, r)] == 0) tracer.add_cell(c, r);
  return tracer.lines();
}

}  // namespace sightfall::geom
