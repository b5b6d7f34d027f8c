// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/shape.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::draw {
namespace {

using geom::Polyline;
using geom::Vec2;

TEST(Shape, ABandHasTheAreaOfItsLengthTimesWidth) {
  EXPECT_NEAR(std::abs(geom::signed_area(band({{0, 0}, {10, 0}}, 3)).si()), 30, 1e-9);
  // At a right angle the mitre adds outside what it takes inside.
  EXPECT_NEAR(std::abs(geom::signed_area(band({{0, 0}, {10, 0}, {10, 10}}, 2)).si()), 40, 1e-9);
  EXPECT_TRUE(band({{1, 1}, {1, 1}}, 2).empty());
}

TEST(Shape, ATurnedBoxKeepsItsSizeAndTurnsClockwise) {
  const geom::Ring box = turned_box({5, 5}, 2, 4, 90.0 * units::deg);
  EXPECT_NEAR(std::abs(geom::signed_area(box).si()), 8, 1e-9);
  const geom::Box2 bounds = geom::bounds(box);
  EXPECT_NEAR(bounds.high.x - bounds.low.x, 4, 1e-9);
  EXPECT_NEAR(0.5 * (box[2].x + box[3].x), 7, 1e-9) << "the front faces east";
}

TEST(Shape, SmoothingTakesTheStairsOutAndMovesNoPointFarther) {
  Polyline stairs;
  for (int i = 0; i < 60; ++i) stairs.points.push_back({double(i), std::floor(i / 4.0)});
  const Polyline line = smoothed(stairs, 1);
  ASSERT_EQ(line.points.size(), stairs.points.size());
  EXPECT_EQ(line.points.front(), stairs.points.front());
  EXPECT_EQ(line.points.back(), stairs.points.back());
  for (size_t i = 0; i < line.points.size(); ++i) EXPECT_LE(geom::norm(line.points[i] - stairs.points[i]), 1 + 1e-9);
  const auto from_slope = [](Vec2 p) { return std::abs(p.y - (p.x / 4 - 0.375)); };
  double before = 0, after = 0;
  for (size_t i = 10; i < 50; ++i) {
    before = std::max(before, from_slope(stairs.points[i]));
    after = std::max(after, from_slope(line.points[i]));
  }
  EXPECT_LT(after, 0.35 * before);
  const Polyline held = smoothed(stairs, 0.1);
  for (size_t i = 0; i < held.points.size(); ++i) EXPECT_LE(geom::norm(held.points[i] - stairs.points[i]), 0.1 + 1e-9);
}

TEST(Shape, ABrokenLineKeepsWhatLiesOutsideTheGap) {
  const Polyline line{{{0, 0}, {4, 0}, {10, 0}}, false};
  const auto parts = broken(line, 3, 7);
  ASSERT_EQ(parts.size(), 2U);
  EXPECT_EQ(parts[0].points.back(), (Vec2{3, 0}));
  EXPECT_EQ(parts[1].points.front(), (Vec2{7, 0}));
  EXPECT_EQ(broken(line, -1, 7).size(), 1U);
  EXPECT_EQ(broken(line, 3, 11).size(), 1U);
  const Polyline square{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, true};
  double left = 0;
  for (const Polyline& part : broken(square, 0.5, 1.25)) left += geom::length(part.points).si();
  EXPECT_NEAR(left, 4 - 0.75, 1e-9);
}

TEST(Shape, MultiplesKeepBothEnds) {
  EXPECT_EQ(multiples(0.5, -0.5, 1), (std::vector<double>{-0.5, 0, 0.5, 1}));
  EXPECT_EQ(multiples(10, 1, 29), (std::vector<double>{10, 20}));
  EXPECT_TRUE(multiples(10, 1, 9).empty());
}

TEST(Shape, DistancesByPencil) {
  const std::vector<Vec2> line{{0, 0}, {10, 0}, {10, 5}};
  EXPECT_NEAR(distance_to_line(line, {4, 3}), 3, 1e-12);
  EXPECT_NEAR(distance_to_line(line, {13, 9}), 5, 1e-12);
  EXPECT_EQ(point_along(line, 12), (Vec2{10, 2}));
  EXPECT_EQ(point_along(line, 99), (Vec2{10, 5}));
}

}  // namespace
}  // namespace sightfall::draw
