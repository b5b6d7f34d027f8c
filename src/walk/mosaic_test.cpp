// SPDX-License-Identifier: GPL-3.0-or-later
// The mosaic against what it must keep (the mean of a cell, grey, planes of constant colour) and what it cannot: detail
// finer than its red and blue pixels.
#include "walk/mosaic.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>
#include <random>
#include <vector>

namespace sightfall::walk {
namespace {

constexpr size_t kRed = 0, kGreen = 1, kBlue = 2;

using Colours = std::array<Plane, 3>;

Colours reconstructed(const Plane& raw) {
  Colours planes;
  planes.fill(Plane{raw.columns, raw.rows});
  std::vector<float> row(3 * static_cast<size_t>(raw.columns));
  for (int y = 0; y < raw.rows; ++y) {
    reconstruct_row(raw, y, row);
    for (int x = 0; x < raw.columns; ++x)
      for (size_t c = 0; c < 3; ++c) planes.at(c).at[raw.index(x, y)] = row[3 * static_cast<size_t>(x) + c];
  }
  return planes;
}

Plane plane_of(int columns, int rows, const std::function<double(int column, int row)>& value) {
  Plane plane{columns, rows};
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < columns; ++x) plane.at[plane.index(x, y)] = static_cast<float>(value(x, y));
  return plane;
}

TEST(Mosaic, ACellCollectsOnTheMeanWhatItsPixelsWouldWithout) {
  for (size_t hue = 0; hue < hues().size(); ++hue) {
    Plane plane{6, 4, 100};
    lay_mosaic(plane, std::vector<uint8_t>(plane.at.size(), static_cast<uint8_t>(hue)));
    const float sum = std::accumulate(plane.at.begin(), plane.at.end(), 0.0F);
    EXPECT_NEAR(sum / 24, 100, 1e-3) << hue;
  }
}

TEST(Mosaic, ASurfaceOfOneHueComesBackAsThatHue) {
  for (size_t hue = 0; hue < hues().size(); ++hue) {
    Plane plane{9, 7, 100};
    lay_mosaic(plane, std::vector<uint8_t>(plane.at.size(), static_cast<uint8_t>(hue)));
    const Colours back = reconstructed(plane);
    const Hue shares = shares_of(hues()[hue]);
    for (size_t c = 0; c < 3; ++c)
      for (const float value : back.at(c).at) EXPECT_NEAR(value, 100 * shares.at(c), 2e-4 * 100) << hue;
  }
}

TEST(Mosaic, ConstantDifferencesOfColourAreKeptOnASlope) {
  // What the gradient's correction is for: where colours differ by a constant, their common slope is exact.
  const auto slope = [](int x, int y) { return 50 + 3.0 * x - 2.0 * y; };
  constexpr std::array kOff{0.0, 20.0, -10.0};
  const Colours back =
      reconstructed(plane_of(24, 20, [&](int x, int y) { return slope(x, y) + kOff.at(colour_at(x, y)); }));
  for (int y = 2; y < 18; ++y)
    for (int x = 2; x < 22; ++x)
      for (size_t c = 0; c < 3; ++c)
        EXPECT_NEAR(back.at(c).at[back.at(c).index(x, y)], slope(x, y) + kOff.at(c), 1e-3) << x << ' ' << y << ' ' << c;
}

TEST(Mosaic, NoiseComesThroughByTheSquaresOfTheWeights) {
  // White noise of variance 1: each missing colour has the sum of its published weights' squares.
  std::mt19937 random{4};
  std::normal_distribution<double> normal;
  const Colours back = reconstructed(plane_of(400, 400, [&](int, int) { return normal(random); }));
  std::array<std::array<double, 3>, 4> squares{};  // by place in the cell and colour
  std::array<double, 4> count{};
  for (int y = 2; y < 398; ++y)
    for (int x = 2; x < 398; ++x) {
      const auto place = static_cast<size_t>(2 * (y % 2) + x % 2);
      ++count.at(place);
      for (size_t c = 0; c < 3; ++c)
        squares.at(place).at(c) += std::pow(static_cast<double>(back.at(c).at[back.at(c).index(x, y)]), 2);
    }
  constexpr double kGreenAtRed = 36.0 / 64, kBlueAtRed = 61.0 / 64, kRedAtGreen = 63.5 / 64;
  constexpr double kWithin = 0.025;  // four deviations of a variance from 40 000 draws, twice over
  const auto variance = [&](size_t place, size_t colour) { return squares.at(place).at(colour) / count.at(place); };
  for (const auto& [place, colour, expected] : std::vector<std::tuple<size_t, size_t, double>>{{0, kRed, 1},
                                                                                               {0, kGreen, kGreenAtRed},
                                                                                               {0, kBlue, kBlueAtRed},
                                                                                               {1, kRed, kRedAtGreen},
                                                                                               {1, kGreen, 1},
                                                                                               {1, kBlue, kRedAtGreen},
                                                                                               {2, kRed, kRedAtGreen},
                                                                                               {3, kRed, kBlueAtRed},
                                                                                               {3, kGreen, kGreenAtRed},
                                                                                               {3, kBlue, 1}})
    EXPECT_NEAR(variance(place, colour) / expected, 1, 2 * kWithin) << place << ' ' << colour;
}

/// Amplitude of a plane's rows at a frequency across, mean over the rows away from the edges.
double amplitude(const Plane& plane, double frequency) {
  double real = 0, imaginary = 0;
  int count = 0;
  for (int y = 4; y < plane.rows - 4; ++y)
    for (int x = 0; x < plane.columns; ++x) {
      const double turn = 2 * std::numbers::pi * frequency * x;
      real += static_cast<double>(plane.at[plane.index(x, y)]) * std::cos(turn);
      imaginary += static_cast<double>(plane.at[plane.index(x, y)]) * std::sin(turn);
      ++count;
    }
  return 2 * std::hypot(real, imaginary) / count;
}

TEST(Mosaic, GreyBarsFinerThanRedPixelsTurnIntoColouredOnes) {
  // Red and blue pixels lie two apart: of 0.4 cycles a pixel they tell 0.1, which green ones do not.
  constexpr int kAcross = 200;
  const auto bars = [&](double frequency) {
    return reconstructed(
        plane_of(kAcross, 40, [&](int x, int) { return 100 + 50 * std::cos(2 * std::numbers::pi * frequency * x); }));
  };
  const auto red_over_green = [&](const Colours& colours) {
    Plane off{kAcross, 40};
    for (size_t i = 0; i < off.at.size(); ++i) off.at[i] = colours[kRed].at[i] - colours[kGreen].at[i];
    return off;
  };
  EXPECT_GT(amplitude(red_over_green(bars(0.4)), 0.1), 10) << "of bars of 50";
  EXPECT_LT(amplitude(red_over_green(bars(0.1)), 0.1), 0.5) << "coarse bars stay grey";
  EXPECT_LT(amplitude(bars(0.4)[kGreen], 0.1), 0.5) << "luminance is told finer than colour";
}

TEST(Mosaic, FringesOfAGreyEdgeStayBesideIt) {
  constexpr int kEdge = 30;
  for (const double slant : {0.0, 0.1}) {
    const auto off = [&](int x, int y) { return x - kEdge - slant * (y - 20); };
    const Colours back = reconstructed(plane_of(60, 40, [&](int x, int y) { return off(x, y) < 0 ? 20.0 : 100.0; }));
    double most = 0;
    for (int y = 2; y < 38; ++y)
      for (int x = 2; x < 58; ++x) {
        const size_t at = back[0].index(x, y);
        const auto [least, largest] = std::minmax({back[kRed].at[at], back[kGreen].at[at], back[kBlue].at[at]});
        const auto fringe = static_cast<double>(largest - least);
        most = std::max(most, fringe);
        if (std::abs(off(x, y)) > 3) {
          EXPECT_LT(fringe, 1e-3) << x << " " << y;
        }
      }
    EXPECT_GT(most, 5) << "there are some";
    EXPECT_LT(most, 60) << "of an edge of 80 without any blur";
  }
}

}  // namespace
}  // namespace sightfall::walk
