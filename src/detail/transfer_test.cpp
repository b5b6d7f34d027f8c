// SPDX-License-Identifier: GPL-3.0-or-later
// Transfer functions at their limits and zeros. The published diffraction table is in tests/outside/optics_test.cpp.
#include "detail/transfer.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace sightfall::detail {
namespace {

using Transfer = double (*)(double, double);
const std::vector<Transfer> kAll{sinc_transfer, gaussian_transfer, disc_transfer, diffraction_transfer};

TEST(Transfer, IsOneWithoutWidthOrFrequency) {
  for (const Transfer transfer : kAll) {
    EXPECT_NEAR(transfer(0, 0.4), 1, 1e-12);
    EXPECT_NEAR(transfer(3, 0), 1, 1e-12);
    EXPECT_NEAR(transfer(0, 0), 1, 1e-12);
  }
}

TEST(Transfer, IsContinuousNearZero) {
  for (const Transfer transfer : kAll)
    for (const double frequency : {1e-12, 1e-9, 1e-7, 1e-6, 3.18e-7, 3.19e-7, 1e-5})
      EXPECT_NEAR(transfer(1, frequency), 1, 2e-5) << frequency;
}

TEST(Transfer, StaysWithinZeroAndOneAndDependsOnTheProduct) {
  for (const Transfer transfer : kAll)
    for (double x = 0; x < 6; x += 0.01) {
      EXPECT_GE(transfer(1, x), 0) << x;
      EXPECT_LE(transfer(1, x), 1 + 1e-12) << x;
      EXPECT_NEAR(transfer(2, x / 2), transfer(1, x), 1e-12) << x;
    }
}

TEST(Transfer, FallsUpToItsFirstZero) {
  const std::vector<double> first_zero{1, 6, 1.2196699, 1};  // of a Gaussian: none
  for (size_t i = 0; i < kAll.size(); ++i)
    for (double x = 0.01; x < first_zero[i]; x += 0.01) EXPECT_LE(kAll[i](1, x), kAll[i](1, x - 0.01)) << i << ' ' << x;
}

TEST(Sinc, ByPencil) {
  EXPECT_NEAR(sinc_transfer(1, 0.5), 2 / std::numbers::pi, 1e-12);
  EXPECT_NEAR(sinc_transfer(1, 1), 0, 1e-12);
  EXPECT_NEAR(sinc_transfer(1, 1.5), 2 / (3 * std::numbers::pi), 1e-12) << "the side lobe, as a size";
}

TEST(Gaussian, ByPencil) {
  EXPECT_NEAR(gaussian_transfer(1, 1 / (std::numbers::pi * std::numbers::sqrt2)), std::exp(-1), 1e-12);
  EXPECT_NEAR(gaussian_transfer(0.5, 0.5), std::exp(-std::numbers::pi * std::numbers::pi / 8), 1e-12);
}

TEST(Disc, ByPencil) {
  EXPECT_NEAR(disc_transfer(1, 3.8317059702 / std::numbers::pi), 0, 1e-9) << "first zero of J1";
  // 2 J1(x)/x = 1 - x^2/8 + x^4/192 - ...
  const double x = 0.1 * std::numbers::pi;
  EXPECT_NEAR(disc_transfer(1, 0.1), 1 - x * x / 8 + x * x * x * x / 192, 1e-6);
}

/// The disc's transfer as the integral over its chords: a check that shares nothing with the Bessel function.
TEST(Disc, IsTheTransformOfAUniformDisc) {
  for (const double frequency : {0.1, 0.3, 0.5, 0.9, 1.4}) {
    double sum = 0;
    constexpr int kSteps = 200000;
    for (int i = 0; i < kSteps; ++i) {
      const double t = -1 + 2 * (i + 0.5) / kSteps;  // across the disc, in radii
      sum += std::sqrt(1 - t * t) * std::cos(2 * std::numbers::pi * frequency * t / 2);
    }
    EXPECT_NEAR(disc_transfer(1, frequency), std::abs(sum * 2 / kSteps * 2 / std::numbers::pi), 1e-6) << frequency;
  }
}

/// A circular pupil's transfer is the overlap of two discs, one shifted: counted here on chords.
TEST(Diffraction, IsTheOverlapOfTwoPupils) {
  for (const double v : {0.05, 0.25, 0.5, 0.75, 0.95}) {
    double overlap = 0;
    constexpr int kSteps = 200000;
    for (int i = 0; i < kSteps; ++i) {
      const double y = -1 + 2 * (i + 0.5) / kSteps;
      overlap += std::max(0.0, 2 * std::sqrt(1 - y * y) - 2 * v);
    }
    EXPECT_NEAR(diffraction_transfer(1, v), overlap * 2 / kSteps / std::numbers::pi, 1e-6) << v;
  }
}

TEST(Diffraction, PassesNothingBeyondItsCutOff) {
  EXPECT_NEAR(diffraction_transfer(2, 0.5), 0, 1e-12);
  EXPECT_EQ(diffraction_transfer(2, 0.7), 0);
  EXPECT_EQ(diffraction_transfer(1, 1e9), 0);
  EXPECT_GT(diffraction_transfer(2, 0.499), 0);
}

}  // namespace
}  // namespace sightfall::detail
