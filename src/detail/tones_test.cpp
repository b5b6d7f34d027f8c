// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/tones.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sightfall::detail {
namespace {

/// The same by adding up many tones.
double summed(double mean, double swing, double full_scale) {
  constexpr int kTones = 20000;
  double weights = 0, sum = 0, squares = 0;
  for (int i = 0; i < kTones; ++i) {
    const double v = (2 * i + 1.0) / kTones - 1, weight = 1 - v * v;
    const double tone = std::min(mean + swing * v, full_scale);
    weights += weight;
    sum += weight * tone;
    squares += weight * tone * tone;
  }
  const double average = sum / weights;
  return std::sqrt(5 * (squares / weights - average * average)) / average;
}

TEST(Tones, OfAPatternThatDoesNotClipTheContrastIsTheBars) {
  EXPECT_DOUBLE_EQ(contrast_of_tones(100, 40, 140), 0.4);
  EXPECT_DOUBLE_EQ(contrast_of_tones(100, 0, 50), 0);
  EXPECT_DOUBLE_EQ(contrast_of_tones(0, 0, 50), 0);
  EXPECT_NEAR(contrast_of_tones(100, 40, 139.999), 0.4, 1e-4) << "no step where clipping begins";
}

TEST(Tones, WhatIsLeftIsTheSumOverAllTones) {
  for (const double swing : {20.0, 50.0, 75.0, 100.0})
    for (const double full_scale : {35.0, 60.0, 90.0, 100.0, 130.0, 180.0}) {
      const double expected = full_scale > 100 - swing ? summed(100, swing, full_scale) : 0;
      EXPECT_NEAR(contrast_of_tones(100, swing, full_scale), expected, 1e-3) << swing << ' ' << full_scale;
    }
}

TEST(Tones, OfBurntOutTonesNothingIsLeft) {
  EXPECT_EQ(contrast_of_tones(100, 40, 60), 0);
  EXPECT_EQ(contrast_of_tones(100, 40, 0), 0);
}

TEST(Tones, MoreLightNeverLeavesMore) {
  for (const double contrast : {0.2, 0.5, 0.8, 1.0}) {
    double before = contrast;
    for (int step = 0; step < 110; ++step) {
      const double mean = 10 * std::pow(1.05, step);
      const double now = contrast_of_tones(mean, contrast * mean, 100);
      EXPECT_LE(now, before + 1e-12) << contrast << ' ' << mean;
      before = now;
    }
  }
}

TEST(Tones, MoreContrastNeverLeavesLess) {
  for (const double full_scale : {30.0, 70.0, 95.0, 100.0, 105.0, 150.0, 190.0}) {
    double before = 0;
    for (int step = 0; step <= 200; ++step) {
      const double swing = step / 2.0;
      const double now = contrast_of_tones(100, swing, full_scale);
      EXPECT_GE(now, before - 1e-12) << full_scale << ' ' << swing;
      before = now;
    }
  }
}

}  // namespace
}  // namespace sightfall::detail
