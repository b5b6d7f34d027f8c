// SPDX-License-Identifier: GPL-3.0-or-later
// The picture's transfer is the kernel's: equal along an axis up to the first zero, signs beyond, directions.
#include "walk/blur.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "detail/transfer.h"

namespace sightfall::walk {
namespace {

TEST(TransferOf, IsTheProductOfTheKernelsOwnTransfers) {
  std::mt19937 random{8};
  std::uniform_real_distribution<double> share{0, 1};
  for (int i = 0; i < 500; ++i) {
    const detail::Blur blur{share(random), share(random), 3 * share(random), 3 * share(random), 0};
    const double x = share(random) * 0.5;
    const double kernel = detail::gaussian_transfer(blur.lens, x) * detail::diffraction_transfer(blur.diffraction, x) *
                          detail::disc_transfer(blur.defocus, x) * detail::sinc_transfer(blur.motion, x) *
                          detail::sinc_transfer(1, x);
    EXPECT_NEAR(std::abs(transfer_of(blur, {1, 0}, 1, true)(x, 0)), kernel, 1e-12) << i;
    EXPECT_NEAR(transfer_of(blur, {1, 0}, 3, true)(x / 3, 0), transfer_of(blur, {1, 0}, 1, true)(x, 0), 1e-12) << i;
  }
}

TEST(TransferOf, MotionBlursAlongTheMovementAlone) {
  const detail::Blur blur{.motion = 4};
  EXPECT_NEAR(transfer_of(blur, {1, 0}, 1, false)(0, 0.3), 1, 1e-12);
  EXPECT_NEAR(transfer_of(blur, {0, 1}, 1, false)(0, 0.25), 0, 1e-12);
  EXPECT_LT(transfer_of(blur, {0, 1}, 1, false)(0, 0.35), 0) << "reversed beyond the first zero";
  const detail::Blur shaken{.shake = 4};
  EXPECT_NEAR(transfer_of(shaken, {1, 0}, 1, false)(0.3, 0), 1, 1e-12) << "a pole nods";
}

TEST(ReachOf, GrowsWithEveryBlur) {
  const int still = reach_of({.lens = 0.5}, 1);
  for (const detail::Blur& more : {detail::Blur{.lens = 2}, detail::Blur{.lens = 0.5, .diffraction = 2},
                                   detail::Blur{.lens = 0.5, .defocus = 9}, detail::Blur{.lens = 0.5, .motion = 9}})
    EXPECT_GT(reach_of(more, 1), still);
  EXPECT_GE(reach_of({.lens = 0.5}, 5), 5 * (still - 1));
}

TEST(Blurred, NearAndFarEachByTheirOwnDisc) {
  // A bright line through a scene whose left half is in focus and whose right half is near.
  detail::CameraConstants camera{.focal = 6e-3, .pitch = 2e-6};
  camera.wavelength = 1e-12;
  std::array<double, detail::kInputCount> values{};
  values[static_cast<size_t>(detail::Input::kLensBlur)] = 1;
  values[static_cast<size_t>(detail::Input::kFNumber)] = 1.6;
  values[static_cast<size_t>(detail::Input::kFocus)] = 20;
  values[static_cast<size_t>(detail::Input::kDensityFactor)] = 1;
  const detail::Exposed exposed{.time = 0.01, .iris = 1};
  Plane rate{200, 80, 10}, depth{200, 80, 20};
  for (int row = 0; row < 80; ++row)
    for (int column = 100; column < 200; ++column) depth.at[depth.index(column, row)] = 2.5;
  for (int column = 0; column < 200; ++column) rate.at[rate.index(column, 40)] = 1010;
  const Plane of = blurred(rate, depth, camera, detail::Values{values}, exposed);
  detail::Seen near;
  near.depth = 2.5;
  const double disc = detail::blur_of(camera, near, detail::Values{values}, exposed).defocus;
  ASSERT_GT(disc, 3);
  // Across the line: a Gaussian, and the disc's own profile, a half circle.
  EXPECT_NEAR(of.at[of.index(30, 40)] - 10, 1000 / std::sqrt(2 * std::numbers::pi), 4);
  EXPECT_NEAR(of.at[of.index(170, 40)] - 10, 1000 * 4 / (std::numbers::pi * disc), 60);
  EXPECT_NEAR(of.at[of.index(170, 40 + static_cast<int>(disc / 2) + 4)], 10, 3);
  double left = 0, right = 0;
  for (int row = 0; row < 80; ++row) {
    left += static_cast<double>(of.at[of.index(30, row)]);
    right += static_cast<double>(of.at[of.index(170, row)]);
  }
  EXPECT_NEAR(left, 1800, 2) << "no light is lost";
  EXPECT_NEAR(right, 1800, 2);
}

}  // namespace
}  // namespace sightfall::walk
