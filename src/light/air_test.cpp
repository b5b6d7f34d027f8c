// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/air.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sightfall::light {
namespace {

using namespace units;

/// The integral by Simpson's rule over ln r, up to where the light has fallen by exp(-40).
double by_steps(double extinction, double from, double upto) {
  constexpr int kSteps = 2000;
  upto = std::min(upto, from + 20 / extinction);
  const double step = std::log(upto / from) / kSteps;
  const auto at = [&](double i) {
    const double r = from * std::exp(i * step);
    return std::exp(-2 * extinction * r) / r;
  };
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) sum += step / 6 * (at(i) + 4 * at(i + 0.5) + at(i + 1));
  return sum;
}

double integral(double extinction, double from, double upto) {
  return round_trip_integral(extinction, Length{from}, Length{upto});
}

TEST(Extinction, IsTheSameInEveryBandBelow500Metres) {
  for (const Length visibility : {50.0 * m, 150.0 * m, 500.0 * m}) {
    EXPECT_EQ(extinction(visibility, Band::kNear850), extinction(visibility, Band::kVisible));
    EXPECT_EQ(extinction(visibility, Band::kNear940), extinction(visibility, Band::kVisible));
  }
}

TEST(Extinction, IsLessTheLongerTheWaveAbove500Metres) {
  for (const Length visibility : {600.0 * m, 2.0 * km, 20.0 * km, 80.0 * km}) {
    EXPECT_LT(extinction(visibility, Band::kNear940), extinction(visibility, Band::kNear850));
    EXPECT_LT(extinction(visibility, Band::kNear850), extinction(visibility, Band::kVisible));
  }
}

// Kim's exponent has one step, at 50 km; elsewhere its pieces join.
TEST(Extinction, HasNoStepUpTo50Kilometres) {
  for (const Length visibility : {0.5 * km, 1.0 * km, 6.0 * km}) {
    const double below = extinction(visibility * (1 - 1e-9), Band::kNear940);
    EXPECT_NEAR(extinction(visibility * (1 + 1e-9), Band::kNear940) / below, 1, 1e-7) << visibility.in(km);
  }
  const double step = extinction(50.001 * km, Band::kNear940) / extinction(50.0 * km, Band::kNear940);
  EXPECT_NEAR(step, std::pow(940.0 / 550, -0.3), 1e-4);
}

TEST(Extinction, OfEachKindOfAirRises) {
  const auto of = [](AirName air) { return extinction(visibility_of(air), Band::kVisible); };
  EXPECT_LT(of(AirName::kClear), of(AirName::kHaze));
  EXPECT_LT(of(AirName::kHaze), of(AirName::kRain));
  EXPECT_LT(of(AirName::kRain), of(AirName::kFog));
}

TEST(Transmission, OfTwoStretchesIsTheProduct) {
  EXPECT_DOUBLE_EQ(transmission(0.02, 50.0 * m), transmission(0.02, 20.0 * m) * transmission(0.02, 30.0 * m));
  EXPECT_EQ(transmission(0.02, Length{}), 1);
}

TEST(RoundTrip, IsTheIntegral) {
  for (const double extinction : {1e-9, 1e-4, 1.5e-3, 0.02, 0.06, 1.0, 40.0})
    for (const double from : {0.001, 0.05, 0.5, 8.0})
      for (const double ratio : {1.001, 1.5, 20.0, 1e4}) {
        const double expected = by_steps(extinction, from, from * ratio);
        EXPECT_NEAR(integral(extinction, from, from * ratio), expected, kScatterError * expected)
            << extinction << "/m from " << from << " times " << ratio;
      }
}

// The two forms of the exponential integral meet at 2 sigma r = 1: a short stretch across it shows what they differ.
TEST(RoundTrip, HoldsWhereItsTwoFormsMeet) {
  for (const double from : {0.4995, 0.4999, 0.49999}) {
    const double expected = by_steps(1, from, from * 1.001);
    EXPECT_NEAR(integral(1, from, from * 1.001), expected, kScatterError * expected) << from;
  }
}

TEST(RoundTrip, WithoutExtinctionIsTheInverseSquares) {
  EXPECT_DOUBLE_EQ(integral(0, 0.5, 2), 1.5);
  EXPECT_NEAR(integral(1e-14, 0.5, 2), 1.5, 1e-9);
}

TEST(RoundTrip, IsNothingBeforeTheOverlapAndBeyondAllLight) {
  EXPECT_EQ(integral(0.02, 3, 3), 0);
  EXPECT_EQ(integral(0.02, 3, 2), 0);
  EXPECT_EQ(integral(0.02, 0, 2), 0) << "a lamp in the lens has no integral";
  EXPECT_EQ(integral(1000, 10, 20), 0);
}

TEST(RoundTrip, StretchesAddUp) {
  EXPECT_NEAR(integral(0.03, 0.2, 4) + integral(0.03, 4, 90), integral(0.03, 0.2, 90), 1e-6);
}

TEST(Backscatter, GrowsWithDistanceTowardsItsWhole) {
  const double sigma = extinction(visibility_of(AirName::kFog), Band::kNear850);
  const auto upto = [&](double metres) { return backscatter(sigma, 18, 0.1 * m, metres * m); };
  EXPECT_LT(upto(1), upto(10));
  EXPECT_LT(upto(10), upto(1000));
  EXPECT_NEAR(upto(1000), upto(1e5), 1e-12);
  EXPECT_LT(upto(1e5), sigma / 18 / 0.1) << "what there would be if nothing were lost on the way";
}

TEST(Backscatter, IsLessTheLaterBeamAndViewOverlap) {
  EXPECT_LT(backscatter(0.02, 18, 0.5 * m, 30.0 * m), backscatter(0.02, 18, 0.1 * m, 30.0 * m));
  EXPECT_DOUBLE_EQ(backscatter(0.02, 36, 0.1 * m, 30.0 * m), backscatter(0.02, 18, 0.1 * m, 30.0 * m) / 2);
}

// Two cones with slopes 1 and 1 meet halfway across the offset, as far away as half of it.
TEST(Overlap, BeginsWhereTheConesMeet) {
  EXPECT_NEAR(overlap_begins(0.04 * m, 45.0 * deg, 45.0 * deg).in(m), 0.02, 1e-12);
  EXPECT_NEAR(overlap_begins(0.04 * m, 45.0 * deg, Angle{}).in(m), 0.04, 1e-12);
  EXPECT_GT(overlap_begins(0.04 * m, 5.0 * deg, 5.0 * deg), overlap_begins(0.04 * m, 20.0 * deg, 20.0 * deg));
}

TEST(Overlap, OfAnyAnglesIsAtLeastAMillimetre) {
  for (const Angle half : {80.0 * deg, 90.0 * deg, 100.0 * deg, 180.0 * deg}) {
    EXPECT_NEAR(overlap_begins(0.04 * m, half, half).in(m), 0.04 / (2 * std::tan(1.4)), 2e-4) << half.in(deg);
    EXPECT_EQ(overlap_begins(Length{}, half, half), 1.0 * mm);
  }
}

TEST(Overlap, OfTwoRaysSideBySideNeverBegins) {
  EXPECT_EQ(backscatter(0.02, 18, overlap_begins(0.04 * m, Angle{}, Angle{}), 1.0 * km), 0);
}

}  // namespace
}  // namespace sightfall::light
