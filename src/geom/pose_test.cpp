// SPDX-License-Identifier: GPL-3.0-or-later
// Poses: cardinal directions by pencil, orthonormal for any angles, headings there and back.
#include "geom/pose.h"

#include <gtest/gtest.h>

#include <numbers>
#include <random>

namespace sightfall::geom {
namespace {

using namespace sightfall::units;

constexpr double kNear = 1e-12;
constexpr double kTurn = 2 * std::numbers::pi;

void expect_vec(Vec3 found, Vec3 wanted) {
  EXPECT_NEAR(found.x, wanted.x, kNear);
  EXPECT_NEAR(found.y, wanted.y, kNear);
  EXPECT_NEAR(found.z, wanted.z, kNear);
}

/// The camera's right, down and axis in the site frame.
void expect_frame(const Pose& pose, Vec3 right, Vec3 down, Vec3 axis) {
  expect_vec(pose.camera_from_site.row[0], right);
  expect_vec(pose.camera_from_site.row[1], down);
  expect_vec(pose.camera_from_site.row[2], axis);
}

constexpr Vec3 kEast{1, 0, 0}, kNorth{0, 1, 0}, kUp{0, 0, 1};

TEST(Pose, LevelCameraLooksAlongItsHeading) {
  expect_frame(pose_of({}, 0.0 * deg, 0.0 * deg, 0.0 * deg), kEast, -kUp, kNorth);
  expect_frame(pose_of({}, 90.0 * deg, 0.0 * deg, 0.0 * deg), -kNorth, -kUp, kEast);
  expect_frame(pose_of({}, 180.0 * deg, 0.0 * deg, 0.0 * deg), -kEast, -kUp, -kNorth);
  expect_frame(pose_of({}, 270.0 * deg, 0.0 * deg, 0.0 * deg), kNorth, -kUp, -kEast);
}

TEST(Pose, TiltLooksDown) {
  // Straight down: the picture's top is where the camera headed, so "down" in the picture is backwards.
  expect_frame(pose_of({}, 0.0 * deg, 90.0 * deg, 0.0 * deg), kEast, -kNorth, -kUp);
  const double half = std::sqrt(0.5);
  expect_frame(pose_of({}, 0.0 * deg, 45.0 * deg, 0.0 * deg), kEast, {0, -half, -half}, {0, half, -half});
}

TEST(Pose, RollIsClockwiseInTheDirectionOfView) {
  // A quarter turn clockwise brings the picture's right edge down and its lower edge to the left.
  expect_frame(pose_of({}, 0.0 * deg, 0.0 * deg, 90.0 * deg), -kUp, -kEast, kNorth);
}

TEST(Pose, PointOnTheAxisFallsOnTheAxis) {
  const Pose pose = pose_of({3, 4, 5}, 30.0 * deg, 20.0 * deg, 10.0 * deg);
  const Vec3 axis = pose.camera_from_site.row[2];
  const SitePoint ahead = pose.eye_site + 7.0 * axis;
  expect_vec(pose.camera_from_site * (ahead - pose.eye_site), {0, 0, 7});
}

TEST(Pose, IsARotationForAnyAngles) {
  constexpr unsigned kSeed = 20;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> any{-20, 20};
  for (int i = 0; i < 1000; ++i) {
    const Mat3 turn = pose_of({}, Angle{any(random)}, Angle{any(random)}, Angle{any(random)}).camera_from_site;
    for (const Vec3& row : turn.row) EXPECT_NEAR(norm(row), 1, kNear);
    expect_vec(cross(turn.row[0], turn.row[1]), turn.row[2]);
    const Vec3 there{any(random), any(random), any(random)};
    const Vec3 back = transposed(turn) * (turn * there);
    EXPECT_NEAR(norm(back - there), 0, 1e-13 * norm(there) + kNear);
  }
}

TEST(Heading, RunsClockwiseFromNorth) {
  EXPECT_NEAR(heading_of({0, 5}).in(deg), 0, kNear);
  EXPECT_NEAR(heading_of({5, 0}).in(deg), 90, kNear);
  EXPECT_NEAR(heading_of({0, -5}).in(deg), 180, kNear);
  EXPECT_NEAR(heading_of({-5, 0}).in(deg), 270, kNear);
  EXPECT_NEAR(heading_of({-1, 1}).in(deg), 315, 1e-10);
}

TEST(Heading, ReturnsToItself) {
  for (int degrees = 0; degrees < 360; ++degrees)
    EXPECT_NEAR(heading_of(heading_vector(degrees * deg)).in(deg), degrees, 1e-10) << degrees;
}

TEST(Heading, NeverReachesAWholeTurn) {
  EXPECT_EQ(heading_of({-1e-20, 1}).si(), 0);
  EXPECT_LT(heading_of({-1e-15, 1}).in(deg), 360);
}

TEST(Heading, SmallestTurnStaysWithinHalfATurn) {
  EXPECT_NEAR(smallest_turn(350.0 * deg).in(deg), -10, 1e-10);
  EXPECT_NEAR(smallest_turn(-350.0 * deg).in(deg), 10, 1e-10);
  EXPECT_NEAR(smallest_turn(725.0 * deg).in(deg), 5, 1e-10);
  EXPECT_DOUBLE_EQ(smallest_turn(Angle{std::numbers::pi}).si(), -std::numbers::pi);
  for (const double edge : {std::nextafter(std::numbers::pi, 0), -std::numbers::pi - 1e-15}) {
    EXPECT_GE(smallest_turn(Angle{edge}).si(), -std::numbers::pi);
    EXPECT_LT(smallest_turn(Angle{edge}).si(), std::numbers::pi);
  }
  constexpr unsigned kSeed = 21;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> any{-100, 100};
  for (int i = 0; i < 1000; ++i) {
    const double angle = any(random), turned = smallest_turn(Angle{angle}).si();
    EXPECT_GE(turned, -std::numbers::pi);
    EXPECT_LT(turned, std::numbers::pi);
    const double turns = (angle - turned) / kTurn;
    EXPECT_NEAR(turns, std::round(turns), 1e-12) << angle;
  }
}

}  // namespace
}  // namespace sightfall::geom
