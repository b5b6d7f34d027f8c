// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera/mask.h"

#include <gtest/gtest.h>

namespace sightfall::camera {
namespace {

TEST(Mask, CoversItsSharesOfThePicture) {
  Projector projector;
  projector.columns = 200;
  projector.rows = 100;
  const std::vector<Mask> masks{{"window", 0.25, 0.1, 0.5, 0.4}};
  const auto at = [&](double u, double v) { return masked(masks, projector, {u, v}); };
  EXPECT_TRUE(at(49.6, 9.6));  // the middle of the first pixel is at 0, its edge at -0.5
  EXPECT_FALSE(at(49.4, 9.6));
  EXPECT_FALSE(at(49.6, 9.4));
  EXPECT_TRUE(at(99.4, 39.4));
  EXPECT_FALSE(at(99.6, 39.4));
  EXPECT_FALSE(at(99.4, 39.6));
  EXPECT_FALSE(masked({}, projector, {60, 20}));
}

}  // namespace
}  // namespace sightfall::camera
