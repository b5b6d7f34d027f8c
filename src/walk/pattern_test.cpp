// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/pattern.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <string>
#include <vector>

#include "walk/glyphs.h"

namespace sightfall::walk {
namespace {

using namespace units;

std::string every_glyph() { return std::string{kFigures} + std::string{kLetters}; }

/// Mean of a pattern over its rectangle, by sampling; every value must be in [-1, 1].
template <class Pattern>
double mean_of(const Pattern& at) {
  constexpr int kColumns = 520, kRows = 230;
  double sum = 0;
  for (int row = 0; row < kRows; ++row)
    for (int column = 0; column < kColumns; ++column) {
      const double value = at((column + 0.5) / kColumns, (row + 0.5) / kRows);
      EXPECT_LE(std::abs(value), 1) << column << ' ' << row;
      sum += value;
    }
  return sum / (kColumns * kRows);
}

// --- Plates

TEST(RandomPlate, AlternatesFiguresAndLetters) {
  std::set<size_t> lengths;
  std::set<char> seen;
  std::set<std::string> plates;
  for (uint64_t seed = 0; seed < 2000; ++seed) {
    const std::string plate = random_plate(seed);
    lengths.insert(plate.size());
    seen.insert(plate.begin(), plate.end());
    plates.insert(plate);
    for (size_t i = 0; i < plate.size(); ++i)
      EXPECT_NE((i % 2 == 0 ? kFigures : kLetters).find(plate[i]), std::string_view::npos) << plate;
  }
  EXPECT_EQ(lengths, (std::set<size_t>{6, 7}));
  EXPECT_EQ(seen.size(), every_glyph().size()) << "every character comes up";
  EXPECT_GT(plates.size(), 1980U) << "hardly any twice";
}

TEST(RandomPlate, IsTheSameOnEveryMachine) {
  EXPECT_EQ(random_plate(7), "9M7U4W");
  EXPECT_EQ(random_plate(0), "9X2E1K3");
}

TEST(Glyphs, AreTheFiguresAndLettersWithoutIOQ) {
  for (const char character : every_glyph()) EXPECT_TRUE(has_glyph(character)) << character;
  for (const char character : {'I', 'O', 'Q', 'a', ' ', '-', '\0'}) EXPECT_FALSE(has_glyph(character)) << character;
}

// Every character stands on the line and reaches its full height with a stroke of the stated width.
TEST(Glyphs, FillTheirBoxFromTopToBottom) {
  for (const char character : every_glyph()) {
    double top = 1, bottom = 0, left = 1, right = 0;
    for (double x = -0.01; x < 0.054; x += 0.0005)
      for (double y = -0.01; y < 0.09; y += 0.0005)
        if (ink_distance(character, {x, y}) < 0) {
          top = std::min(top, y);
          bottom = std::max(bottom, y);
          left = std::min(left, x);
          right = std::max(right, x);
        }
    EXPECT_NEAR(top, 0, 0.001) << character;
    EXPECT_NEAR(bottom, kCharacterHeight.si(), 0.001) << character;
    EXPECT_GT(left, -0.003) << character;
    EXPECT_LT(right, kCharacterWidth.si() + 0.003) << character;
  }
}

TEST(Glyphs, StrokeIsAsWideAsStated) {
  const double half = kStroke.si() / 2, middle = kCharacterHeight.si() / 3;
  EXPECT_NEAR(ink_distance('H', {half, middle}), -half, 1e-12) << "in the middle of its left leg";
  EXPECT_NEAR(ink_distance('H', {2 * half, middle}), 0, 1e-12) << "at the leg's edge";
  EXPECT_NEAR(ink_distance('H', {0.022, 0.02}), 0.022 - 2 * half, 1e-12) << "between the legs";
  // The lower left quarter of a C is an arc of 16.5 mm around (22, 58) mm; beyond its upper end the end is round.
  EXPECT_NEAR(ink_distance('C', {0.022 - 0.0165 * std::cos(0.7), 0.058 + 0.0165 * std::sin(0.7)}), -half, 1e-9);
  EXPECT_NEAR(ink_distance('C', {0.022, 0.058}), 0.0165 - half, 1e-9);
}

/// A character drawn at a height of 40 pixels with a margin, in [0, 1] of ink, from 4 x 4 points a pixel.
using Drawing = std::vector<double>;
constexpr int kAcross = 32, kDown = 48, kMargin = 4;
constexpr double kPixel = 0.08 / 40;

Drawing drawn(char character, double shift) {
  constexpr std::array kOffsets{0.125, 0.375, 0.625, 0.875};
  Drawing drawing;
  for (int row = 0; row < kDown; ++row)
    for (int column = 0; column < kAcross; ++column) {
      double ink = 0;
      for (const double down : kOffsets)
        for (const double across : kOffsets) {
          const double x = column - kMargin + across + shift, y = row - kMargin + down + shift;
          ink += ink_distance(character, {x * kPixel, y * kPixel}) < 0 ? 1.0 / 16 : 0;
        }
      drawing.push_back(ink);
    }
  return drawing;
}

std::vector<Drawing> all_drawn() {
  std::vector<Drawing> drawings;
  for (const char character : every_glyph()) drawings.push_back(drawn(character, 0));
  return drawings;
}

/// A Gaussian blur of a standard deviation in pixels.
Drawing blurred(const Drawing& drawing, double deviation) {
  Drawing result(drawing.size());
  const int reach = static_cast<int>(std::ceil(3 * deviation));
  for (int row = 0; row < kDown; ++row)
    for (int column = 0; column < kAcross; ++column) {
      double sum = 0, weights = 0;
      for (int y = std::max(0, row - reach); y <= std::min(kDown - 1, row + reach); ++y)
        for (int x = std::max(0, column - reach); x <= std::min(kAcross - 1, column + reach); ++x) {
          const double weight =
              std::exp(-((x - column) * (x - column) + (y - row) * (y - row)) / (2 * deviation * deviation));
          sum += weight * drawing[static_cast<size_t>(y * kAcross + x)];
          weights += weight;
        }
      result[static_cast<size_t>(row * kAcross + column)] = sum / weights;
    }
  return result;
}

double difference(const Drawing& a, const Drawing& b) {
  double sum = 0;
  for (size_t i = 0; i < a.size(); ++i) sum += std::abs(a[i] - b[i]);
  return sum;
}

// Of the box of 22 x 40 pixels; the least, 0.11, is between E and F.
TEST(Glyphs, DifferPairwise) {
  constexpr double kLeastShare = 0.10, kBox = 22 * 40;
  const std::string all = every_glyph();
  const std::vector<Drawing> drawings = all_drawn();
  for (size_t i = 0; i < all.size(); ++i)
    for (size_t j = 0; j < i; ++j)
      EXPECT_GT(difference(drawings[i], drawings[j]) / kBox, kLeastShare) << all[i] << ' ' << all[j];
}

TEST(Glyphs, AreRecognisedAfterBlur) {
  const std::string all = every_glyph();
  const std::vector<Drawing> templates = all_drawn();
  for (size_t i = 0; i < all.size(); ++i) {
    const Drawing seen = blurred(drawn(all[i], 0.3), 1);
    const auto nearest = std::min_element(templates.begin(), templates.end(), [&](const auto& a, const auto& b) {
      return difference(seen, a) < difference(seen, b);
    });
    EXPECT_EQ(all[static_cast<size_t>(nearest - templates.begin())], all[i]);
  }
}

TEST(PlatePattern, IsDarkCharactersAndBorderOnBright) {
  const PlatePattern plate("1H1H1H1");
  EXPECT_NEAR(PlatePattern::aspect(), 520.0 / 110, 1e-12);
  for (const double along : {0.001, 0.3, 0.999}) {
    EXPECT_EQ(plate.at(along, 0.005), -1) << "upper border";
    EXPECT_EQ(plate.at(along, 0.995), -1) << "lower border";
  }
  EXPECT_EQ(plate.at(0.002, 0.5), -1);
  EXPECT_EQ(plate.at(0.998, 0.5), -1);
  EXPECT_EQ(plate.at(0.05, 0.5), 1) << "the margin";
  EXPECT_EQ(plate.at(0.5, 0.08), 1) << "above the characters";
  // The middle of seven is an H, whose bar runs through the plate's middle.
  EXPECT_EQ(plate.at(0.5, 0.5), -1);
  EXPECT_EQ(plate.at(0.5, 0.4), 1);
  const double leg = (kCharacterWidth - kStroke).si() / 2 / kPlateWidth.si();
  EXPECT_EQ(plate.at(0.5 - leg, 0.3), -1);
  EXPECT_EQ(plate.at(0.5 + leg, 0.3), -1);
}

TEST(PlatePattern, StandsInTheMiddleWithEveryCharacter) {
  const PlatePattern plate("HHHHHH");
  int changes = 0;
  for (double u = 0.011; u < 0.99; u += 0.0005) changes += (plate.at(u, 0.3) < 0) != (plate.at(u - 0.0005, 0.3) < 0);
  EXPECT_EQ(changes, 6 * 4) << "two legs each, in and out";
  for (double u = 0; u < 0.5; u += 0.01) EXPECT_NEAR(plate.at(u, 0.3), plate.at(1 - u, 0.3), 1e-6) << u;
}

TEST(PlatePattern, IsMostlyBright) {
  for (const char* characters : {"8B8B8B8", "1L1J1T"}) {
    const PlatePattern plate(characters);
    const double mean = mean_of([&](double u, double v) { return plate.at(u, v); });
    EXPECT_GT(mean, 0.2) << characters;
    EXPECT_LT(mean, 0.7) << characters;
  }
}

TEST(PlatePatternDeathTest, TakesOnlyWhatItCanDraw) {
  EXPECT_DEATH(PlatePattern(""), "broken promise");
  EXPECT_DEATH(PlatePattern("1A1A1A1A"), "broken promise");
  EXPECT_DEATH(PlatePattern("1O1"), "broken promise");
}

// --- Faces

TEST(Face, IsNearGreyOnAverageAndAlikeOnBothSides) {
  EXPECT_NEAR(mean_of(face_at), -0.1, 0.1);
  for (double u = 0; u < 0.5; u += 0.031)
    for (double v = 0; v < 1; v += 0.037) EXPECT_NEAR(face_at(u, v), face_at(1 - u, v), 1e-12) << u << ' ' << v;
}

TEST(Face, HasItsFeaturesWhereFacesDo) {
  const auto at = [](double right, double down) { return face_at(0.5 + right / 0.16, down / 0.23); };
  const double cheek = at(0.036, 0.122);
  EXPECT_GT(cheek, 0.2);
  EXPECT_LT(at(0, 0.005), -0.7) << "hair";
  EXPECT_LT(at(0.032, 0.066), -0.5) << "brow";
  EXPECT_LT(at(0.032, 0.085), -0.8) << "iris";
  EXPECT_GT(at(0.0425, 0.085), 0.5) << "white of the eye";
  EXPECT_GT(at(0, 0.11), cheek) << "bridge of the nose";
  EXPECT_LT(at(0.0075, 0.139), -0.5) << "nostril";
  EXPECT_LT(at(0, 0.165), -0.7) << "between the lips";
  EXPECT_GT(at(0, 0.195), 0.1) << "chin";
  EXPECT_NEAR(at(0.079, 0.2), 0, 0.1) << "beyond the jaw it is skin, no brighter and no darker";
}

TEST(Face, IsSmooth) {
  constexpr double kStep = 1e-4, kSteepest = 0.25;  // u and v; a rim of 1 mm is ten steps of v wide
  for (double u = 0; u < 1; u += 0.013)
    for (double v = 0; v < 1; v += 0.002)
      EXPECT_LT(std::abs(face_at(u, v + kStep) - face_at(u, v)), kSteepest) << u << ' ' << v;
}

// --- Bars and the target

TEST(Bars, AreBrightForHalfOfEachCycle) {
  int bright = 0;
  constexpr int kSteps = 10000;
  for (int i = 0; i < kSteps; ++i) bright += bars_at((i + 0.5) / kSteps, 25) > 0 ? 1 : 0;
  EXPECT_EQ(bright, kSteps / 2);
  EXPECT_EQ(bars_at(0.001, 100), 1);
  EXPECT_EQ(bars_at(0.006, 100), -1);
  EXPECT_EQ(bars_at(-0.001, 100), -1) << "the cycle before";
}

TEST(SineBars, HaveTheirAmplitudeAndPhase) {
  EXPECT_NEAR(sine_bars_at(0, 50), 0, 1e-12);
  EXPECT_NEAR(sine_bars_at(0.005, 50), 1, 1e-12);
  EXPECT_NEAR(sine_bars_at(0.015, 50), -1, 1e-12);
  EXPECT_NEAR(sine_bars_at(0.005 / 3, 50), 0.5, 1e-12);
}

TEST(Target, IsGreyOnAverage) {
  const TargetPattern target;
  EXPECT_NEAR(mean_of([&](double u, double v) { return target.at(u, v); }), 0, 0.02);
  EXPECT_EQ(target.at(0.5, 0.52), 0) << "grey between its parts";
  EXPECT_EQ(target.at(0.01, 0.01), 0) << "and around them";
}

TEST(Target, HasACheckerWithDarkCorners) {
  const TargetPattern target;
  const auto& checker = TargetPattern::kChecker;
  for (int row = 0; row < TargetPattern::kCells; ++row)
    for (int column = 0; column < TargetPattern::kCells; ++column)
      EXPECT_EQ(target.at(checker.left + (column + 0.5) * checker.width / TargetPattern::kCells,
                          checker.top + (row + 0.5) * checker.height / TargetPattern::kCells),
                (row + column) % 2 == 0 ? -1 : 1);
}

/// Where along a row of the edge's patch dark becomes bright.
double edge_in_row(const TargetPattern& target, double v) {
  double dark = TargetPattern::kEdge.left, bright = dark + TargetPattern::kEdge.width * (1 - 1e-9);
  while (bright - dark > 1e-9) {
    const double middle = (dark + bright) / 2;
    (target.at(middle, v) < 0 ? dark : bright) = middle;
  }
  return dark;
}

TEST(Target, HasAnEdgeFiveDegreesOffTheVertical) {
  const TargetPattern target;
  const double slope = (edge_in_row(target, 0.10) - edge_in_row(target, 0.40)) / 0.30;
  EXPECT_NEAR(std::atan(slope), (5.0 * deg).si(), 1e-6);
  EXPECT_NEAR(edge_in_row(target, 0.26), 0.74, 1e-6) << "through the middle of its patch";
}

TEST(Target, HasBarsOfTheStatedFrequencies) {
  const TargetPattern target;
  for (int group = 0; group < TargetPattern::kGroups; ++group) {
    const auto patch = TargetPattern::bars(group);
    constexpr int kSteps = 6400;
    int changes = 0;
    const auto at = [&](int i) { return target.at(patch.left + patch.width * (i + 0.5) / kSteps, 0.7); };
    for (int i = 1; i < kSteps; ++i) changes += at(i) != at(i - 1) ? 1 : 0;
    const double cycles = TargetPattern::frequency(group) * patch.width * TargetPattern::kSide.si();
    EXPECT_EQ(changes, 2 * cycles - 1) << group;
    EXPECT_EQ(TargetPattern::frequency(group), 25 << group);
  }
}

}  // namespace
}  // namespace sightfall::walk
