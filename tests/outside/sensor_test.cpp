// SPDX-License-Identifier: GPL-3.0-or-later
// A sensor's characterisation as published: the sample result of the reference project of EMVA 1288
// (doc/datasets/datasets_results.rst), from its inputs K, R, dark deviation and saturation.
#include "detail/sensor.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::detail {
namespace {

constexpr double kGain = 0.280769280926;          // K, DN/e
constexpr double kResponsivity = 0.126726922819;  // R, DN/p
constexpr double kDarkDeviation = 3.07341849276;  // DN
constexpr double kSaturation = 30957;             // p
constexpr double kDigits = 1e-9;                  // relative: the sample prints twelve digits

Characterised sample() { return characterise(kGain, kResponsivity, kDarkDeviation, kSaturation); }

void expect_digits(double value, double published) { EXPECT_NEAR(value / published, 1, kDigits); }

TEST(Sensor, CharacterisationOfThePublishedSample) {
  const Characterised camera = sample();
  expect_digits(camera.efficiency * 100, 45.1356082834);
  expect_digits(camera.read_noise, 10.8980275235);
  expect_digits(camera.least_photons, 25.3600660517);
  expect_digits(camera.full_well, 13972.6302563);
  expect_digits(camera.largest_ratio, 118.205880802);
  expect_digits(std::log2(camera.largest_ratio), 6.88515800189);
  expect_digits(100 / camera.largest_ratio, 0.845981598556);
  expect_digits(camera.dynamic_range, 1220.69871336);
}

// The sample prints 95.4486 and 142.1436 "dB", which are 20 ln: the standard's 20 log10 of the same ratios is this, as
// the project's present code has it.
TEST(Sensor, DecibelsAreOfTheLogarithmToTen) {
  EXPECT_NEAR(decibels(sample().largest_ratio), 41.45278, 1e-5);
  EXPECT_NEAR(decibels(sample().dynamic_range), 61.73217, 1e-5);
  EXPECT_NEAR(ratio_of_decibels(41.45278), 118.2059, 2e-4);
}

// Signal to noise of the linear model, from memory: at the published threshold it is 0.999, and exactly 1 at 25.38535
// photons, since the published form leaves out a little.
TEST(Sensor, SignalIsAsLargeAsNoiseAtTheThreshold) {
  const Characterised camera = sample();
  const SensorNoise noise{.read = camera.read_noise, .step = 1 / kGain};
  EXPECT_NEAR(signal_to_noise(camera.efficiency * camera.least_photons, noise), 0.99905, 5e-6);
  EXPECT_NEAR(signal_to_noise(camera.efficiency * 25.38535, noise), 1, 1e-6);
}

// The largest ratio of the standard counts the light's own noise alone; all noise takes 0.4 % of it here.
TEST(Sensor, TheLargestRatioIsThatOfLightAlone) {
  const Characterised camera = sample();
  expect_digits(signal_to_noise(camera.full_well, {}), 118.205880802);
  const double with_noise = signal_to_noise(camera.full_well, {.read = camera.read_noise, .step = 1 / kGain});
  EXPECT_LT(with_noise, camera.largest_ratio);
  EXPECT_GT(with_noise, 0.995 * camera.largest_ratio);
}

// A uniform step of 1 has variance 1/12 (the same project, s2q): deviation 0.288675.
TEST(Sensor, NoiseOfAStep) { EXPECT_NEAR(std::sqrt(signal_variance(0, {.step = 1})), 0.288675, 5e-7); }

}  // namespace
}  // namespace sightfall::detail
