// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/contour.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace sightfall::geom {
namespace {

constexpr float kBlank = std::numeric_limits<float>::quiet_NaN();

struct Made {
  std::vector<float> values;
  ValueGrid grid;
};

template <class Function>
Made made(PlanPoint south_west, double step, int columns, int rows, Function value) {
  Made result;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c)
      result.values.push_back(static_cast<float>(value(south_west + step * PlanPoint{double(c), double(r)})));
  result.grid = {south_west, step, columns, rows, result.values};
  return result;
}

/// How far a point is from the nearest side of the grid's frame.
double from_border(const ValueGrid& g, PlanPoint p) {
  const PlanPoint in = p - g.south_west;
  const double width = g.step * (g.columns - 1), height = g.step * (g.rows - 1);
  return std::min(std::min(in.x, width - in.x), std::min(in.y, height - in.y));
}

TEST(Contour, APlaneGivesOneStraightLineWithTheHighSideOnItsLeft) {
  const Made m = made({-3, 2}, 0.5, 21, 11, [](PlanPoint p) { return 2 * p.x + p.y; });
  const auto lines = contours(m.grid, 7.3F);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_FALSE(lines[0].closed);
  for (const PlanPoint p : lines[0].points) EXPECT_NEAR(2 * p.x + p.y, 7.3, 1e-5);
  EXPECT_NEAR(from_border(m.grid, lines[0].points.front()), 0, 1e-9);
  EXPECT_NEAR(from_border(m.grid, lines[0].points.back()), 0, 1e-9);
  const PlanPoint along = lines[0].points.back() - lines[0].points.front();
  EXPECT_GT(cross(along, {2, 1}), 0);
}

TEST(Contour, AConeGivesItsCircleClosed) {
  const PlanPoint centre{0.13, -0.21};
  const Made m = made({-10, -10}, 0.25, 81, 81, [&](PlanPoint p) { return 10 - norm(p - centre); });
  const auto lines = contours(m.grid, 4);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_TRUE(lines[0].closed);
  double around = norm(lines[0].points.front() - lines[0].points.back());
  for (size_t i = 1; i < lines[0].points.size(); ++i) around += norm(lines[0].points[i] - lines[0].points[i - 1]);
  // A side of 0.25 m strays from the circle by at most step^2 / (8 r) = 0.0013 m.
  for (const PlanPoint p : lines[0].points) EXPECT_NEAR(norm(p - centre), 6, 0.0014);
  EXPECT_NEAR(around, 2 * M_PI * 6, 0.01);
}

TEST(Contour, ASaddleIsCutByItsMean) {
  const auto saddle = [](float high) {
    return std::vector<float>{high, 0, 0, high};  // south-west and north-east high
  };
  for (const auto& [high, joined] : {std::pair{1.5F, false}, std::pair{3.0F, true}}) {
    const std::vector<float> values = saddle(high);
    const auto lines = contours({{0, 0}, 1, 2, 2, values}, 1);
    ASSERT_EQ(lines.size(), 2U);
    // Joined high corners leave the low corners on their own: each line then goes round a low corner.
    for (const Polyline& line : lines) {
      const PlanPoint middle = 0.5 * (line.points.front() + line.points.back());
      const double to_low = std::min(norm(middle - PlanPoint{1, 0}), norm(middle - PlanPoint{0, 1}));
      const double to_high = std::min(norm(middle - PlanPoint{0, 0}), norm(middle - PlanPoint{1, 1}));
      EXPECT_EQ(to_low < to_high, joined);
    }
  }
}

TEST(Contour, LinesEndOnlyAtTheBorderAndNeverShareAPoint) {
  std::mt19937 random{7};
  std::uniform_real_distribution<float> uniform{0, 1};
  const Made m = made({0, 0}, 1, 40, 30, [&](PlanPoint) { return uniform(random); });
  const auto lines = contours(m.grid, 0.5F);
  ASSERT_GT(lines.size(), 10U);
  size_t points = 0, crossings = 0;
  for (const Polyline& line : lines) {
    points += line.points.size();
    if (line.closed) continue;
    EXPECT_NEAR(from_border(m.grid, line.points.front()), 0, 1e-9);
    EXPECT_NEAR(from_border(m.grid, line.points.back()), 0, 1e-9);
  }
  for (int r = 0; r < 30; ++r)
    for (int c = 0; c < 40; ++c) {
      crossings += c + 1 < 40 && (m.grid.at(c, r) >= 0.5F) != (m.grid.at(c + 1, r) >= 0.5F);
      crossings += r + 1 < 30 && (m.grid.at(c, r) >= 0.5F) != (m.grid.at(c, r + 1) >= 0.5F);
    }
  EXPECT_EQ(points, crossings);
}

TEST(Contour, NoLineRunsWhereAValueIsMissing) {
  const Made m = made({0, 0}, 1, 21, 21, [](PlanPoint p) { return p.x > 10 ? kBlank : static_cast<float>(p.y); });
  const auto lines = contours(m.grid, 4.5F);
  ASSERT_EQ(lines.size(), 1U);
  for (const PlanPoint p : lines[0].points) EXPECT_LE(p.x, 10);
  const Made step = made({0, 0}, 1, 21, 21, [](PlanPoint p) { return p.x > 10 ? kBlank : 300.0F; });
  for (const float level : {20.0F, 125.0F, 250.0F}) EXPECT_TRUE(contours(step.grid, level).empty());
}

TEST(Contour, MarkedCellsAreLeftOut) {
  const Made m = made({0, 0}, 1, 11, 11, [](PlanPoint p) { return p.y; });
  std::vector<char> left_out(100, 0);
  left_out[m.grid.cell(5, 4)] = 1;
  const auto lines = contours(m.grid, 4.5F, left_out);
  ASSERT_EQ(lines.size(), 2U);
  double total = 0;
  for (const Polyline& line : lines) total += norm(line.points.back() - line.points.front());
  EXPECT_NEAR(total, 9, 1e-9);
}

TEST(Contour, ValuesExactlyOnTheLevelLeaveNoGap) {
  const Made m = made({-5, -5}, 1, 11, 11, [](PlanPoint p) { return std::round(3 - norm(p)); });
  for (const Polyline& line : contours(m.grid, 0))
    if (!line.closed) {
      EXPECT_NEAR(from_border(m.grid, line.points.front()), 0, 1e-9);
      EXPECT_NEAR(from_border(m.grid, line.points.back()), 0, 1e-9);
    }
}

}  // namespace
}  // namespace sightfall::geom
