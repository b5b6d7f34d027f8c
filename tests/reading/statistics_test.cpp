// SPDX-License-Identifier: GPL-3.0-or-later
#include "statistics.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::reading {
namespace {

/// Shares of a logistic with this middle and steepness, as hits of many.
std::vector<Measured> on_a_curve(double middle, double steepness, int shown) {
  std::vector<Measured> points;
  for (double detail = middle / 2; detail < 2.1 * middle; detail *= 1.15) {
    const double share = 1 / (1 + std::pow(detail / middle, -steepness));
    points.push_back({detail, {shown, static_cast<int>(std::lround(shown * share))}});
  }
  return points;
}

TEST(Wilson, IsThePublishedFormula) {
  // By pencil: p = 0.5, n = 100, z = 1.6449: centre 0.5, half width z sqrt(0.25/100 + z^2/40000) / (1 + z^2/100).
  const double z = 1.6449, half = z * std::sqrt(0.0025 + z * z / 40000) / (1 + z * z / 100);
  const Ranged<double> share = wilson({100, 50});
  EXPECT_NEAR(share.low, 0.5 - half, 1e-9);
  EXPECT_NEAR(share.high, 0.5 + half, 1e-9);
  EXPECT_EQ(wilson({50, 0}).low, 0);
  EXPECT_GT(wilson({50, 0}).high, 0.02) << "none of fifty is not never";
}

TEST(HalfPoint, IsTheMiddleOfTheCurve) {
  for (const double middle : {15.0, 80.0, 240.0})
    for (const double steepness : {3.0, 8.0, 20.0})
      EXPECT_NEAR(half_point(on_a_curve(middle, steepness, 100000)) / middle, 1, 0.02) << middle << ' ' << steepness;
}

TEST(HalfPoint, LiesBetweenAlwaysAndNever) {
  const std::vector<Measured> step{{40, {200, 0}}, {50, {200, 0}}, {60, {200, 200}}, {70, {200, 200}}};
  EXPECT_GT(half_point(step), 50);
  EXPECT_LT(half_point(step), 60);
}

TEST(HalfPoint, IsNothingWhereHitsNeedNoDetail) {
  EXPECT_EQ(half_point(std::vector<Measured>{{0, {100, 80}}, {0, {100, 10}}, {90, {100, 100}}}), 0);
}

TEST(DrawnHalfPoint, SpreadsAsTheCountsDo) {
  // Quantiles of many experiments with the true curve hold the middle, and fewer plates spread more.
  std::mt19937_64 random{7};
  double width[2] = {};
  for (const int shown : {50, 5000}) {
    std::vector<double> drawn;
    const std::vector<Measured> points = on_a_curve(80, 8, shown);
    for (int i = 0; i < 200; ++i) drawn.push_back(drawn_half_point(points, random));
    const Ranged<double> range = interval(drawn, half_point(points));
    EXPECT_LT(range.low, 80.5);
    EXPECT_GT(range.high, 79.5);
    width[shown == 50 ? 0 : 1] = range.high - range.low;
  }
  EXPECT_NEAR(width[0] / width[1], 10, 3) << "as the root of the number";
}

}  // namespace
}  // namespace sightfall::reading
