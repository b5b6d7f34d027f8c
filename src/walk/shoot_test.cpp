// SPDX-License-Identifier: GPL-3.0-or-later
// The sensor's stages together, on flat cards and bars whose electrons are known: mosaic and noise, two exposures,
// bands, smear, and the walk that hands them their times.
#include "walk/shoot.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "detail/sensor.h"
#include "walk/mosaic.h"
#include "walk/stage.h"

namespace sightfall::walk {
namespace {

using detail::Input;

constexpr int kColumns = 120, kRows = 90;
constexpr double kTime = 0.01, kRead = 2, kFullWell = 8000;

/// A camera of fixed exposure before a flat card that fills its frame.
struct Card {
  need::Station station;
  detail::Seen seen{.density = 150, .depth = 20};
  std::array<double, detail::kInputCount> values{};
  Background background;

  explicit Card(double rate, uint8_t hue = 0)
      : background{{kColumns, kRows, static_cast<float>(rate)},
                   {kColumns, kRows},
                   {kColumns, kRows, 20},
                   std::vector<uint8_t>(static_cast<size_t>(kColumns) * kRows, hue),
                   {}} {
    station.constants = {.focal = 6e-3, .pitch = 2e-6};
    seen.others = rate;
    for (const Input factor :
         {Input::kDensityFactor, Input::kSensitivity, Input::kReflectance, Input::kGain, Input::kQuantiser})
      set(factor, 1);
    set(Input::kThreshold, 0.2);
    set(Input::kLensBlur, 0.5);
    set(Input::kFNumber, 1.6);
    set(Input::kFocus, 20);
    set(Input::kShutter, kTime);
    set(Input::kReadNoise, kRead);
    set(Input::kFullWell, kFullWell);
    set(Input::kTarget, 0.18);
    const std::vector<detail::MeterPixel> frame(16, detail::MeterPixel{rate, 0});
    station.constants.metering = detail::Metering{frame};
  }
  void set(Input input, double value) { values[static_cast<size_t>(input)] = value; }
  Shot shot() const { return {&station, detail::Values{values}, seen, {1, 0}, 5, 0}; }
  Exposure exposure() const { return expose_picture(background, {}, shot()); }
};

struct Moments {
  double mean = 0, variance = 0;
};

/// Of the pixels of a plane that a condition picks.
template <class Picks>
Moments moments(const Plane& plane, Picks picks) {
  double sum = 0, squares = 0, count = 0;
  for (int row = 0; row < plane.rows; ++row)
    for (int column = 0; column < plane.columns; ++column) {
      if (!picks(column, row)) continue;
      const auto value = static_cast<double>(plane.at[plane.index(column, row)]);
      sum += value, squares += value * value, ++count;
    }
  return {sum / count, squares / count - sum * sum / count / count};
}

bool any(int, int) { return true; }

TEST(Shoot, EachColoursPixelsHaveTheNoiseOfWhatTheyCollect) {
  constexpr uint8_t kBlueHue = 6;
  const Card card{1e5, kBlueHue};
  const Plane raw = electrons(card.exposure(), card.shot());
  const Hue shares = shares_of(hues()[kBlueHue]);
  for (size_t colour = 0; colour < 3; ++colour) {
    const Moments of = moments(raw, [&](int x, int y) { return colour_at(x, y) == colour; });
    const double mean = 1000 * static_cast<double>(shares.at(colour));
    EXPECT_NEAR(of.mean / mean, 1, 0.01) << colour;
    EXPECT_NEAR(of.variance / detail::signal_variance(mean, {kRead, 0, 0}), 1, 0.12) << colour;
  }
  EXPECT_NEAR(moments(raw, any).mean, 1000, 5) << "the verdict's electrons on the mean";
}

TEST(Shoot, AGreyCardIsGreyInColour) {
  Card card{1.5e5};
  card.set(Input::kReadNoise, 0);
  const Exposure exposure = card.exposure();
  const Picture picture = developed(exposure.mean, exposure, false);  // without noise
  for (size_t i = 0; i < picture.rgb.size(); i += 3) {
    EXPECT_EQ(picture.rgb[i], picture.rgb[i + 1]);
    EXPECT_EQ(picture.rgb[i], picture.rgb[i + 2]);
  }
  const Picture noisy = developed(electrons(exposure, card.shot()), exposure, false);
  std::array<double, 3> sum{};
  for (size_t i = 0; i < noisy.rgb.size(); ++i) sum.at(i % 3) += noisy.rgb[i];
  for (const double one : sum) EXPECT_NEAR(one / (kColumns * kRows), detail::grey_level(1500, kFullWell), 0.5);
}

TEST(Shoot, WhatClipsInEveryColourIsWhite) {
  const Card card{4e6};
  const Picture picture = developed(electrons(card.exposure(), card.shot()), card.exposure(), false);
  EXPECT_EQ(*std::min_element(picture.rgb.begin(), picture.rgb.end()), 255);
}

TEST(Shoot, TheShortExposureTellsWhatTheLongOneCutsWithItsOwnNoise) {
  constexpr double kRatio = 16, kRate = 4e6;  // 40 000 electrons, five full wells
  Card card{kRate};
  EXPECT_NEAR(moments(electrons(card.exposure(), card.shot()), any).mean, kFullWell, 1e-6) << "one exposure is cut";
  card.station.constants.dynamic_ratio = kRatio;
  const Exposure exposure = card.exposure();
  const Moments of = moments(electrons(exposure, card.shot()), any);
  EXPECT_NEAR(of.mean / 40000, 1, 0.005);
  const double expected = kRatio * kRatio * detail::signal_variance(40000 / kRatio, {kRead, 0, 0});
  EXPECT_NEAR(of.variance / expected, 1, 0.08);
  EXPECT_NEAR(exposure.brightest, 5, 1e-6) << "the tone curve ends at the frame's brightest";
  Card brighter{100 * kRate};
  brighter.station.constants.dynamic_ratio = kRatio;
  EXPECT_NEAR(moments(electrons(brighter.exposure(), brighter.shot()), any).mean, kRatio * kFullWell, 1e-3);
}

TEST(Shoot, WhereNothingClipsTwoExposuresShowNoOtherPictureThanOne) {
  Card card{1e5};
  const Picture one = developed(electrons(card.exposure(), card.shot()), card.exposure(), false);
  card.station.constants.dynamic_ratio = 16;
  const Picture two = developed(electrons(card.exposure(), card.shot()), card.exposure(), false);
  EXPECT_EQ(one.rgb, two.rgb);
}

TEST(Shoot, LampsOnTheMainsLayBandsOfTheirShareAtAShortShutter) {
  Card card{1e5};
  card.background.swinging = Plane{kColumns, kRows, 3e4F};  // three tenths of its light swing
  card.station.constants.flicker_rate = 100;
  card.set(Input::kShutter, 0.002);
  Shot shot = card.shot();
  shot.readout = 0.02;
  const auto extremes = [&] {
    const Plane mean = expose_picture(card.background, {}, shot).mean;
    const auto [least, most] = std::minmax_element(mean.at.begin(), mean.at.end());
    for (int row = 0; row < kRows; ++row)  // bands lie along the rows
      EXPECT_NEAR(mean.at[mean.index(3, row)], mean.at[mean.index(100, row)], 1e-3);
    return std::pair{static_cast<double>(*least), static_cast<double>(*most)};
  };
  const double left = std::sin(std::numbers::pi * 0.2) / (std::numbers::pi * 0.2);
  const auto [least, most] = extremes();
  EXPECT_NEAR(most / 200, 1 + 0.3 * left, 0.01);
  EXPECT_NEAR(least / 200, 1 - 0.3 * left, 0.01);
  card.set(Input::kShutter, 0.01);
  shot = card.shot();
  shot.readout = 0.02;
  const auto [even, also] = extremes();
  EXPECT_NEAR(even, also, 0.01) << "a whole swing shows none";
}

TEST(Shoot, NoiseReductionLeavesOfFaintBarsWhatTheVerdictCountsWith) {
  constexpr double kFrequency = 0.1;
  Card card{1e4};  // 100 electrons
  card.station.constants.averaged = 4;
  const double noise = std::sqrt(detail::signal_variance(100, {kRead, 0, detail::output_step(100, kFullWell)}) / 4);
  for (int row = 0; row < kRows; ++row)
    for (int column = 0; column < kColumns; ++column)
      card.background.rate.at[card.background.rate.index(column, row)] =
          static_cast<float>(1e4 + 100 * noise * std::cos(2 * std::numbers::pi * kFrequency * column));
  const auto amplitude = [&](double smear) {
    card.station.constants.smear = smear;
    const Plane mean = card.exposure().mean;
    double sum = 0;
    for (int column = 20; column < 100; ++column)
      sum += static_cast<double>(mean.at[mean.index(column, kRows / 2)]) *
             std::cos(2 * std::numbers::pi * kFrequency * column);
    return 2 * sum / 80;
  };
  const double whole = amplitude(0), ratio = whole / noise;
  EXPECT_GT(whole, 0.85 * noise) << "the lens leaves most of it";
  EXPECT_NEAR(amplitude(1) / whole, ratio * ratio / (ratio * ratio + 1), 0.08);
}

TEST(Shoot, MasksAreBlackAndTheRestIsAsItWas) {
  Picture picture{10, 4, std::vector<uint8_t>(3 * 40, 200)};
  black_out({{"window", 0.2, 0.25, 0.5, 0.75}}, picture);
  for (int row = 0; row < 4; ++row)
    for (int column = 0; column < 10; ++column) {
      const bool covered = column >= 2 && column < 5 && row >= 1 && row < 3;
      for (int channel = 0; channel < 3; ++channel)
        EXPECT_EQ(picture.rgb[static_cast<size_t>(3 * (10 * row + column) + channel)], covered ? 0 : 200);
    }
}

TEST(Shoot, APreviewHasNoMosaic) {
  constexpr uint8_t kGreenHue = 2;
  const Card card{1e5, kGreenHue};
  Shot shot = card.shot();
  shot.mosaic = false;
  const Exposure exposure = expose_picture(card.background, {}, shot);
  EXPECT_NEAR(exposure.mean.at.front(), exposure.mean.at.at(1), 1e-3);
  const Picture picture = developed(exposure.mean, exposure, false);
  EXPECT_GT(picture.rgb[1], picture.rgb[0]) << "and its hue all the same";
}

}  // namespace
}  // namespace sightfall::walk
