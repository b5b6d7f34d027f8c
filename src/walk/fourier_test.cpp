// SPDX-License-Identifier: GPL-3.0-or-later
// Filtering: nothing changed by a transfer of one, a sine scaled by the transfer at its frequency, edges mirrored.
#include "walk/fourier.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace sightfall::walk {
namespace {

TEST(Filter, ATransferOfOneChangesNothing) {
  std::mt19937 random{5};
  std::uniform_real_distribution<float> value{0, 1000};
  Plane plane{37, 23};
  for (float& v : plane.at) v = value(random);
  const Plane before = plane;
  filter(
      plane, [](double, double) { return 1.0; }, 9);
  for (size_t i = 0; i < plane.at.size(); ++i) EXPECT_NEAR(plane.at[i], before.at[i], 1e-2) << i;
}

TEST(Filter, ASineIsScaledByTheTransferAtItsFrequency) {
  const auto transfer = [](double across, double down) { return std::exp(-20 * across * across - 90 * down * down); };
  for (const auto& [fx, fy] : {std::pair{0.125, 0.0}, std::pair{0.0, 0.1}, std::pair{0.25, 0.125}}) {
    Plane plane{160, 160};
    const auto wave = [fx = fx, fy = fy](int x, int y) {
      return std::cos(2 * std::numbers::pi * (fx * (x + 0.5) + fy * (y + 0.5)));
    };
    for (int y = 0; y < plane.rows; ++y)
      for (int x = 0; x < plane.columns; ++x) plane.at[plane.index(x, y)] = static_cast<float>(wave(x, y));
    filter(plane, transfer, 40);
    const double expected = transfer(fx, fy);
    for (const auto& [x, y] : {std::pair{80, 80}, std::pair{77, 90}, std::pair{60, 71}})
      EXPECT_NEAR(plane.at[plane.index(x, y)], expected * wave(x, y), 2e-3) << fx << " " << fy;
  }
}

TEST(Filter, MirrorsAtItsEdges) {
  Plane plane{64, 16, 100};
  filter(
      plane, [](double across, double down) { return std::exp(-50 * (across * across + down * down)); }, 12);
  for (const float v : plane.at) EXPECT_NEAR(v, 100, 1e-3) << "an even plane stays even up to its edges";
}

/// A Gaussian of this sigma (points), and a plane through it by summing.
Transfer gaussian(double sigma) {
  return [sigma](double across, double down) {
    const double x = 2 * std::numbers::pi * sigma;
    return std::exp(-x * x * (across * across + down * down) / 2);
  };
}

double summed(const Plane& plane, double sigma, int column, int row) {
  double sum = 0, weights = 0;
  const auto reach = static_cast<int>(std::ceil(6 * sigma));
  const auto inside = [](int i, int count) { return i < 0 ? -1 - i : i >= count ? 2 * count - 1 - i : i; };
  for (int y = -reach; y <= reach; ++y)
    for (int x = -reach; x <= reach; ++x) {
      const double weight = std::exp(-(x * x + y * y) / (2 * sigma * sigma));
      weights += weight;
      sum += weight *
             static_cast<double>(plane.at[plane.index(inside(column + x, plane.columns), inside(row + y, plane.rows))]);
    }
  return sum / weights;
}

Plane rough(int columns, int rows) {
  std::mt19937 random{6};
  std::uniform_real_distribution<float> value{0, 100};
  Plane plane{columns, rows};
  for (float& v : plane.at) v = value(random);
  return plane;
}

TEST(Filter, AcrossTilesIsWhatSummingGives) {
  const Plane plane = rough(700, 300);  // 3 x 2 tiles
  Plane filtered = plane;
  filter(filtered, gaussian(2.5), 15);
  for (int row = 0; row < plane.rows; row += 13)
    for (int column = 0; column < plane.columns; column += 3)
      EXPECT_NEAR(filtered.at[filtered.index(column, row)], summed(plane, 2.5, column, row), 0.01)
          << column << " " << row;
}

TEST(Filter, NothingStaysNothing) {
  Plane plane{900, 300};
  plane.at[plane.index(20, 20)] = 1000;
  filter(plane, gaussian(2), 12);
  EXPECT_GT(plane.at[plane.index(20, 20)], 30);
  for (int row = 0; row < plane.rows; ++row) EXPECT_EQ(plane.at[plane.index(800, row)], 0);
}

TEST(Filtered, TakesEachPointFromBetweenItsTwo) {
  const Plane plane = rough(400, 300);
  Plane place{400, 300};
  for (int row = 0; row < 300; ++row)
    for (int column = 0; column < 400; ++column)
      place.at[place.index(column, row)] = static_cast<float>(2.0 * column / 399);
  const std::vector<Transfer> transfers{gaussian(1.5), gaussian(2.5), gaussian(3.5)};
  const Plane of = filtered(plane, transfers, place, 21);
  for (const int column : {0, 50, 133, 200, 301, 399}) {
    const double at = 2.0 * column / 399;
    const auto lower = std::min(static_cast<int>(at), 1);
    const double share = at - lower;
    const double expected =
        (1 - share) * summed(plane, lower + 1.5, column, 150) + share * summed(plane, lower + 2.5, column, 150);
    EXPECT_NEAR(of.at[of.index(column, 150)], expected, 0.02) << column;
  }
}

}  // namespace
}  // namespace sightfall::walk
