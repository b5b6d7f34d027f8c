// SPDX-License-Identifier: GPL-3.0-or-later
#include "unit/mechanics.h"

#include <gtest/gtest.h>

namespace sightfall {
namespace {

using namespace sightfall::units;

TEST(Mechanics, WeightIsAForceAndAForceOnAnArmAMoment) {
  constexpr Force weight = 2.0 * kg * standard_gravity;
  EXPECT_DOUBLE_EQ(weight.in(N), 19.6133);
  EXPECT_DOUBLE_EQ((weight * (0.5 * m)).in(N * m), 9.80665);
}

TEST(Mechanics, AMovingFluidPresses) {
  constexpr Speed speed = 26.0 * (m / s);
  constexpr Pressure pressure = 0.5 * (1.25 * kg_per_m3) * speed * speed;
  EXPECT_DOUBLE_EQ(pressure.in(Pa), 422.5);  // Steel Buildings in Europe, part 3, appendix B: 26 m/s
}

}  // namespace
}  // namespace sightfall
