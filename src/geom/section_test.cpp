// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/section.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sightfall::geom {
namespace {

Box2 box_of(const Polyline& line) { return bounds(line.points); }

TEST(Section, OfABoxIsARectangle) {
  const auto lines = section(box({5, 0, 1}, {2, 4, 3}, 0), {0, 0.3}, {1, 0}, 20);
  ASSERT_EQ(lines.size(), 1U);
  const Box2 b = box_of(lines.front());
  EXPECT_NEAR(b.low.x, 4, 1e-12);
  EXPECT_NEAR(b.high.x, 6, 1e-12);
  EXPECT_NEAR(b.low.y, 1, 1e-12);
  EXPECT_NEAR(b.high.y, 4, 1e-12);
  EXPECT_NEAR(norm(lines.front().points.front() - lines.front().points.back()), 0, 1e-12) << "a closed mesh, a ring";
}

TEST(Section, IsCutAtTheReachAndAtTheOrigin) {
  const auto lines = section(box({0, 0, 0}, {10, 4, 1}, 0), {0, 0.3}, {1, 0}, 3);
  ASSERT_FALSE(lines.empty());
  for (const Polyline& line : lines)
    for (const PlanPoint p : line.points) {
      EXPECT_GE(p.x, 0);
      EXPECT_LE(p.x, 3);
    }
  EXPECT_TRUE(section(box({0, 9, 0}, {10, 4, 1}, 0), {0, 0}, {1, 0}, 3).empty()) << "beside the plane";
  EXPECT_TRUE(section(box({-9, 0, 0}, {2, 4, 1}, 0), {0, 0}, {1, 0}, 3).empty()) << "behind the origin";
}

TEST(Section, OfASlopeIsOneLineOfItsSteepness) {
  const Mesh slope = height_grid({-10, -10}, 1, 41, 41, [](int column, int row) { return 0.1 * column + 0.2 * row; });
  const double turn = 0.7;
  const PlanPoint direction{std::cos(turn), std::sin(turn)};
  const auto lines = section(slope, {0.123, 0.456}, direction, 12);
  ASSERT_EQ(lines.size(), 1U);
  const auto [first, last] = std::minmax_element(lines.front().points.begin(), lines.front().points.end(),
                                                 [](PlanPoint a, PlanPoint b) { return a.x < b.x; });
  EXPECT_NEAR(first->x, 0, 1e-9);
  EXPECT_NEAR(last->x, 12, 1e-9);
  EXPECT_NEAR((last->y - first->y) / 12, 0.1 * direction.x + 0.2 * direction.y, 1e-12);
}

TEST(Section, HasNoLooseEndOnAClosedMesh) {
  const Mesh ball = ellipsoid({6, 0.2, 2}, {2, 2, 1.5});
  for (const double turn : {0.0, 0.05, -0.1}) {
    const auto lines = section(ball, {0, 0}, {std::cos(turn), std::sin(turn)}, 30);
    ASSERT_EQ(lines.size(), 1U) << turn;
    EXPECT_NEAR(norm(lines.front().points.front() - lines.front().points.back()), 0, 1e-12) << turn;
  }
}

}  // namespace
}  // namespace sightfall::geom
