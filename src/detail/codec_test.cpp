// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/codec.h"

#include <gtest/gtest.h>

#include "detail/delivered.h"
#include "detail/test_plain.h"

namespace sightfall::detail {
namespace {

/// Two noises, two amplitudes, two frequencies, with numbers that can be worked out on paper.
CodecTable paper_table() {
  return {{0.1, 0.3},
          {{0, {20, 30}, {16, 28}, {0.4, 0.1}}, {3, {20, 30}, {22, 34}, {1.6, 0.1}}},
          {{0, 0.25, {0.4, 0.2}}, {0, 1, {0.8, 0.6}}, {1, 0.25, {0.6, 0.4}}, {1, 1, {1, 0.8}}}};
}

TEST(Codec, AStepDoublesEverySixthQuantiser) {
  EXPECT_DOUBLE_EQ(step_of(4), 1);
  EXPECT_DOUBLE_EQ(step_of(10), 2);
  EXPECT_DOUBLE_EQ(step_of(34), 32);
}

TEST(Codec, TheStepFollowsFromBitsAndNoise) {
  const CodecTable table = paper_table();
  EXPECT_NEAR(table.step_at_rate(0.4, 0), step_of(16), 1e-9);
  EXPECT_NEAR(table.step_at_rate(0.2, 0), step_of(22), 1e-9) << "half way in the logarithm";
  EXPECT_NEAR(table.step_at_rate(0.4, 3), step_of(28), 1e-9);
  EXPECT_NEAR(table.step_at_rate(0.4, 1), step_of(22), 1e-9) << "log2(1 + 1) is half of log2(1 + 3)";
  EXPECT_NEAR(table.step_at_rate(9, 0), step_of(16), 1e-9) << "held at the ends";
  EXPECT_NEAR(table.step_at_rate(0.001, 9), step_of(34), 1e-9);
}

TEST(Codec, AQualityGivesItsStepAndItsBits) {
  const CodecTable table = paper_table();
  EXPECT_NEAR(table.step_at_quality(25, 0), step_of(22), 1e-9);
  EXPECT_NEAR(table.step_at_quality(30, 3), step_of(34), 1e-9);
  EXPECT_NEAR(table.quality_of_step(step_of(22), 0), 25, 1e-9);
  EXPECT_NEAR(table.bits_at_quality(25, 0), 0.2, 1e-9);
  EXPECT_NEAR(table.bits_at_quality(20, 3), 1.6, 1e-9);
}

TEST(Codec, WhatSurvivesIsReadBetweenTheGridsPoints) {
  const CodecTable table = paper_table();
  EXPECT_NEAR(table.surviving(0.25, 0, 0.1), 0.4, 1e-9);
  EXPECT_NEAR(table.surviving(0.5, 0, 0.1), 0.6, 1e-9) << "half way in the logarithm";
  EXPECT_NEAR(table.surviving(0.5, 0.5, 0.2), 0.6, 1e-9);
  EXPECT_NEAR(table.surviving(8, 4, 0.05), 1, 1e-9) << "held at the ends";
  EXPECT_NEAR(table.surviving(0.125, 0, 0.3), 0.1, 1e-9) << "fainter than the grid: in proportion";
  EXPECT_EQ(table.surviving(0, 0, 0.1), 0);
}

/// A camera whose stream leaves 0.1 bits a pixel at a step that costs something.
CameraConstants compressed(double bits) {
  CameraConstants camera = kCamera;
  camera.codec = std::make_shared<const CodecTable>(paper_table());
  camera.bits_per_pixel = bits;
  return camera;
}

/// A fifth of full scale, 500 electrons.
const Seen kLit{.density = 100, .depth = 20, .others = 1e5};
Values lit_values() { return Values{plain_values()}.with(Input::kFullWell, 2500); }
constexpr double kOfBars = 1 / kSpread;  // the table's own steps

class Compressed : public testing::Test {
 protected:
  static double at(const CameraConstants& camera, double step = 1) {
    return delivered(camera, kLit, lit_values().with(Input::kQuantiser, kOfBars * step));
  }
};

TEST_F(Compressed, DetailIsLessAndComesBackWithBits) {
  const double without = at(kCamera), fine = at(compressed(0.4)), coarse = at(compressed(0.1));
  EXPECT_LT(coarse, fine);
  EXPECT_LT(fine, without);
  EXPECT_GT(coarse, 0);
}

TEST_F(Compressed, ACoarserQuantiserLeavesLess) { EXPECT_LT(at(compressed(0.4), 2), at(compressed(0.4))); }

TEST_F(Compressed, AQualityIsHeldAsLongAsTheBitsAllow) {
  CameraConstants camera = compressed(100);
  camera.quality = 30;
  EXPECT_DOUBLE_EQ(at(camera), at(compressed(0.1))) << "both are QP 28 without noise";
  camera.bits_per_pixel = std::numeric_limits<double>::infinity();
  EXPECT_DOUBLE_EQ(at(camera), at(compressed(0.1)));
}

TEST_F(Compressed, IsTheLimitWhereItTakesMost) {
  const Values coarse = lit_values().with(Input::kQuantiser, 3 * kOfBars);
  EXPECT_EQ(limit_of(compressed(0.1), kLit, coarse), Limit::kCompression);
  EXPECT_DOUBLE_EQ(delivered_without(Limit::kCompression, compressed(0.1), kLit, coarse), at(kCamera));
}

TEST_F(Compressed, IsNotTheLimitWhereNoiseAloneForbids) {
  const Values coarse = lit_values().with(Input::kQuantiser, 3 * kOfBars);
  int forbidden = 0;
  for (double light = 1e5; light > 1; light /= 1.5) {
    Seen seen = kLit;
    seen.others = light;
    if (delivered_without(Limit::kCompression, compressed(0.1), seen, coarse) > 0.01 * seen.density) continue;
    ++forbidden;
    EXPECT_NE(limit_of(compressed(0.1), seen, coarse), Limit::kCompression) << light;
  }
  EXPECT_GT(forbidden, 0);
}

TEST_F(Compressed, TheRangeOfTheStepIsInTheAnswer) {
  RangedInputs inputs;
  for (size_t i = 0; i < kInputCount; ++i) inputs[i] = Ranged<double>::exact(lit_values()[static_cast<Input>(i)]);
  inputs[static_cast<size_t>(Input::kQuantiser)] = {0.7 * kOfBars, kOfBars, 1.6 * kOfBars};
  const DeliveredRange range = delivered_range(compressed(0.4), kLit, RangedValues{inputs});
  EXPECT_LT(range.value.low, range.value.nominal);
  EXPECT_GT(range.value.high, range.value.nominal);
  EXPECT_EQ(range.widest, Input::kQuantiser);
  const DeliveredRange bare = delivered_range(kCamera, kLit, RangedValues{inputs});
  EXPECT_EQ(bare.value.low, bare.value.high);
}

}  // namespace
}  // namespace sightfall::detail
