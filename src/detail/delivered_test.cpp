// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail: the frequency found solves what it should, bounds, ranges, and the limit for each cause.
#include "detail/delivered.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "detail/test_plain.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

/// Contrast left at a frequency, put together here from the transfer functions, which have tests of their own.
double contrast_left(const Blur& b, double contrast, double x) {
  return contrast * sinc_transfer(1, x) * gaussian_transfer(b.lens, x) * diffraction_transfer(b.diffraction, x) *
         disc_transfer(b.defocus, x) * sinc_transfer(b.motion, x) * sinc_transfer(b.shake, x);
}

RangedInputs exact_inputs() {
  RangedInputs inputs;
  const auto values = plain_values();
  for (size_t i = 0; i < kInputCount; ++i) inputs[i] = Ranged<double>::exact(values[i]);
  return inputs;
}

Ranged<double>& at(RangedInputs& inputs, Input input) { return inputs[static_cast<size_t>(input)]; }

constexpr double kSolved = 1e-7;  // a frequency that is looked for from elsewhere is found a little beside it

/// Numbers of a test, each nothing at times.
struct Some {
  std::mt19937 random;
  std::uniform_real_distribution<double> unit{0, 1};

  double share() { return unit(random); }
  double operator()(double most) { return share() < 0.4 ? 0.0 : most * share(); }
  Blur blur() {
    auto& some = *this;
    return {some(3), some(4), some(12), some(12), some(6)};
  }
};

TEST(ResolvedFrequency, SolvesContrastTimesTransferEqualsThreshold) {
  constexpr unsigned kSeed = 21;
  Some some{std::mt19937{kSeed}};
  int within = 0, at_nyquist = 0;
  for (int i = 0; i < 3000; ++i) {
    const Blur blur = some.blur();
    const double threshold = 0.05 + 0.3 * some.share(), contrast = threshold + (1 - threshold) * some.share();
    const double x = resolved_frequency(blur, contrast, threshold);
    ASSERT_GT(x, 0) << "seed " << kSeed << " case " << i;
    ASSERT_LE(x, 0.5);
    const double left = contrast_left(blur, contrast, x);
    if (x < 0.5) {
      EXPECT_NEAR(left, threshold, 1e-6) << "seed " << kSeed << " case " << i;
      ++within;
    } else {
      EXPECT_GE(left, threshold - 1e-6) << "seed " << kSeed << " case " << i;
      ++at_nyquist;
    }
    for (int k = 0; k < 50; ++k)  // nothing below it fails: side lobes are never taken for detail
      EXPECT_GE(contrast_left(blur, contrast, x * k / 50), threshold - 1e-6) << "seed " << kSeed << " case " << i;
  }
  EXPECT_GT(within, 1000);
  EXPECT_GT(at_nyquist, 30);
}

TEST(ResolvedFrequency, AGuessDoesNotMoveIt) {
  constexpr unsigned kSeed = 22;
  Some some{std::mt19937{kSeed}};
  int within = 0, nothing = 0;
  for (int i = 0; i < 3000; ++i) {
    Pattern pattern;
    pattern.blur = some.blur();
    pattern.signal.subject = 50;
    pattern.signal.full_scale = 200;
    pattern.signal.deviation = 5 + some(60);
    pattern.contrast = some.share();
    pattern.threshold = 0.05 + 0.3 * some.share();
    pattern.noise_threshold = some(6);
    const double alone = pattern.resolved(kNyquist).at;
    for (const double at : {0.001, 0.05, 0.2, 0.5})
      for (const double slope : {0.0, -1.0, -30.0, -3000.0})
        EXPECT_NEAR(pattern.resolved(kNyquist, {at, slope}).at, alone, 1e-6)
            << "seed " << kSeed << " case " << i << " guess " << at << ' ' << slope;
    within += alone > 0 && alone < kNyquist ? 1 : 0;
    nothing += alone == 0 ? 1 : 0;
  }
  EXPECT_GT(within, 1000);
  EXPECT_GT(nothing, 100);
}

TEST(ResolvedFrequency, SideLobesAreNoDetail) {
  // A disc of 6 px passes nothing at 0.203 cycles and lets contrast through again beyond it.
  const Blur blur{.defocus = 6};
  ASSERT_GT(contrast_left(blur, 0.95, 0.27), 0.1);
  EXPECT_LT(resolved_frequency(blur, 0.95, 0.1), 1.2197 / 6);
}

TEST(ResolvedFrequency, IsNothingBelowTheThreshold) {
  EXPECT_EQ(resolved_frequency({}, 0.19, 0.2), 0);
  EXPECT_EQ(resolved_frequency({}, 0.0, 0.2), 0);
  EXPECT_NEAR(resolved_frequency({.lens = 1}, 0.2, 0.2), 0, 1e-3) << "just reached, at frequency 0 alone";
}

TEST(ReferenceFrequency, IsThatOfTheIdealCamera) {
  const double x = reference_frequency(0.2);
  EXPECT_NEAR(kReferenceContrast * gaussian_transfer(kReferenceBlur, x) * sinc_transfer(1, x), 0.2, 1e-6);
  EXPECT_GT(reference_frequency(0.1), x);
  EXPECT_EQ(reference_frequency(0.05), 0.5) << "never finer than the pixels";
}

TEST(Values, ThresholdCarriesItsReference) {
  const Values values{plain_values()};
  EXPECT_EQ(values.reference(), reference_frequency(0.2));
  EXPECT_EQ(values.with(Input::kThreshold, 0.1).reference(), reference_frequency(0.1));
  EXPECT_EQ(values.with(Input::kContrast, 0.5).reference(), reference_frequency(0.2));
  EXPECT_EQ(values.with(Input::kContrast, 0.5)[Input::kContrast], 0.5);
  EXPECT_EQ(values[Input::kContrast], 0.75) << "the first is left as it was";
}

TEST(Delivered, IdealCameraDeliversItsDensity) {
  const Values ideal = Values{plain_values()}
                           .with(Input::kContrast, kReferenceContrast)
                           .with(Input::kLensBlur, kReferenceBlur)
                           .with(Input::kFNumber, 1e-6)
                           .with(Input::kGlare, 0)
                           .with(Input::kSpeed, 0);
  EXPECT_NEAR(delivered(kCamera, kSeen, ideal), 150, 1e-3);
  EXPECT_NEAR(delivered(kCamera, kSeen, ideal.with(Input::kLensBlur, 0.1)), 150, 1e-3) << "never more than the density";
}

TEST(Delivered, ByPencilWithoutBlur) {
  // The density counts in proportion to the frequency that lens and contrast leave.
  const Values values{plain_values()};
  const double diffraction = 550e-9 * 1.6 / 2e-6;
  const double nu = resolved_frequency({.lens = 0.55, .diffraction = diffraction}, 0.75 / 1.02, 0.2);
  EXPECT_NEAR(delivered(kCamera, kSeen, values), 150 * nu / values.reference(), 1e-9);
}

TEST(Delivered, BlursAreWhatTheySay) {
  const Values v{plain_values()};
  const double diffraction = 550e-9 * 1.6 / 2e-6, contrast = 0.75 / 1.02;
  const auto expect = [&](const Blur& blur) { return 150 * resolved_frequency(blur, contrast, 0.2) / v.reference(); };
  // Focused at 10 m, a point at 20 m: f^2 |d - s| / (N d (s - f)) = 36e-6 * 10 / (1.6 * 20 * 9.994) m = 1.1257 um.
  const double defocus = 36e-6 * 10 / (1.6 * 20 * 9.994) / 2e-6;
  EXPECT_NEAR(delivered(kCamera, kSeen, v.with(Input::kFocus, 10)), expect({0.55, diffraction, defocus, 0, 0}), 1e-9);
  Seen moving = kSeen;
  moving.motion_density = 140;
  EXPECT_NEAR(delivered(kCamera, moving, v), expect({0.55, diffraction, 0, 140 * 1.4 * 0.005, 0}), 1e-9);
  CameraConstants swaying = kCamera;
  swaying.sway_rate = 0.1;  // rad/s: 0.1 * 0.005 s * 6 mm / 2 um = 1.5 px
  EXPECT_NEAR(delivered(swaying, kSeen, v), expect({0.55, diffraction, 0, 0, 1.5}), 1e-9);
  EXPECT_NEAR(delivered(swaying, kSeen, v.with(Input::kSway, 2)), expect({0.55, diffraction, 0, 0, 3}), 1e-9);
  EXPECT_EQ(delivered(kCamera, kSeen, v.with(Input::kSway, 2)), delivered(kCamera, kSeen, v)) << "does not sway";
}

TEST(Delivered, VeilDilutesTheContrast) {
  const Values v{plain_values()};
  Seen behind = kSeen;
  behind.passed = 0.4;
  const double diffraction = 550e-9 * 1.6 / 2e-6;
  const double contrast = 0.75 * 0.4 / (0.4 + 0.6 * 0.5 + 0.02);
  EXPECT_NEAR(delivered(kCamera, behind, v),
              150 * resolved_frequency({.lens = 0.55, .diffraction = diffraction}, contrast, 0.2) / v.reference(),
              1e-9);
  behind.passed = 0.05;
  EXPECT_EQ(delivered(kCamera, behind, v), 0) << "contrast left is under the threshold at every frequency";
  behind.passed = 0;
  EXPECT_EQ(delivered(kCamera, behind, v.with(Input::kGlare, 0).with(Input::kVeilLuminance, 0)), 0)
      << "no light at all";
}

TEST(Delivered, NarrowerTrueViewGivesMoreDensityAndFinerPixels) {
  const Values v{plain_values()};
  const double plain = delivered(kCamera, kSeen, v),
               narrower = delivered(kCamera, kSeen, v.with(Input::kDensityFactor, 1.05));
  EXPECT_GT(narrower, plain);
  EXPECT_LT(narrower, 1.05 * plain) << "diffraction takes more of the finer pixels";
}

TEST(Delivered, NarrowerTrueViewMovesASubjectOverMorePixels) {
  const Values v = Values{plain_values()}.with(Input::kDensityFactor, 1.05);
  Seen moving = kSeen;
  moving.motion_density = 140;
  const Blur blur{.lens = 0.55, .diffraction = 1.05 * 550e-9 * 1.6 / 2e-6, .motion = 1.05 * 140 * 1.4 * 0.005};
  EXPECT_NEAR(delivered(kCamera, moving, v), 1.05 * 150 * resolved_frequency(blur, 0.75 / 1.02, 0.2) / v.reference(),
              1e-9);
}

TEST(Delivered, FocusOrSubjectWithinTheFocalLengthIsBlurredNotUndefined) {
  const Values v{plain_values()};
  EXPECT_LT(delivered(kCamera, kSeen, v.with(Input::kFocus, 0.001)), 1) << "focused inside the lens";
  EXPECT_LT(delivered(kCamera, kSeen, v.with(Input::kFocus, 0.006)), 1) << "focused at the focal length";
  Seen touching = kSeen;
  touching.depth = 0;
  EXPECT_LT(delivered(kCamera, touching, v), 1) << "a subject at the lens";
}

TEST(Delivered, SpanIsTheSameOneByOne) {
  const Values v{plain_values()};
  std::vector<Seen> seen;
  for (int i = 0; i < 33; ++i)
    seen.push_back(
        {.density = i * 7.0, .depth = 1.0 + i, .motion_density = 5.0 * i, .passed = 1 - i / 40.0, .others = 1e10});
  std::vector<double> out(seen.size(), -1);
  delivered(kCamera, seen, v, out);
  EXPECT_EQ(out[0], 0) << "no density, nothing delivered";
  for (size_t i = 1; i < seen.size(); ++i) EXPECT_EQ(out[i], delivered(kCamera, seen[i], v)) << i;
}

struct Case {
  CameraConstants camera;
  Seen seen;
  Values values;
};

Case random_case(std::mt19937& random) {
  std::uniform_real_distribution<double> share{0, 1};
  const auto log_between = [&](double low, double high) { return low * std::pow(high / low, share(random)); };
  std::array<double, kInputCount> v{};
  const auto set = [&](Input input, double value) { v[static_cast<size_t>(input)] = value; };
  set(Input::kThreshold, 0.05 + 0.35 * share(random));
  set(Input::kContrast, share(random));
  set(Input::kGlare, 0.1 * share(random));
  set(Input::kVeilLuminance, 1.5 * share(random));
  set(Input::kLensBlur, 2 * share(random));
  set(Input::kFNumber, log_between(1, 16));
  set(Input::kDensityFactor, log_between(0.9, 1.1));
  set(Input::kFocus, log_between(0.001, 1e4));
  set(Input::kShutter, log_between(1e-5, 0.1));
  set(Input::kSpeed, 20 * share(random));
  for (const Input factor :
       {Input::kSensitivity, Input::kReflectance, Input::kInfrared, Input::kScatter, Input::kFlare})
    set(factor, log_between(0.5, 2));
  set(Input::kNoiseThreshold, 5 * share(random));
  set(Input::kReadNoise, 5 * share(random));
  set(Input::kFullWell, log_between(1000, 1e5));
  set(Input::kGain, log_between(1, 300));
  set(Input::kTarget, 0.1 + 0.3 * share(random));
  CameraConstants camera{log_between(1e-3, 0.1), log_between(1e-6, 1e-5),
                         share(random) < 0.5 ? 0 : 0.2 * share(random)};
  camera.f_number = share(random) < 0.5 ? 0 : log_between(1, 4);
  camera.dark = 50 * share(random);
  camera.frame_rate = 25;
  camera.averaged = 1 + 5 * share(random);
  camera.smear = share(random) < 0.5 ? 0 : share(random);
  camera.dynamic_ratio = share(random) < 0.8 ? 1 : 16;
  camera.shutter_fixed = share(random) < 0.3;
  camera.limits.adaptive = share(random) < 0.5;
  if (share(random) < 0.8) {
    std::vector<MeterPixel> frame;
    for (int i = 0; i < 40; ++i)
      frame.push_back({share(random) < 0.3 ? 0 : log_between(1, 1e8), share(random) < 0.5 ? 0 : log_between(1, 1e6)});
    camera.metering = Metering{frame};
  }
  const double density = log_between(1, 3000);
  Seen seen{density, log_between(0.01, 1e3), density * share(random), share(random) < 0.5 ? 1 : share(random)};
  seen.area = 1 + 3 * share(random);
  seen.cover = share(random) < 0.2 ? 0 : share(random);
  seen.others = share(random) < 0.2 ? 0 : log_between(1, 1e8);
  seen.own = share(random) < 0.5 ? 0 : log_between(1, 1e6);
  seen.path = share(random) < 0.5 ? 0 : log_between(1, 1e6);
  seen.own_path = share(random) < 0.5 ? 0 : log_between(1, 1e5);
  seen.glare = share(random) < 0.7 ? 0 : log_between(1, 1e6);
  seen.veil_own = log_between(1, 100);
  seen.air = 0.2 + 0.8 * share(random);
  return {camera, seen, Values{v}};
}

TEST(Delivered, StaysWithinNothingAndTheDensity) {
  constexpr unsigned kSeed = 22;
  std::mt19937 random{kSeed};
  for (int i = 0; i < 3000; ++i) {
    const Case c = random_case(random);
    const double d = delivered(c.camera, c.seen, c.values);
    EXPECT_TRUE(std::isfinite(d)) << "seed " << kSeed << " case " << i;
    EXPECT_GE(d, 0) << "seed " << kSeed << " case " << i;
    EXPECT_LE(d, c.seen.density * c.values[Input::kDensityFactor]) << "seed " << kSeed << " case " << i;
  }
}

const std::vector<Limit> kRemovable{Limit::kPixels, Limit::kLens,     Limit::kFocus, Limit::kMotion,
                                    Limit::kShake,  Limit::kGlare,    Limit::kVeil,  Limit::kContrast,
                                    Limit::kNoise,  Limit::kClipping, Limit::kAir};

TEST(DeliveredWithout, TakingAFactorAwayNeverLowersIt) {
  constexpr unsigned kSeed = 23;
  std::mt19937 random{kSeed};
  for (int i = 0; i < 2000; ++i) {
    const Case c = random_case(random);
    const double as_is = delivered(c.camera, c.seen, c.values);
    for (const Limit factor : kRemovable) {
      // A veil or mist before a lit subject is a shade: without it the subject may burn out at the same exposure.
      if (factor == Limit::kVeil || factor == Limit::kAir) continue;
      EXPECT_GE(delivered_without(factor, c.camera, c.seen, c.values), as_is * (1 - 2e-4))
          << in_words(factor) << " seed " << kSeed << " case " << i;
    }
    EXPECT_EQ(delivered_without(Limit::kNone, c.camera, c.seen, c.values), as_is);
  }
}

TEST(LimitOf, IsTheFactorWhoseRemovalRaisesItMost) {
  constexpr unsigned kSeed = 24;
  std::mt19937 random{kSeed};
  for (int i = 0; i < 1000; ++i) {
    const Case c = random_case(random);
    const Limit limit = limit_of(c.camera, c.seen, c.values);
    const double most = delivered_without(limit, c.camera, c.seen, c.values);
    for (const Limit factor : kRemovable)
      EXPECT_LE(delivered_without(factor, c.camera, c.seen, c.values), most)
          << in_words(factor) << " seed " << kSeed << " case " << i;
  }
}

TEST(LimitOf, NamesEachCause) {
  const Values v{plain_values()};
  EXPECT_EQ(limit_of(kCamera, kSeen, v), Limit::kPixels);
  EXPECT_EQ(limit_of(kCamera, kSeen, v.with(Input::kLensBlur, 4)), Limit::kLens);
  EXPECT_EQ(limit_of(kCamera, kSeen, v.with(Input::kFNumber, 16)), Limit::kLens) << "diffraction is the lens's";
  EXPECT_EQ(limit_of(kCamera, kSeen, v.with(Input::kFocus, 1)), Limit::kFocus);
  Seen moving = kSeen;
  moving.motion_density = 150;
  EXPECT_EQ(limit_of(kCamera, moving, v.with(Input::kSpeed, 20)), Limit::kMotion);
  CameraConstants swaying = kCamera;
  swaying.sway_rate = 1;
  EXPECT_EQ(limit_of(swaying, kSeen, v), Limit::kShake);
  Seen behind = kSeen;
  behind.passed = 0.1;
  EXPECT_EQ(limit_of(kCamera, behind, v), Limit::kVeil);
  EXPECT_EQ(limit_of(kCamera, kSeen, v.with(Input::kContrast, 0.15)), Limit::kContrast);
  EXPECT_EQ(limit_of(kCamera, kSeen, v.with(Input::kContrast, 0.4).with(Input::kGlare, 1.2)), Limit::kGlare);
}

/// Every input within up to two fifths to either side.
RangedValues doubtful(const Values& values, std::mt19937& random) {
  std::uniform_real_distribution<double> share{0, 1};
  RangedInputs inputs;
  for (size_t k = 0; k < kInputCount; ++k) {
    const double middle = values[static_cast<Input>(k)];
    inputs[k] = {middle * (1 - 0.4 * share(random)), middle, middle * (1 + 0.4 * share(random))};
  }
  return RangedValues{inputs};
}

TEST(DeliveredRange, HoldsItsNominalValue) {
  constexpr unsigned kSeed = 25;
  std::mt19937 random{kSeed};
  for (int i = 0; i < 500; ++i) {
    const Case c = random_case(random);
    const RangedValues values = doubtful(c.values, random);
    const DeliveredRange range = delivered_range(c.camera, c.seen, values);
    EXPECT_EQ(range.value.nominal, delivered(c.camera, c.seen, values.nominal()));
    EXPECT_LE(range.value.low, range.value.nominal) << "seed " << kSeed << " case " << i;
    EXPECT_GE(range.value.high, range.value.nominal) << "seed " << kSeed << " case " << i;
    EXPECT_TRUE(std::isfinite(range.value.high)) << "seed " << kSeed << " case " << i;
    EXPECT_GE(range.value.low, 0);
  }
}

TEST(DeliveredRange, ReachesALevelWithTheSameEndsAsItsRange) {
  constexpr unsigned kSeed = 26;
  std::mt19937 random{kSeed};
  int open = 0;
  for (int i = 0; i < 500; ++i) {
    const Case c = random_case(random);
    const RangedValues values = doubtful(c.values, random);
    const Ranged<double> range = delivered_range(c.camera, c.seen, values).value;
    for (const double level : {0.5 * range.low + 0.1, 0.5 * (range.low + range.nominal) + 0.1, range.nominal,
                               0.5 * (range.nominal + range.high) + 0.1, range.high, 2 * range.high + 0.1}) {
      const Ranged<bool> wanted{range.low >= level, range.nominal >= level, range.high >= level};
      EXPECT_EQ(delivers(c.camera, c.seen, values, level), wanted)
          << "seed " << kSeed << " case " << i << ", " << level;
      open += !wanted.low && wanted.high ? 1 : 0;
    }
  }
  EXPECT_GT(open, 100);
}

TEST(DeliveredRange, IsAPointWhenEverythingIsKnown) {
  const DeliveredRange range = delivered_range(kCamera, kSeen, RangedValues{exact_inputs()});
  EXPECT_EQ(range.value.low, range.value.nominal);
  EXPECT_EQ(range.value.high, range.value.nominal);
}

TEST(DeliveredRange, CombinesByRootSumSquareOfLogarithms) {
  RangedInputs contrast_only = exact_inputs(), blur_only = exact_inputs(), both = exact_inputs();
  const Ranged<double> contrast{0.6, 0.75, 0.8}, blur{0.5, 0.55, 0.8};
  at(contrast_only, Input::kContrast) = at(both, Input::kContrast) = contrast;
  at(blur_only, Input::kLensBlur) = at(both, Input::kLensBlur) = blur;
  const auto logs = [](const DeliveredRange& r) {
    return std::pair{std::log(r.value.low / r.value.nominal), std::log(r.value.high / r.value.nominal)};
  };
  const auto [c_low, c_high] = logs(delivered_range(kCamera, kSeen, RangedValues{contrast_only}));
  const auto [b_low, b_high] = logs(delivered_range(kCamera, kSeen, RangedValues{blur_only}));
  const auto [low, high] = logs(delivered_range(kCamera, kSeen, RangedValues{both}));
  EXPECT_NEAR(low, -std::hypot(c_low, b_low), kSolved);
  EXPECT_NEAR(high, std::hypot(c_high, b_high), kSolved);
  const Values v{plain_values()};
  EXPECT_NEAR(std::exp(c_low), delivered(kCamera, kSeen, v.with(Input::kContrast, 0.6)) / delivered(kCamera, kSeen, v),
              kSolved);
}

TEST(DeliveredRange, NamesTheInputThatMovesItMost) {
  RangedInputs inputs = exact_inputs();
  at(inputs, Input::kContrast) = {0.74, 0.75, 0.76};
  at(inputs, Input::kFocus) = {5, 20, 40};
  EXPECT_EQ(delivered_range(kCamera, kSeen, RangedValues{inputs}).widest, Input::kFocus);
  at(inputs, Input::kFocus) = {19, 20, 21};
  at(inputs, Input::kContrast) = {0.4, 0.75, 0.85};
  EXPECT_EQ(delivered_range(kCamera, kSeen, RangedValues{inputs}).widest, Input::kContrast);
}

TEST(DeliveredRange, CarriesTheSwaysRangeWhereTheMountSways) {
  RangedInputs inputs = exact_inputs();
  at(inputs, Input::kSway) = {0.25, 1, 2.5};
  CameraConstants swaying = kCamera;
  swaying.sway_rate = 0.1;  // 1.5 px
  const DeliveredRange range = delivered_range(swaying, kSeen, RangedValues{inputs});
  const auto at_sway = [&](double factor) {
    return delivered(swaying, kSeen, nominal(exact_inputs()).with(Input::kSway, factor));
  };
  EXPECT_EQ(range.widest, Input::kSway);
  EXPECT_NEAR(range.value.low, at_sway(2.5), kSolved);
  EXPECT_NEAR(range.value.high, at_sway(0.25), kSolved);
  const DeliveredRange still = delivered_range(kCamera, kSeen, RangedValues{inputs});
  EXPECT_EQ(still.value.low, still.value.high);
}

TEST(DeliveredRange, FallsToNothingWhereAnInputMayEndIt) {
  RangedInputs inputs = exact_inputs();
  at(inputs, Input::kContrast) = {0.1, 0.75, 0.85};
  const DeliveredRange range = delivered_range(kCamera, kSeen, RangedValues{inputs});
  EXPECT_EQ(range.value.low, 0);
  EXPECT_GT(range.value.nominal, 0);
  EXPECT_TRUE(std::isfinite(range.value.high));
  EXPECT_EQ(range.widest, Input::kContrast);
}

TEST(DeliveredRange, OfNothingReachesToWhatOneInputAloneGivesBack) {
  RangedInputs inputs = exact_inputs();
  at(inputs, Input::kContrast) = {0.05, 0.1, 0.85};
  at(inputs, Input::kLensBlur) = {0.4, 0.55, 0.8};
  const DeliveredRange range = delivered_range(kCamera, kSeen, RangedValues{inputs});
  EXPECT_EQ(range.value.nominal, 0);
  EXPECT_EQ(range.value.low, 0);
  EXPECT_NEAR(range.value.high, delivered(kCamera, kSeen, nominal(exact_inputs()).with(Input::kContrast, 0.85)), 1e-9);
  EXPECT_EQ(range.widest, Input::kContrast);
}

TEST(DeliveredRange, DoesNotLeapWhereHardlyAnythingIsLeft) {
  RangedInputs inputs = exact_inputs();
  at(inputs, Input::kContrast) = {0.2, 0.2041, 0.4};
  at(inputs, Input::kThreshold) = {0.15, 0.2, 0.25};
  const Values middle = nominal(inputs);
  const double little = delivered(kCamera, kSeen, middle);
  ASSERT_GT(little, 0);
  const double by_contrast = delivered(kCamera, kSeen, middle.with(Input::kContrast, 0.4));
  const double by_threshold = delivered(kCamera, kSeen, middle.with(Input::kThreshold, 0.15));
  const double together = delivered(kCamera, kSeen, middle.with(Input::kContrast, 0.4).with(Input::kThreshold, 0.15));
  const double by_logarithms =
      little * std::exp(std::hypot(std::log(by_contrast / little), std::log(by_threshold / little)));
  const double bound = std::max(little + std::hypot(by_contrast - little, by_threshold - little), together);
  ASSERT_LT(bound, std::min(by_logarithms, 150.0)) << "a case in which logarithms do leap";
  EXPECT_NEAR(delivered_range(kCamera, kSeen, RangedValues{inputs}).value.high, bound, kSolved);
}

}  // namespace
}  // namespace sightfall::detail
