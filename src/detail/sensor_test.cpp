// SPDX-License-Identifier: GPL-3.0-or-later
// The sensor's noise: shot noise alone at high signals, read noise alone at none, the output's step beside them.
#include "detail/sensor.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::detail {
namespace {

TEST(SignalVariance, AddsWhatIsIndependent) {
  EXPECT_DOUBLE_EQ(signal_variance(100, {}), 100);
  EXPECT_DOUBLE_EQ(signal_variance(0, {.read = 3}), 9);
  EXPECT_DOUBLE_EQ(signal_variance(100, {.read = 3, .dark = 5, .step = 6}), 100 + 9 + 5 + 3);
}

TEST(SignalToNoise, ApproachesTheRootOfTheSignal) {
  EXPECT_NEAR(signal_to_noise(1e8, {.read = 3}), 1e4, 1e-3);
  EXPECT_EQ(signal_to_noise(0, {}), 0);
}

TEST(OutputStep, IsTheToneCurvesSlope) {
  // output = 255 sqrt(mean / full): half a step up and down spans the electrons of one step.
  constexpr double kFull = 8000;
  for (const double mean : {200.0, 1000.0, 4000.0, 7900.0}) {
    const double output = 255 * std::sqrt(mean / kFull);
    const double step = kFull * (std::pow((output + 0.5) / 255, 2) - std::pow((output - 0.5) / 255, 2));
    EXPECT_NEAR(output_step(mean, kFull), step, 1e-9 * step) << mean;
  }
  EXPECT_NEAR(output_step(0, kFull), kFull / 255 / 255, 1e-12) << "the first step of all";
  EXPECT_EQ(output_step(10, 0), 0);
}

TEST(ImageShare, FallsWithTheSquareOfTheFNumber) {
  EXPECT_DOUBLE_EQ(image_share(2), 1.0 / 16);
  EXPECT_DOUBLE_EQ(image_share(1.4) / image_share(2.8), 4);
}

TEST(Decibels, AreTwentyTimesTheLogarithm) {
  EXPECT_DOUBLE_EQ(decibels(10), 20);
  EXPECT_DOUBLE_EQ(ratio_of_decibels(36), std::pow(10, 1.8));
}

TEST(RollingLean, IsThePathWhileTheRowsAreRead) {
  // 10 m/s at 100 px/m while 2000 rows are read in 20 ms: 20 columns over 2000 rows.
  EXPECT_NEAR(rolling_lean(1000, 0.02, 2000), 0.01, 1e-15);
  EXPECT_EQ(rolling_lean(0, 0.02, 2000), 0);
}

}  // namespace
}  // namespace sightfall::detail
