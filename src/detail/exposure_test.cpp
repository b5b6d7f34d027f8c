// SPDX-License-Identifier: GPL-3.0-or-later
// Exposure: the metered mean comes to its target, limits hold, adaptive infrared has its fixed point.
#include "detail/exposure.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace sightfall::detail {
namespace {

constexpr double kWell = 10000;  // electrons

/// Mean of min(level, 1) of a frame and a subject that covers part of it, one by one.
double mean_level(const std::vector<MeterPixel>& frame, double scale, double subject, double cover, double drive) {
  double sum = 0;
  for (const MeterPixel& pixel : frame) sum += std::min((pixel.others + pixel.own) * scale * drive, 1.0);
  return (1 - cover) * sum / static_cast<double>(frame.size()) + cover * std::min(subject * drive, 1.0);
}

TEST(Metering, DriveBringsTheMeanToItsTarget) {
  constexpr unsigned kSeed = 31;
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> share{0, 1};
  int never = 0, found = 0;
  for (int i = 0; i < 1000; ++i) {
    std::vector<MeterPixel> frame(64);
    for (MeterPixel& pixel : frame) pixel.others = share(random) < 0.3 ? 0 : std::pow(10, 5 * share(random));
    const Metering metering{frame};
    const double subject = share(random) < 0.2 ? 0 : std::pow(10, 5 * share(random)), cover = 0.9 * share(random);
    const double target = 0.05 + 0.5 * share(random), scale = 0.5 + share(random);
    const double drive = metering.drive_for(target, scale, subject, cover);
    if (std::isinf(drive)) {
      EXPECT_LT(mean_level(frame, scale, subject, cover, 1e12), target) << "seed " << kSeed << " case " << i;
      ++never;
    } else {
      EXPECT_NEAR(mean_level(frame, scale, subject, cover, drive), target, 1e-9) << "seed " << kSeed << " case " << i;
      ++found;
    }
  }
  EXPECT_GT(found, 500);
  EXPECT_GT(never, 10);
}

TEST(Metering, GroupsOfALargeFrameKeepItsMean) {
  std::vector<MeterPixel> frame;
  for (int i = 0; i < 336; ++i) frame.push_back({static_cast<double>(i), 0.5 * i, i % 3 == 0 ? 2.0 : 1.0});
  double sum = 0, weights = 0;
  for (const MeterPixel& p : frame) {
    sum += 1.5 * p.others * p.weight;
    weights += p.weight;
  }
  const Metering metering{frame};
  EXPECT_NEAR(metering.mean(), sum / weights, 1e-9);
  EXPECT_NEAR(metering.own_share(), 1.0 / 3, 1e-12);
  EXPECT_NEAR(metering.share_above(1.5 * 168), 0.5, 0.03);
  EXPECT_NEAR(metering.bright(0.5), 1.5 * 168, 15);
}

ExposureLimits limits() {
  ExposureLimits l;
  l.shortest = 1e-5;
  l.longest = 0.04;
  l.largest_gain = 50;
  l.target = 0.2;
  return l;
}

TEST(Expose, SpendsTheShutterBeforeTheGain) {
  const std::vector<MeterPixel> frame(8, MeterPixel{1e5, 0});
  const Exposed bright = expose(Metering{frame}, limits(), {}, kWell, 1, 1);
  EXPECT_NEAR(bright.time, 0.02, 1e-12) << "a fifth of 10 000 electrons at 100 000 a second";
  EXPECT_EQ(bright.gain, 1);
  const Exposed dim = expose(Metering{frame}, limits(), {}, kWell, 0.1, 1);
  EXPECT_NEAR(dim.time, 0.04, 1e-12);
  EXPECT_NEAR(dim.gain, 5, 1e-9);
  ExposureLimits gain_first = limits();
  gain_first.order = camera::ExposureOrder::kGainFirst;
  const Exposed other = expose(Metering{frame}, gain_first, {}, kWell, 0.1, 1);
  EXPECT_NEAR(other.gain, 50, 1e-9);
  EXPECT_NEAR(other.time, 0.004, 1e-12);
}

TEST(Expose, KeepsWithinItsLimits) {
  const std::vector<MeterPixel> black(8, MeterPixel{0, 0}), glaring(8, MeterPixel{1e12, 0});
  const Exposed dark = expose(Metering{black}, limits(), {}, kWell, 1, 1);
  EXPECT_EQ(dark.time, 0.04);
  EXPECT_NEAR(dark.gain, 50, 1e-9);
  const Exposed light = expose(Metering{glaring}, limits(), {}, kWell, 1, 1);
  EXPECT_EQ(light.time, 1e-5);
  EXPECT_EQ(light.gain, 1);
  ExposureLimits fixed = limits();
  fixed.shortest = fixed.longest = 0.002;
  EXPECT_EQ(expose(Metering{black}, fixed, {}, kWell, 1, 1).time, 0.002);
  EXPECT_EQ(expose(Metering{glaring}, fixed, {}, kWell, 1, 1).time, 0.002);
}

TEST(Expose, AnAutomaticIrisClosesBeforeTheShutterShortens) {
  const std::vector<MeterPixel> frame(8, MeterPixel{1e5, 0});
  ExposureLimits iris = limits();
  iris.iris_range = 16;
  const auto at = [&](double scale) { return expose(Metering{frame}, iris, {}, kWell, scale, 1); };
  const Exposed half = at(1);  // 0.02 s would do with the iris open
  EXPECT_NEAR(half.iris, 0.5, 1e-9);
  EXPECT_EQ(half.time, 0.04);
  const Exposed bright = at(32);
  EXPECT_NEAR(bright.iris, 1.0 / 16, 1e-12);
  EXPECT_NEAR(bright.time, 0.02 * 16 / 32, 1e-12);
  const Exposed dim = at(0.1);
  EXPECT_EQ(dim.iris, 1);
  EXPECT_NEAR(dim.gain, 5, 1e-9);
  EXPECT_EQ(at(1e9).time, iris.shortest);
  iris.order = camera::ExposureOrder::kGainFirst;
  EXPECT_EQ(at(1).iris, 1) << "gain is taken back first";
  EXPECT_NEAR(at(1e5).gain, 1, 1e-12);
  EXPECT_LT(at(1e5).iris, 1);
}

TEST(Expose, AdaptiveInfraredComesToOneFixedPoint) {
  const std::vector<MeterPixel> frame(16, MeterPixel{0, 10});
  ExposureLimits adaptive = limits();
  adaptive.adaptive = true;
  const MeterSubject face{0, 20000, 0.5, 0.05};
  const Exposed e = expose(Metering{frame}, adaptive, face, kWell, 1, 1);
  // At 1/25 s and gain 50 full scale is 200 electrons, 5 000 a second: 1.5 * 20 000 * power.
  EXPECT_NEAR(e.power, 5000.0 / 30000, 1e-9);
  EXPECT_NEAR(e.time * e.gain, 2, 1e-9) << "the frame is dark, so shutter and gain stay where they were";
  const Exposed small = expose(Metering{frame}, adaptive, {0, 20000, 0.5, 0.01}, kWell, 1, 1);
  EXPECT_EQ(small.power, 1) << "less of the frame than may clip";
  const Exposed far = expose(Metering{frame}, adaptive, {0, 100, 0.5, 0.05}, kWell, 1, 1);
  EXPECT_EQ(far.power, 1);
}

TEST(Expose, AUniformSceneIsWhatIsLookedAt) {
  const Exposed e = expose(Metering{}, limits(), {1e5, 0, 0.5, 0}, kWell, 1, 1);
  EXPECT_NEAR(e.time, 0.02, 1e-12);
}

}  // namespace
}  // namespace sightfall::detail
