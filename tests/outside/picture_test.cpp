// SPDX-License-Identifier: GPL-3.0-or-later
// The picture against what it should be, measured on it: bars of rising frequency through every cause of loss against
// the kernel's own resolved frequency, a grey card's mean and variance, a slanted edge against its closed form.
//   Source   EMVA 1288 release 4 linear: variance = mean + read^2 + dark (in electrons); ISO 12233's slanted edge;
//            docs/models.md sections 5 and 6
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>
#include <vector>

#include "detail/sensor.h"
#include "detail/transfer.h"
#include "picture_measure.h"
#include "picture_setting.h"
#include "walk/blur.h"
#include "walk/pattern.h"

namespace sightfall::walk {
namespace {

using detail::Input;

constexpr double kAgree = 0.10;  // of the kernel's frequency

/// The lowest frequency at which the bars on the picture fail either test.
double resolved_on_picture(const Setting& setting) {
  const double least = setting.values[static_cast<size_t>(Input::kThreshold)];
  const double rose = setting.values[static_cast<size_t>(Input::kNoiseThreshold)];
  constexpr double kStep = 1.03;
  for (double frequency = 0.02; frequency < 0.5; frequency *= kStep) {
    const MeasuredBars m = measured_bars(setting, frequency);
    if (m.contrast() < least || m.ratio(frequency) < rose) return frequency / std::sqrt(kStep);
  }
  return 0.5;
}

struct Cause {
  const char* name;
  std::function<void(Setting&)> apply;
};

class ResolvedFrequency : public testing::TestWithParam<Cause> {};

TEST_P(ResolvedFrequency, OnThePictureIsTheKernels) {
  Setting setting;
  GetParam().apply(setting);
  setting.finish();
  const double kernel = resolved_by_kernel(setting), picture = resolved_on_picture(setting);
  RecordProperty("kernel", std::to_string(kernel));
  RecordProperty("picture", std::to_string(picture));
  ASSERT_GT(kernel, 0.03);
  ASSERT_LT(kernel, 0.45) << "a cause that takes something";
  EXPECT_NEAR(picture / kernel, 1, kAgree) << kernel << " by the kernel, " << picture << " on the picture";
}

INSTANTIATE_TEST_SUITE_P(EveryCause, ResolvedFrequency,
                         testing::Values(Cause{"lens", [](Setting& s) { s.set(Input::kLensBlur, 1.5); }},
                                         Cause{"diffraction", [](Setting& s) { s.set(Input::kFNumber, 11); }},
                                         Cause{"focus", [](Setting& s) { s.seen.depth = 2.5; }},
                                         Cause{"motion",
                                               [](Setting& s) {
                                                 s.seen.motion_density = 150;
                                                 s.set(Input::kSpeed, 1.6);
                                               }},

                                         Cause{"low_contrast", [](Setting& s) { s.set(Input::kContrast, 0.35); }},
                                         Cause{"glare", [](Setting& s) { s.set(Input::kGlare, 1); }},
                                         Cause{"air", [](Setting& s) { s.path = 1.2e5; }},
                                         Cause{"noise", [](Setting& s) { s.seen.others = 2500; }},
                                         Cause{"noise_and_lens",
                                               [](Setting& s) {
                                                 s.seen.others = 3500;
                                                 s.set(Input::kLensBlur, 1.4);
                                               }},
                                         Cause{"clipping", [](Setting& s) { s.seen.others = 1.15e6; }},
                                         Cause{"clipping_and_motion",
                                               [](Setting& s) {
                                                 s.seen.others = 9e5;
                                                 s.seen.motion_density = 150;
                                                 s.set(Input::kSpeed, 1.4);
                                               }},
                                         Cause{"focus_and_air",
                                               [](Setting& s) {
                                                 s.seen.depth = 4;
                                                 s.path = 5e4;
                                               }}),
                         [](const auto& info) { return std::string{info.param.name}; });

TEST(GreyCard, MeanAndVarianceAreTheLinearModels) {
  for (const double rate : {300.0, 3000.0, 30000.0, 300000.0}) {
    Setting setting;
    setting.seen.others = rate;
    setting.station.constants.dark = 200;
    setting.finish();
    const Exposure exposure =
        expose_picture(even(rate), filled(setting, [](double, double) { return 0.0; }), setting.shot());
    double sum = 0, squares = 0;
    size_t count = 0;
    for (uint64_t frame = 0; frame < 40; ++frame) {
      Shot shot = setting.shot();
      shot.frame = frame;
      for (const float e : electrons(exposure, shot).at) {
        sum += static_cast<double>(e);
        squares += static_cast<double>(e) * static_cast<double>(e);
        ++count;
      }
    }
    const double n = static_cast<double>(count), mean = sum / n, variance = squares / n - mean * mean;
    const double expected = rate * 0.01;
    constexpr double kClampedBelow = 20;  // electrons: fainter, noise that would fall below zero is cut
    if (expected < kClampedBelow) {
      EXPECT_GT(mean, expected);
      continue;
    }
    EXPECT_NEAR(mean, expected, 5 * std::sqrt(variance / n)) << rate;
    EXPECT_NEAR(variance / detail::signal_variance(expected, {2, 200 * 0.01, 0}), 1, 0.01) << rate;
  }
}

TEST(SlantedEdge, HasTheClosedFormOfItsBlurs) {
  // An edge 5 degrees off the vertical through a Gaussian and a pixel: the profile across it, gathered from all rows at
  // their own distance to the edge, transformed, is the product of both.
  Setting setting;
  setting.set(Input::kLensBlur, 1.2);
  setting.set(Input::kContrast, 0.5);
  setting.station.constants.wavelength = 1e-12;  // no diffraction
  setting.finish();
  const double slant = std::tan(TargetPattern::kSlant.si());
  const auto off = [&](double across, double down) { return across - kColumns / 2.0 - slant * (down - kRows / 2.0); };
  const Cutout edge = filled(setting, [&](double across, double down) { return off(across, down) < 0 ? -1.0 : 1.0; });
  const Exposure exposure = expose_picture(even(setting.seen.others), edge, setting.shot());
  constexpr int kPerPixel = 8, kHalf = 24;  // bins of the profile, pixels to either side
  std::vector<double> sum(2 * kHalf * kPerPixel, 0.0), count(sum.size(), 0.0);
  for (int row = 4; row < kRows - 4; ++row)
    for (int column = 0; column < kColumns; ++column) {
      const double distance = off(column + 0.5, row + 0.5) + kHalf;
      const auto bin = static_cast<int>(std::floor(distance * kPerPixel));
      if (bin < 0 || bin >= static_cast<int>(sum.size())) continue;
      sum[static_cast<size_t>(bin)] += static_cast<double>(exposure.mean.at[exposure.mean.index(column, row)]);
      count[static_cast<size_t>(bin)] += 1;
    }
  std::vector<double> spread;  // the profile's derivative
  for (size_t i = 0; i + 1 < sum.size(); ++i) {
    ASSERT_GT(count[i] * count[i + 1], 0);
    spread.push_back(sum[i + 1] / count[i + 1] - sum[i] / count[i]);
  }
  const double whole = std::accumulate(spread.begin(), spread.end(), 0.0);
  for (const double frequency : {0.05, 0.1, 0.2, 0.3}) {
    double real = 0, imaginary = 0;
    for (size_t i = 0; i < spread.size(); ++i) {
      const double phase = 2 * std::numbers::pi * frequency * static_cast<double>(i) / kPerPixel;
      real += spread[i] * std::cos(phase);
      imaginary += spread[i] * std::sin(phase);
    }
    const double bins = detail::sinc_transfer(1.0 / kPerPixel, frequency);
    const double expected = detail::gaussian_transfer(1.2, frequency) * detail::sinc_transfer(1, frequency);
    EXPECT_NEAR(std::hypot(real, imaginary) / whole / (bins * bins), expected, 0.012) << frequency;
  }
}

}  // namespace
}  // namespace sightfall::walk
