// SPDX-License-Identifier: GPL-3.0-or-later
// The smear against the verdict's formula, on bars of every frequency and strength; and the pyramid that it works in.
#include "walk/smear.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "detail/sensor.h"
#include "walk/octaves.h"

namespace sightfall::walk {
namespace {

constexpr double kMean = 400, kRead = 3, kFullScale = 4000;

Plane bars(double frequency, double amplitude, bool across = true) {
  Plane plane{256, 192};
  for (int y = 0; y < plane.rows; ++y)
    for (int x = 0; x < plane.columns; ++x)
      plane.at[plane.index(x, y)] =
          static_cast<float>(kMean + amplitude * std::cos(2 * std::numbers::pi * frequency * (across ? x : y)));
  return plane;
}

/// Amplitude at a frequency across, away from the edges.
double amplitude_of(const Plane& plane, double frequency) {
  constexpr int kEdge = 40;
  double real = 0, count = 0;
  for (int y = kEdge; y < plane.rows - kEdge; ++y)
    for (int x = kEdge; x < plane.columns - kEdge; ++x) {
      const double wave = std::cos(2 * std::numbers::pi * frequency * x);
      real += (static_cast<double>(plane.at[plane.index(x, y)]) - kMean) * wave;
      count += wave * wave;
    }
  return real / count;
}

/// Noise of one frame at the bars' mean.
double deviation() {
  return std::sqrt(detail::signal_variance(kMean, {kRead, 0, detail::output_step(kMean, kFullScale)}));
}

SmearSetting of(double smear) { return {smear, kRead, 0, kFullScale}; }

TEST(Smear, LeavesOfBarsWhatTheVerdictCountsWith) {
  for (const double frequency : {0.04, 0.06, 0.09, 0.13, 0.18, 0.25, 0.35, 0.45})
    for (const double frames : {1.0, 4.0})
      for (const double ratio : {0.5, 1.0, 2.0, 5.0}) {
        const double noise = deviation() / std::sqrt(frames), amplitude = ratio * noise;
        Plane plane = bars(frequency, amplitude);
        smear(plane, Plane{plane.columns, plane.rows, static_cast<float>(frames)}, of(1));
        EXPECT_NEAR(amplitude_of(plane, frequency) / amplitude, ratio * ratio / (ratio * ratio + 1), kSmearError)
            << frequency << " cycles a pixel, " << ratio << " times the noise of " << frames;
      }
}

TEST(Smear, TakesTheSameDownAsAcross) {
  Plane across = bars(0.15, 20, true), down = bars(0.15, 20, false);
  smear(across, Plane{across.columns, across.rows, 1}, of(1));
  smear(down, Plane{down.columns, down.rows, 1}, of(1));
  EXPECT_NEAR(across.at[across.index(100, 90)], down.at[down.index(90, 100)], 0.05);
}

TEST(Smear, LeavesLevelsSlopesAndStrongEdges) {
  Plane plane{200, 120};
  for (int y = 0; y < plane.rows; ++y)
    for (int x = 0; x < plane.columns; ++x)
      plane.at[plane.index(x, y)] = static_cast<float>(x < 100 ? 200.0 + y : 2500.0);
  const Plane before = plane;
  smear(plane, Plane{plane.columns, plane.rows, 2}, of(1));
  constexpr int kRim = 32;  // where the picture goes on mirrored, a slope has a crest
  for (int y = kRim; y < plane.rows - kRim; ++y)
    for (int x = 0; x < plane.columns; ++x) {
      const size_t at = plane.index(x, y);
      EXPECT_NEAR(plane.at[at], before.at[at], 0.2 * std::sqrt(before.at[at] / 2)) << x << " " << y;
    }
}

TEST(Smear, NothingIsTakenWithoutNoiseReduction) {
  Plane plane = bars(0.2, 5);
  const Plane before = plane;
  smear(plane, Plane{plane.columns, plane.rows, 1}, of(0));
  EXPECT_EQ(plane.at, before.at);
}

TEST(Octaves, APlaneOfOddSizeComesBackWhole) {
  for (const auto& [columns, rows] : std::vector<std::pair<int, int>>{{37, 23}, {64, 2}, {1, 5}, {2, 1}, {3, 3}}) {
    const Plane flat{columns, rows, 7};
    const Plane half = halved(flat), back = doubled(half, columns, rows);
    EXPECT_EQ(half.columns, (columns + 1) / 2);
    EXPECT_EQ(half.rows, (rows + 1) / 2);
    for (const float value : half.at) EXPECT_FLOAT_EQ(value, 7);
    for (const float value : back.at) EXPECT_FLOAT_EQ(value, 7);
    for (const float value : halved(flat, Of::kSquares).at) EXPECT_FLOAT_EQ(value, 49);
  }
}

TEST(Octaves, HalfASlopeIsTheSlopeAtEveryOtherPlace) {
  Plane slope{40, 30};
  for (int y = 0; y < slope.rows; ++y)
    for (int x = 0; x < slope.columns; ++x) slope.at[slope.index(x, y)] = static_cast<float>(3 * x - 2 * y);
  const Plane half = halved(slope), back = doubled(half, slope.columns, slope.rows);
  for (int y = 2; y < half.rows - 2; ++y)
    for (int x = 2; x < half.columns - 2; ++x) EXPECT_NEAR(half.at[half.index(x, y)], 6 * x - 4 * y, 1e-3);
  for (int y = 6; y < slope.rows - 6; ++y)
    for (int x = 6; x < slope.columns - 6; ++x) EXPECT_NEAR(back.at[back.index(x, y)], 3 * x - 2 * y, 1e-3);
}

}  // namespace
}  // namespace sightfall::walk
