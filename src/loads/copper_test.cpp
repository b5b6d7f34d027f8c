// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/copper.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>

namespace sightfall::loads {
namespace {

using namespace units;

// Published tables of AWG at 20 degrees Celsius (ohm/km, row by row) and what 100 m out and back have: 24, 23 and 22
// AWG 16.843, 13.357, 10.592 ohm; two pairs in parallel half of it.
TEST(Copper, GoesOutAndBack) {
  EXPECT_NEAR(loop(84.21 * (ohm / km), Length{100}, 20).in(ohm), 16.843, 2e-3);
  EXPECT_NEAR(loop(66.79 * (ohm / km), Length{100}, 20).in(ohm), 13.357, 2e-3);
  EXPECT_NEAR(loop(52.96 * (ohm / km), Length{100}, 20).in(ohm), 10.592, 2e-3);
  EXPECT_NEAR(loop(84.21 * (ohm / km), Length{100}, 20, 2).in(ohm), 8.42, 2e-3);
}

// IEC 60028: the factor at -20, 0, 40, 50, 60, 70, 90 degrees Celsius.
TEST(Copper, WarmsUp) {
  constexpr std::array<std::pair<double, double>, 7> kTable{
      {{-20, 0.8428}, {0, 0.9214}, {40, 1.0786}, {50, 1.1179}, {60, 1.1572}, {70, 1.1965}, {90, 1.2751}}};
  for (const auto& [celsius, expected] : kTable) EXPECT_NEAR(warmed(celsius), expected, 1e-4);
}

/// 12 V, 0.75 mm2 (26 ohm/km, IEC 60228 class 5), 20 m, 6 W: V^2 - 12 V + 6.24 = 0.
TEST(Copper, ADropIsWhatAPencilSays) {
  const auto device = fed(12.0 * V, loop(26.0 * (ohm / km), Length{20}, 20), 6.0 * W);
  ASSERT_TRUE(device);
  EXPECT_NEAR(device->at_device.in(V), (12 + std::sqrt(144 - 4 * 6 * 1.04)) / 2, 1e-9);
  EXPECT_NEAR((device->at_device * device->current).in(W), 6, 1e-9);
  EXPECT_NEAR(device->lost.in(W), (device->current * device->current * (1.04 * ohm)).in(W), 1e-9);
}

TEST(Copper, ALongerOrWarmerRunNeverLosesLess) {
  for (double metres = 5; metres < 200; metres += 5) {
    const auto near = fed(48.0 * V, loop(84.0 * (ohm / km), Length{metres}, 20), 10.0 * W),
               far = fed(48.0 * V, loop(84.0 * (ohm / km), Length{metres + 5}, 20), 10.0 * W),
               warm = fed(48.0 * V, loop(84.0 * (ohm / km), Length{metres}, 60), 10.0 * W);
    EXPECT_LT(near->lost, far->lost);
    EXPECT_LT(near->lost, warm->lost);
    EXPECT_GT(near->at_device, far->at_device);
  }
}

/// By the triangle of voltages: across the device V, along it what the in-phase current loses, across it the rest.
TEST(Copper, AlternatingCurrentClosesItsTriangleOfVoltages) {
  for (const double factor : {0.3, 0.6, 0.9, 1.0}) {
    const double r = 1.3, across = std::sqrt(1 - factor * factor);
    const auto device = fed(24.0 * V, r * ohm, 15.0 * W, factor);
    ASSERT_TRUE(device);
    const double v = device->at_device.in(V), i = device->current.in(A);
    EXPECT_NEAR(v * i * factor, 15, 1e-9);
    EXPECT_NEAR(std::hypot(v + i * r * factor, i * r * across), 24, 1e-9);
    EXPECT_NEAR(device->lost.in(W), i * i * r, 1e-9);
  }
}

TEST(Copper, ALowerPowerFactorNeverLosesLess) {
  for (double factor = 0.3; factor < 0.95; factor += 0.1)
    EXPECT_GT(fed(24.0 * V, 1.0 * ohm, 10.0 * W, factor)->lost, fed(24.0 * V, 1.0 * ohm, 10.0 * W, factor + 0.1)->lost);
  EXPECT_FALSE(fed(24.0 * V, 2.0 * ohm, 70.0 * W, 0.5));
  EXPECT_TRUE(fed(24.0 * V, 2.0 * ohm, 70.0 * W));
}

TEST(Copper, ALoopThatCannotCarryThePowerSaysSo) { EXPECT_FALSE(fed(12.0 * V, 10.0 * ohm, 5.0 * W)); }

}  // namespace
}  // namespace sightfall::loads
