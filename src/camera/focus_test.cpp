// SPDX-License-Identifier: GPL-3.0-or-later
// The thin lens by pencil and by its own laws. Published rows are in tests/outside/optics_test.cpp.
#include "camera/focus.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace sightfall::camera {
namespace {

using namespace units;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
const ThinLens kNormal{50.0 * mm, 8};
const ThinLens kShort{4.0 * mm, 1.6};

TEST(BlurCircle, ByPencil) {
  // c = f^2 |d - s| / (N d (s - f)): 2500 * 5000 / (8 * 10000 * 4950) mm.
  EXPECT_NEAR(blur_circle(kNormal, 5.0 * m, 10.0 * m).in(mm), 2500.0 * 5000 / (8.0 * 10000 * 4950), 1e-12);
  EXPECT_NEAR(blur_circle(kNormal, 5.0 * m, 2.0 * m).in(mm), 2500.0 * 3000 / (8.0 * 2000 * 4950), 1e-12);
}

TEST(BlurCircle, IsNothingAtTheFocusAndGrowsAwayFromIt) {
  for (const ThinLens& lens : {kNormal, kShort}) {
    EXPECT_EQ(blur_circle(lens, 5.0 * m, 5.0 * m).si(), 0);
    double nearer = 0, farther = 0;
    for (int i = 1; i <= 40; ++i) {
      const double near = blur_circle(lens, 5.0 * m, (5.0 - 0.1 * i) * m).si();
      const double far = blur_circle(lens, 5.0 * m, (5.0 + 5.0 * i) * m).si();
      EXPECT_GT(near, nearer);
      EXPECT_GT(far, farther);
      nearer = near;
      farther = far;
    }
  }
}

TEST(BlurCircle, FollowsApertureAndFocalLength) {
  const double open = blur_circle({12.0 * mm, 2}, 1000.0 * m, 10.0 * m).si();
  EXPECT_NEAR(blur_circle({12.0 * mm, 4}, 1000.0 * m, 10.0 * m).si(), open / 2, 1e-15)
      << "half the opening, half the blur";
  EXPECT_NEAR(blur_circle({24.0 * mm, 2}, 1000.0 * m, 10.0 * m).si(), 4 * open, 1e-4 * open)
      << "far focus: by the focal length's square";
}

TEST(BlurCircle, HoldsAtInfinity) {
  const double f2_over_n = 50e-3 * 50e-3 / 8;
  EXPECT_NEAR(blur_circle(kNormal, Length{kInfinity}, 10.0 * m).si(), f2_over_n / 10, 1e-15) << "focus at infinity";
  EXPECT_NEAR(blur_circle(kNormal, 5.0 * m, Length{kInfinity}).si(), f2_over_n / (5 - 0.05), 1e-15)
      << "point at infinity";
  EXPECT_EQ(blur_circle(kNormal, Length{kInfinity}, Length{kInfinity}).si(), 0);
}

TEST(Hyperfocal, BlursAsMuchAtHalfAsAtInfinity) {
  for (const ThinLens& lens : {kNormal, kShort}) {
    const Length circle = 0.01 * mm, focus = hyperfocal(lens, circle);
    EXPECT_NEAR(blur_circle(lens, focus, Length{kInfinity}) / circle, 1, 1e-12);
    EXPECT_NEAR(blur_circle(lens, focus, focus / 2) / circle, 1, 1e-12);
  }
}

TEST(DepthOfField, BlursByTheCircleAtItsEnds) {
  const Length circle = 0.005 * mm;
  for (const ThinLens& lens : {kNormal, kShort})
    for (const double share : {0.05, 0.3, 0.9}) {
      const Length focus = share * hyperfocal(lens, circle);
      const DepthOfField field = depth_of_field(lens, focus, circle);
      EXPECT_LT(field.near, focus);
      EXPECT_GT(field.far, focus);
      EXPECT_NEAR(blur_circle(lens, focus, field.near) / circle, 1, 1e-9);
      EXPECT_NEAR(blur_circle(lens, focus, field.far) / circle, 1, 1e-9);
    }
}

TEST(DepthOfField, ReachesInfinityFromTheHyperfocalDistanceOn) {
  const Length circle = 0.01 * mm, h = hyperfocal(kNormal, circle);
  EXPECT_TRUE(std::isfinite(depth_of_field(kNormal, 0.999 * h, circle).far.si()));
  const DepthOfField at = depth_of_field(kNormal, h, circle);
  EXPECT_EQ(at.far.si(), kInfinity);
  EXPECT_NEAR(at.near / h, 0.5, 1e-12);
  for (const double times : {1.001, 1.5, 3.0}) {
    const DepthOfField beyond = depth_of_field(kNormal, times * h, circle);
    EXPECT_EQ(beyond.far.si(), kInfinity) << times;
    EXPECT_NEAR(blur_circle(kNormal, times * h, beyond.near) / circle, 1, 1e-9) << times;
  }
  const DepthOfField infinite = depth_of_field(kNormal, Length{kInfinity}, circle);
  EXPECT_EQ(infinite.far.si(), kInfinity);
  EXPECT_NEAR(blur_circle(kNormal, Length{kInfinity}, infinite.near) / circle, 1, 1e-9);
}

TEST(DepthOfField, WidensWithTheFNumber) {
  const Length circle = 0.005 * mm;
  const DepthOfField open = depth_of_field({12.0 * mm, 1.6}, 5.0 * m, circle);
  const DepthOfField closed = depth_of_field({12.0 * mm, 4}, 5.0 * m, circle);
  EXPECT_LT(closed.near, open.near);
  EXPECT_GT(closed.far, open.far);
}

}  // namespace
}  // namespace sightfall::camera
