// SPDX-License-Identifier: GPL-3.0-or-later
// How near infrared lamps are safe for the cornea and the lens of an eye.
//   Source   IEC 62471 / ICNIRP 2013 as pages that report them work it out; beside each
#include <gtest/gtest.h>

#include "light/infrared.h"

namespace sightfall::light {
namespace {

using namespace units;

double limit(double seconds) { return eye_limit(seconds * s).si(); }

// 18 000 t^-0.75 W/m2 up to 1000 s: worked for 7 s on a page that quotes IEC 62471; the others by the same formula.
TEST(EyeSafety, LimitOfTheCorneaUpToAThousandSeconds) {
  EXPECT_NEAR(limit(7), 4182.63, 0.01);
  EXPECT_NEAR(limit(1), 18'000, 0.5);
  EXPECT_NEAR(limit(10), 3200.9, 0.05);
  EXPECT_NEAR(limit(100), 569.2, 0.05);
  EXPECT_NEAR(limit(1000), 101.2, 0.05);
}

// From memory: 100 W/m2 beyond 1000 s, which the formula meets there within 2 %.
TEST(EyeSafety, LimitOfLongExposure) { EXPECT_EQ(limit(8 * 3600), 100); }

// The same page: 40 diodes of 0.011 W/sr, 0.12 m away, give 30.55 W/m2.
TEST(EyeSafety, FortyDiodesAtTwelveCentimetres) {
  const RadiantIntensity diodes{40 * 0.011};
  EXPECT_NEAR(diodes.si() / (0.12 * 0.12), 30.55, 0.01);
  EXPECT_LT(eye_distance(diodes, 1e5 * s), 0.12 * m) << "less than the limit of any time";
}

// From memory, IEC 62471: exempt, risk groups 1 and 2 by 1000, 100 and 10 s, with 100, 570 and 3200 W/m2.
TEST(EyeSafety, TimesOfTheRiskGroups) {
  EXPECT_NEAR(limit(1000), 100, 2);
  EXPECT_NEAR(limit(100), 570, 1);
  EXPECT_NEAR(limit(10), 3200, 2);
}

// From memory, inverse square to 100, 570 and 3200 W/m2.
TEST(EyeSafety, DistancesOfTwoLamps) {
  const auto distance = [](double intensity, double seconds) {
    return eye_distance(RadiantIntensity{intensity}, seconds * s).in(m);
  };
  EXPECT_NEAR(distance(10, 1e5), 0.316, 0.0005);
  EXPECT_NEAR(distance(10, 100), 0.132, 0.001);
  EXPECT_NEAR(distance(10, 10), 0.056, 0.0005);
  EXPECT_NEAR(distance(50, 1e5), 0.707, 0.0005);
  EXPECT_NEAR(distance(50, 100), 0.296, 0.001);
  EXPECT_NEAR(distance(50, 10), 0.125, 0.0005);
}

}  // namespace
}  // namespace sightfall::light
