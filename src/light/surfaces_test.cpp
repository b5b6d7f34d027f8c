// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/surfaces.h"

#include <gtest/gtest.h>

namespace sightfall::light {
namespace {

using namespace units;

TEST(Materials, AreFoundByTheirWholeName) {
  const Materials materials{
      .all = {{"grass", {{0.1, 0.4, 0.4}}, "made up"}, {"dry soil", {{0.3, 0.4, 0.4}}, "made up"}}};
  EXPECT_EQ(materials.find("dry soil"), &materials.all[1]);
  EXPECT_EQ(materials.find("soil"), nullptr);
  EXPECT_EQ(materials.find(""), nullptr);
  EXPECT_EQ(Materials{}.find("grass"), nullptr);
}

TEST(Retroreflection, IsLargestAlongTheLightAndHalfAtItsHalf) {
  EXPECT_DOUBLE_EQ(retroreflection(70, 0.5 * deg, Angle{}), 70);
  EXPECT_DOUBLE_EQ(retroreflection(70, 0.5 * deg, 0.5 * deg), 35);
  EXPECT_DOUBLE_EQ(retroreflection(70, 0.5 * deg, -0.5 * deg), 35);
}

TEST(Retroreflection, FallsWithTheSquareOfTheAngleFarOut) {
  EXPECT_NEAR(retroreflection(70, 0.5 * deg, 20.0 * deg) / retroreflection(70, 0.5 * deg, 40.0 * deg), 4, 0.01);
}

}  // namespace
}  // namespace sightfall::light
