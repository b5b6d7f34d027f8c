// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/wind.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

namespace sightfall::site {
namespace {

using namespace units;

// Steel Buildings in Europe, part 3 (2010), appendix B: 26 m/s, category III, 8 m: k_r 0.215, c_r 0.706, q_p about 0.66
// kN/m2 (661.8 N/m2 unrounded).
TEST(Wind, IsThatOfThePublishedExample) {
  EXPECT_NEAR(gust_pressure(26.0 * (m / s), TerrainCategory::kIII, Length{8}).in(Pa), 661.8, 0.1);
}

// EN 1991-1-4: category I at 5 m has k_r 0.1698, c_r 1.0550, I_v 0.1609, c_e 2.3666. A sheet that goes about multiplies
// c_r once instead of squaring it and comes to 2.345 kPa at 40.9 m/s; 2.474 kPa is right.
TEST(Wind, SquaresTheRoughnessFactor) {
  EXPECT_NEAR(gust_pressure(40.9 * (m / s), TerrainCategory::kI, Length{5}).in(Pa), 2474, 3);
}

TEST(Wind, GrowsWithSpeedHeightAndOpenness) {
  const auto at = [](double speed, TerrainCategory category, double height) {
    return gust_pressure(Speed{speed}, category, Length{height}).si();
  };
  EXPECT_NEAR(at(20, TerrainCategory::kII, 6) * 4, at(40, TerrainCategory::kII, 6), 1e-9);
  for (const TerrainCategory category : {TerrainCategory::k0, TerrainCategory::kII, TerrainCategory::kIV})
    for (double z = 0.5; z < 30; z += 0.5) EXPECT_LE(at(26, category, z), at(26, category, z + 0.5));
  EXPECT_GT(at(26, TerrainCategory::k0, 10), at(26, TerrainCategory::kII, 10));
  EXPECT_GT(at(26, TerrainCategory::kII, 10), at(26, TerrainCategory::kIV, 10));
  EXPECT_EQ(at(26, TerrainCategory::kIII, 1), at(26, TerrainCategory::kIII, 5));
}

// rho v^2 / 2 with rho 1.25; 422.5 N/m2 is printed in that example, 1.046 kPa in the sheet.
TEST(Wind, ASteadyWindPressesAsItsSquare) {
  const std::vector<std::pair<double, double>> rows{{20, 250.0},   {22.5, 316.4}, {25, 390.6},   {26, 422.5},
                                                    {27.5, 472.7}, {30, 562.5},   {40.9, 1045.5}};
  for (const auto& [speed, pressure] : rows) EXPECT_NEAR(steady_pressure(Speed{speed}).in(Pa), pressure, 0.06);
}

}  // namespace
}  // namespace sightfall::site
