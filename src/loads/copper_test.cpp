// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/copper.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace sightfall::loads {
namespace {

using namespace units;

/// Of a solid conductor of an American wire gauge: 0.127 mm x 92^((36 - n) / 39), copper of 1/58 ohm mm2/m.
Resistivity of_gauge(int n) {
  const double mm_across = 0.127 * std::pow(92.0, (36 - n) / 39.0);
  return 1.0 / 58 / (std::numbers::pi / 4 * mm_across * mm_across) * (ohm / Length{1});
}

/// Copper of that resistivity by its area alone.
Resistivity of_area(double mm2) { return 1.0 / 58 / mm2 * (ohm / Length{1}); }

// Published tables of AWG at 20 degrees Celsius agree to 0.1 %: ohm per km.
TEST(Copper, HasTheTabledResistances) {
  constexpr std::array<std::pair<int, double>, 10> kTable{{{10, 3.277},
                                                           {12, 5.211},
                                                           {14, 8.285},
                                                           {16, 13.174},
                                                           {18, 20.948},
                                                           {20, 33.31},
                                                           {22, 52.96},
                                                           {24, 84.21},
                                                           {26, 133.9},
                                                           {28, 212.9}}};
  for (const auto& [gauge, expected] : kTable)
    EXPECT_NEAR(of_gauge(gauge).in(ohm / km), expected, 1.5e-3 * expected) << gauge;
}

// The same rows, 100 m out and back: 24, 23 and 22 AWG 16.843, 13.357, 10.592 ohm; two pairs in parallel half of it.
TEST(Copper, GoesOutAndBack) {
  EXPECT_NEAR(loop(of_gauge(24), Length{100}, 20).in(ohm), 16.843, 0.02);
  EXPECT_NEAR(loop(of_gauge(23), Length{100}, 20).in(ohm), 13.357, 0.02);
  EXPECT_NEAR(loop(of_gauge(22), Length{100}, 20).in(ohm), 10.592, 0.015);
  EXPECT_NEAR(loop(of_gauge(24), Length{100}, 20, 2).in(ohm), 8.42, 0.01);
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

// IEC 60228, the most at 20 degrees Celsius in ohm/km, classes 1 and 2, then class 5; 0.5 to 1 mm2 of classes 1 and 2
// and 0.5 and 0.75 mm2 of class 5 from memory. By its area alone copper of IEC 60028 would have 4.4 to 7.5 % less in
// classes 1 and 2 (the margin for strands and drawing), so that rho / S is no worst case.
TEST(Copper, OfAnAreaAloneIsBetterThanItsClassAllows) {
  struct Row {
    double area_mm2, solid, flexible;
  };
  constexpr std::array<Row, 7> kTable{{{0.5, 36.0, 39.0},
                                       {1, 18.1, 19.5},
                                       {1.5, 12.1, 13.3},
                                       {2.5, 7.41, 7.98},
                                       {4, 4.61, 4.95},
                                       {6, 3.08, 3.30},
                                       {10, 1.83, 1.91}}};
  for (const Row& row : kTable) {
    const double ideal = loop(of_area(row.area_mm2), Length{1000}, 20).in(ohm) / 2;
    EXPECT_GT(row.solid / ideal, 1.043) << row.area_mm2;
    EXPECT_LT(row.solid / ideal, 1.076) << row.area_mm2;
    EXPECT_GT(row.flexible, row.solid) << row.area_mm2;
    EXPECT_LT(row.flexible / ideal, 1.16) << row.area_mm2;
  }
}

TEST(Copper, ALoopThatCannotCarryThePowerSaysSo) { EXPECT_FALSE(fed(12.0 * V, 10.0 * ohm, 5.0 * W)); }

}  // namespace
}  // namespace sightfall::loads
