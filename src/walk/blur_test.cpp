// SPDX-License-Identifier: GPL-3.0-or-later
// The picture's transfer is the kernel's: equal along an axis up to the first zero, signs beyond, directions.
#include "walk/blur.h"

#include <gtest/gtest.h>

#include <cmath>
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

}  // namespace
}  // namespace sightfall::walk
