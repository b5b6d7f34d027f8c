// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/bearing.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

TEST(Bearing, IsMetWhenEvenTheHighEndIsCarried) { EXPECT_EQ(judge(Ranged<double>{8, 9, 10}, 10.0), Held::kMet); }
TEST(Bearing, IsMissedWhenNotEvenTheLowEndIs) { EXPECT_EQ(judge(Ranged<double>{8, 9, 10}, 7.9), Held::kMissed); }
TEST(Bearing, IsMarginalBetween) { EXPECT_EQ(judge(Ranged<double>{8, 9, 10}, 9.5), Held::kMarginal); }

TEST(Bearing, IsUnknownWithoutACapacity) {
  const auto bearing = bear<double>({8, 9, 10}, std::nullopt, "a rule");
  EXPECT_EQ(bearing.held, Held::kUnknown);
  EXPECT_FALSE(bearing.margin());
}

TEST(Bearing, MarginIsWhatIsLeftAtTheNominalLoad) {
  EXPECT_DOUBLE_EQ(*bear<double>({8, 9, 10}, 12.0, "a rule").margin(), 3);
}

TEST(Bearing, TheWorseOfTwo) {
  EXPECT_EQ(worse(Held::kMet, Held::kMarginal), Held::kMarginal);
  EXPECT_EQ(worse(Held::kUnknown, Held::kMarginal), Held::kUnknown);
  EXPECT_EQ(worse(Held::kUnknown, Held::kMissed), Held::kMissed);
  EXPECT_EQ(worse(Held::kMet, Held::kMet), Held::kMet);
}

}  // namespace
}  // namespace sightfall::loads
