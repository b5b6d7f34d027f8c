// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/fixing.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

using namespace units;

constexpr Length kInch{0.0254};
constexpr double kPound = 4.4482216152605;  // N

// Allowable withdrawal of wood screws, as tabled from 2850 G^2 D: G 0.45, no. 10 (0.190 in): 109 lb an inch.
TEST(Fixing, AWoodScrewHoldsWhatTheTableSays) {
  EXPECT_NEAR(wood_screw_allowable(0.45, 0.190 * kInch, kInch).in(N) / kPound, 109.65, 0.05);
}

// Wood Handbook (USDA): ultimate withdrawal 15 700 G^2 D; G 0.70, 0.164 in, 1 in: 1262 lb. Over the allowable, 5.51.
TEST(Fixing, AnAllowableLoadIsAFifthOfTheUltimateOne) {
  EXPECT_NEAR(1261.7 / (wood_screw_allowable(0.70, 0.164 * kInch, kInch).in(N) / kPound), 5.51, 0.01);
}

// AWC National Design Specification, 1800 G^1.5 D^0.75: G 0.50, 1/4 in: 225.0 lb an inch (39.40 N/mm).
TEST(Fixing, ALagScrewHoldsWhatTheFormulaSays) {
  EXPECT_NEAR(lag_screw_allowable(0.50, 0.25 * kInch, kInch).in(N) / kPound, 225.0, 0.1);
  EXPECT_NEAR(lag_screw_allowable(0.50, 6.35 * mm, 1.0 * mm).in(N), 39.40, 0.02);
}

TEST(Fixing, DenserWoodDeeperAndThickerScrewsHoldMore) {
  for (double x = 1; x < 3; x += 0.1) {
    EXPECT_LT(wood_screw_allowable(0.2 * x, 5.0 * mm, 30.0 * mm),
              wood_screw_allowable(0.2 * (x + 0.1), 5.0 * mm, 30.0 * mm));
    EXPECT_LT(wood_screw_allowable(0.4, x * mm, 30.0 * mm), wood_screw_allowable(0.4, (x + 0.1) * mm, 30.0 * mm));
    EXPECT_LT(lag_screw_allowable(0.4, x * mm, 30.0 * mm), lag_screw_allowable(0.4, (x + 0.1) * mm, 30.0 * mm));
    EXPECT_LT(lag_screw_allowable(0.4, 6.0 * mm, x * mm), lag_screw_allowable(0.4, 6.0 * mm, (x + 0.1) * mm));
  }
}

TEST(Fixing, WhatTheMakerStatesCounts) {
  site::Fixing fixing;
  EXPECT_FALSE(allowable(fixing, {0.35, 0.42, 0.55}));
  fixing.allowable = 300.0 * N;
  EXPECT_EQ(allowable(fixing, {0.35, 0.42, 0.55})->low, 300.0 * N);
}

TEST(Fixing, AnUnknownWoodGivesARangeAndAKnownOneDoesNot) {
  site::Fixing fixing;
  fixing.kind = site::FixingKind::kWoodScrew;
  fixing.diameter = 5.0 * mm;
  fixing.depth = 30.0 * mm;
  const auto unknown = allowable(fixing, {0.35, 0.42, 0.55});
  EXPECT_LT(unknown->low, unknown->nominal);
  EXPECT_LT(unknown->nominal, unknown->high);
  fixing.gravity = 0.42;
  EXPECT_EQ(allowable(fixing, {0.35, 0.42, 0.55})->high, unknown->nominal);
}

TEST(Fixing, TheDepthForAPullCarriesIt) {
  site::Fixing fixing;
  fixing.kind = site::FixingKind::kLagScrew;
  fixing.diameter = 6.0 * mm;
  const auto depth = depth_for(fixing, 0.42, 500.0 * N);
  EXPECT_NEAR(lag_screw_allowable(0.42, 6.0 * mm, *depth).in(N), 500, 1e-6);
  fixing.kind = site::FixingKind::kAnchor;
  EXPECT_FALSE(depth_for(fixing, 0.42, 500.0 * N));
}

}  // namespace
}  // namespace sightfall::loads
