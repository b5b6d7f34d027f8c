// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/ingress.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

TEST(Ingress, ReadsTheSecondDigit) {
  EXPECT_EQ(against_water("IP66"), 6);
  EXPECT_EQ(against_water("IP 20"), 0);
  EXPECT_EQ(against_water("ip42, IK10"), 2);
  EXPECT_EQ(against_water("IP66/IP67"), 7);
  EXPECT_EQ(against_water("IPX4"), 4);
  EXPECT_EQ(against_water("IP69K"), 9);
}

TEST(Ingress, IsNotStatedWhereNoCodeIs) {
  EXPECT_FALSE(against_water("IP6X"));  // water was not tried
  EXPECT_FALSE(against_water("IP"));
  EXPECT_FALSE(against_water("weatherproof"));
  EXPECT_FALSE(against_water(""));
  EXPECT_FALSE(against_water("IP82"));  // no such first digit
}

// IEC 60529, second digit: 1 dripping, 2 dripping at 15 degrees, 3 spraying, 4 splashing, 5 jets, 6 strong jets, 7 and
// 8 immersion. Splashing is the first that comes from all sides, as rain in wind does.
TEST(Ingress, SplashingIsTheLeastForRain) {
  EXPECT_EQ(kSplash, 4);
  EXPECT_LT(*against_water("IP43"), kSplash);
  EXPECT_GE(*against_water("IP44"), kSplash);
}

}  // namespace
}  // namespace sightfall::loads
