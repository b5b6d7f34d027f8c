// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/ramp.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sightfall::draw {
namespace {

/// Source: IEC 61966-2-1 (sRGB).
double linear(double part) { return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4); }

double luminance(Colour c) { return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue); }

/// CIE 1976 lightness, 0 to 100.
double lightness(Colour c) {
  const double y = luminance(c);
  return y > 216.0 / 24389 ? 116 * std::cbrt(y) - 16 : y * 24389.0 / 27;
}

/// As an eye without the green-sensitive cones sees it.
/// Source: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A Physiologically-based Model for Simulation of Color
/// Vision Deficiency, IEEE TVCG 15(6), 2009, deuteranomaly of severity 1.0 (from memory).
Colour without_green_cones(Colour c) {
  const double r = linear(c.red), g = linear(c.green), b = linear(c.blue);
  const auto coded = [](double v) {
    v = std::clamp(v, 0.0, 1.0);
    return v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
  };
  return {coded(0.367322 * r + 0.860646 * g - 0.227968 * b), coded(0.280085 * r + 0.672501 * g + 0.047413 * b),
          coded(-0.011820 * r + 0.042940 * g + 0.968881 * b)};
}

TEST(Ramp, IsALogScaleBetweenItsEnds) {
  EXPECT_DOUBLE_EQ(ramp_share(PixelDensity{10}), 0);
  EXPECT_NEAR(ramp_share(PixelDensity{100}), 0.5, 1e-12);
  EXPECT_DOUBLE_EQ(ramp_share(PixelDensity{1000}), 1);
  EXPECT_DOUBLE_EQ(ramp_share(PixelDensity{1}), 0);
  EXPECT_DOUBLE_EQ(ramp_share(PixelDensity{5000}), 1);
}

TEST(Ramp, LightnessFallsEvenlyForEveryEye) {
  constexpr int kSteps = 20;
  const auto seen_as = [](bool full, double share) {
    return lightness(full ? ramp_tone(share) : without_green_cones(ramp_tone(share)));
  };
  for (const bool full : {true, false}) {
    const double mean = (seen_as(full, 0) - seen_as(full, 1)) / kSteps;
    EXPECT_GT(mean, 1);
    for (int i = 0; i < kSteps; ++i) {
      const double fall = seen_as(full, double(i) / kSteps) - seen_as(full, double(i + 1) / kSteps);
      EXPECT_GT(fall, 0.5 * mean) << i;
      EXPECT_LT(fall, 1.6 * mean) << i;
    }
  }
}

TEST(Ramp, InkStaysLegibleOnEveryTone) {
  // Contrast of luminances as in the Web Content Accessibility Guidelines 2.1: 4.5 for words.
  const auto contrast = [](Colour dark, Colour light) { return (luminance(light) + 0.05) / (luminance(dark) + 0.05); };
  for (int i = 0; i <= 20; ++i) EXPECT_GE(contrast(kInk, ramp_tone(i / 20.0)), 4.5) << i;
}

TEST(Ramp, HasTheTablesEndsMixedWithPaper) {
  EXPECT_NEAR(ramp_tone(1).blue, 0.48 * 0.304751 + 0.52 * kPaper.blue, 1e-9);
  EXPECT_NEAR(ramp_tone(0).red, 0.30 * 0.995737 + 0.70 * kPaper.red, 1e-9);
}

}  // namespace
}  // namespace sightfall::draw
