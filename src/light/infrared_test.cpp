// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/infrared.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace sightfall::light {
namespace {

using namespace units;
using std::numbers::pi;

TEST(Infrared, HalfOfTheAxisAtHalfOfTheBeam) {
  for (const double width : {0.5, 6.0, 30.0, 60.0, 90.0, 120.0, 179.0}) {
    const double n = beam_exponent(width * deg);
    EXPECT_NEAR(relative_intensity(n, std::cos((width / 2 * deg).si())), 0.5, 1e-9) << width;
    EXPECT_DOUBLE_EQ(relative_intensity(n, 1), 1);
  }
  EXPECT_NEAR(beam_exponent(120.0 * deg), 1, 1e-12) << "a matt surface has half at 60 degrees";
}

TEST(Infrared, ANarrowBeamIsAGaussian) {
  const double half = 1e-3;
  EXPECT_NEAR(beam_exponent(Angle{2 * half}) * half * half / 2, std::numbers::ln2, 1e-6);
  EXPECT_TRUE(std::isfinite(beam_exponent(Angle{1e-300})));
}

TEST(Infrared, GivesNothingBehind) {
  EXPECT_EQ(relative_intensity(0, 0), 0);
  EXPECT_EQ(relative_intensity(3, -0.5), 0);
  EXPECT_EQ(relative_intensity(3, 1 + 1e-12), 1) << "a cosine of rounded vectors";
}

TEST(Infrared, OnAxisAndRadiatedAreInverse) {
  for (const double n : {0.0, 1.0, 4.8, 250.0}) EXPECT_NEAR(radiated(on_axis(2.5 * W, n), n).in(W), 2.5, 1e-12) << n;
}

TEST(Infrared, RadiatedIsTheIntensitySummedOverAllDirections) {
  const double n = beam_exponent(40.0 * deg);
  constexpr int kRings = 4000;
  double power = 0;
  for (int i = 0; i < kRings; ++i) {
    const double theta = (i + 0.5) * pi / 2 / kRings;
    power += 3 * relative_intensity(n, std::cos(theta)) * 2 * pi * std::sin(theta) * (pi / 2 / kRings);
  }
  EXPECT_NEAR(radiated(RadiantIntensity{3}, n).in(W), power, 1e-6);
}

TEST(Infrared, EyeLimitFallsWithTimeAndStopsAtAThousandSeconds) {
  EXPECT_GT(eye_limit(1.0 * s), eye_limit(10.0 * s));
  EXPECT_GT(eye_limit(1000.0 * s), eye_limit(1001.0 * s));
  EXPECT_EQ(eye_limit(1001.0 * s), eye_limit(1e6 * s));
  EXPECT_NEAR(eye_limit(16.0 * s).si(), eye_limit(1.0 * s).si() / 8, 1e-9);
}

TEST(Infrared, AtTheEyeDistanceTheLimitIsReached) {
  for (const double seconds : {0.25, 10.0, 1e5}) {
    const double d = eye_distance(RadiantIntensity{20}, seconds * s).in(m);
    EXPECT_NEAR(20 / (d * d), eye_limit(seconds * s).si(), 1e-9 * eye_limit(seconds * s).si()) << seconds;
  }
  EXPECT_EQ(eye_distance(RadiantIntensity{0}, 1.0 * s).in(m), 0);
}

TEST(Infrared, TheShorterWaveGlows) {
  EXPECT_TRUE(glows(850.0 * nm));
  EXPECT_FALSE(glows(940.0 * nm));
}

TEST(InfraredDeathTest, DomainsAreKept) {
  EXPECT_DEATH(beam_exponent(Angle{0}), "broken promise");
  EXPECT_DEATH(beam_exponent(180.0 * deg), "broken promise");
  EXPECT_DEATH(eye_limit(0.0 * s), "broken promise");
  EXPECT_DEATH(eye_distance(RadiantIntensity{-1}, 1.0 * s), "broken promise");
}

}  // namespace
}  // namespace sightfall::light
