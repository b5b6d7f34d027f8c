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

}  // namespace
}  // namespace sightfall::walk
