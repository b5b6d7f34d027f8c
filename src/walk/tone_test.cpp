// SPDX-License-Identifier: GPL-3.0-or-later
// The tone curve: the verdict's own where there is one exposure; where there are two, smooth, rising, with its middle
// tones where they were and its end at the short exposure's full scale.
#include "walk/tone.h"

#include <gtest/gtest.h>

#include "detail/sensor.h"

namespace sightfall::walk {
namespace {

TEST(ToneCurve, OfOneExposureIsTheVerdicts) {
  const ToneCurve curve{1};
  for (const float light : {0.0F, 0.001F, 0.02F, 0.18F, 0.5F, 0.99F, 1.0F})
    EXPECT_NEAR(curve.level(light), detail::grey_level(static_cast<double>(light), 1), 0.501) << light;
  EXPECT_EQ(curve.level(-0.1F), 0);
  EXPECT_EQ(curve.level(1.7F), 255);
}

TEST(ToneCurve, OfTwoEndsAtTheShortOnesFullScale) {
  for (const double ratio : {2.0, 8.0, 16.0, 32.0}) {
    const ToneCurve curve{ratio};
    EXPECT_EQ(curve.level(static_cast<float>(ratio)), 255) << ratio;
    EXPECT_EQ(curve.level(static_cast<float>(2 * ratio)), 255) << ratio;
    EXPECT_LT(curve.level(static_cast<float>(0.9 * ratio)), 255) << ratio;
    EXPECT_LT(curve.level(1), 240) << "what clipped before has tones above it";
    EXPECT_NEAR(curve.level(0.02F), ToneCurve{1}.level(0.02F), 1) << "dark tones stay";
    EXPECT_NEAR(curve.level(0.18F), ToneCurve{1}.level(0.18F), 13) << "and so do middle ones, nearly";
  }
}

TEST(ToneCurve, RisesWithoutAKink) {
  const ToneCurve curve{16};
  ASSERT_GT(curve.knee(), 0.03);
  ASSERT_LT(curve.knee(), 0.2);
  // Slopes by wide steps to either side of the knee, in levels.
  const auto at = [&](double light) { return static_cast<double>(curve.level(static_cast<float>(light))); };
  const double before = (at(curve.knee()) - at(0.6 * curve.knee())) / std::log(1 / 0.6);
  const double after = (at(curve.knee() / 0.6) - at(curve.knee())) / std::log(1 / 0.6);
  EXPECT_NEAR(after / before, 1, 0.2);
  uint8_t last = 0;
  for (double light = 0.001; light < 17; light *= 1.02) {
    EXPECT_GE(curve.level(static_cast<float>(light)), last);
    last = curve.level(static_cast<float>(light));
  }
}

}  // namespace
}  // namespace sightfall::walk
