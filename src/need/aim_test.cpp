// SPDX-License-Identifier: GPL-3.0-or-later
// How a camera is aimed by two points: by pencil on a small site.
#include "need/aim.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "need/landmarks.h"
#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;

site::Solid post(const std::string& name, geom::PlanPoint at, double height) {
  site::Solid solid;
  solid.kind = site::SolidKind::kBox;
  solid.name = name;
  solid.at = at;
  solid.size_across = solid.size_along = 0.1 * m;
  solid.height = Length{height};
  return solid;
}

/// `eye` at 1.6 m looks north; the picture takes in half a metre to either side at each metre.
Project posts(std::vector<site::Solid> solids) {
  Project project;
  project.settings.typical = plain_typical();
  project.catalogue = {plain_sheet()};
  project.site.mounts = {mount_at("m", {0, 0}, 1.6)};
  project.cameras = {camera_on("eye", "m")};
  project.site.solids = std::move(solids);
  return project;
}

TEST(Aim, TellsWhereTwoPostsStandInThePicture) {
  const auto aims = aims_of(posts({post("left", {-4, 10}, 1.6), post("right", {2, 10}, 1.6)}));
  ASSERT_EQ(aims.size(), 1U);
  ASSERT_EQ(aims[0].points.size(), 2U);
  const AimPoint &left = aims[0].points[0], &right = aims[0].points[1];
  EXPECT_THAT(left.name, ::testing::StartsWith("left, "));
  EXPECT_THAT(right.name, ::testing::StartsWith("right, "));
  EXPECT_NEAR(left.right, 0.5 - 0.4, 1e-3);  // tan -0.4 of +-0.5
  EXPECT_NEAR(right.right, 0.5 + 0.2, 1e-3);
  EXPECT_NEAR(left.distance.in(m), std::sqrt(116), 1e-9);
  EXPECT_NEAR(left.heading.in(deg), 360 - 21.801, 1e-3);
}

TEST(Aim, PrefersThePairThatIsWidestApart) {
  const auto aims =
      aims_of(posts({post("middle", {0.3, 10}, 1.6), post("left", {-4, 10}, 1.6), post("right", {4, 10}, 1.6)}));
  ASSERT_EQ(aims[0].points.size(), 2U);
  EXPECT_THAT(aims[0].points[0].name, ::testing::StartsWith("left"));
  EXPECT_THAT(aims[0].points[1].name, ::testing::StartsWith("right"));
}

TEST(Aim, TakesNothingThatIsHiddenOrOutOfThePicture) {
  site::Solid wall;
  wall.kind = site::SolidKind::kWall;
  wall.name = "wall";
  wall.line = {{-20, 5}, {20, 5}};
  wall.height = 3 * m;
  wall.thickness = 0.2 * m;
  const auto aims = aims_of(posts({wall, post("behind", {1, 10}, 1.6), post("beside", {9, 4}, 1.6)}));
  for (const AimPoint& point : aims[0].points) EXPECT_TRUE(point.set_down);  // the wall's ends lie outside too
}

TEST(Aim, TakesNothingThatLeavesHideInSummer) {
  Project project = posts({post("left", {-4, 10}, 1.6), post("right", {2, 10}, 1.6), post("far", {4, 12}, 1.6)});
  site::Veil hedge;
  hedge.kind = site::VeilKind::kHedge;
  hedge.name = "hedge";
  hedge.line = {{3, 11}, {4.5, 11}};
  hedge.height = 3 * m;
  hedge.thickness = 0.3 * m;
  hedge.summer = 0.1;
  const auto right_one = [&] { return aims_of(project)[0].points[1].name; };
  EXPECT_THAT(right_one(), ::testing::StartsWith("far"));
  project.site.veils = {hedge};
  EXPECT_THAT(right_one(), ::testing::StartsWith("right"));
}

TEST(Aim, AWallThatComesRoundHasSidesOfAGapForEnds) {
  site::Solid wall;
  wall.kind = site::SolidKind::kWall;
  wall.name = "plinth";
  wall.line = {{61, 52}, {66, 52}, {66, 68}, {58, 68}, {58, 52}, {60, 52}};
  EXPECT_EQ(end_name(wall, false), "plinth, east side of the gap in it");
  EXPECT_EQ(end_name(wall, true), "plinth, west side of the gap in it");
  wall.line = {{0, 0}, {3, 0}};
  EXPECT_EQ(end_name(wall, true), "plinth, east end");
}

TEST(Aim, NamesCornersByTheirSide) {
  site::Solid house;
  house.name = "house";
  house.kind = site::SolidKind::kBuilding;
  house.outline.outer = {{-2, 10}, {2, 10}, {2, 14}, {-2, 14}};
  house.height = 3 * m;
  const auto aims = aims_of(posts({house}));
  ASSERT_EQ(aims[0].points.size(), 2U);
  EXPECT_THAT(aims[0].points[0].name, ::testing::StartsWith("house, south-west corner"));
  EXPECT_THAT(aims[0].points[1].name, ::testing::StartsWith("house, south-east corner"));
}

TEST(Aim, AMountIsMeasuredFromTheNearestCorner) {
  site::Solid house;
  house.name = "house";
  house.kind = site::SolidKind::kBuilding;
  house.outline.outer = {{-9, 3}, {-4, 3}, {-4, 8}, {-9, 8}};
  house.height = 3 * m;
  const auto aims = aims_of(posts({house}));
  ASSERT_TRUE(aims[0].corner);
  EXPECT_EQ(aims[0].corner->name, "house, south-east corner");
  EXPECT_NEAR(aims[0].corner->distance.in(m), 5, 1e-12);
  EXPECT_FALSE(aims_of(posts({post("only", {0, 3}, 1)}))[0].corner);  // a post has no corner
}

TEST(Aim, TurningTheCameraMovesTheMarksByTheSameAngle) {
  Project project = posts({post("left", {-2, 10}, 1.6), post("right", {2, 10}, 1.6)});
  const auto before = aims_of(project);
  project.cameras[0].heading = 5 * deg;
  const auto after = aims_of(project);
  const auto angle = [](const AimPoint& point) { return std::atan(point.right - 0.5) * 180 / M_PI; };
  EXPECT_NEAR(angle(before[0].points[1]) - angle(after[0].points[1]), 5, 0.02);
}

TEST(Aim, TakesNothingUnderAMask) {
  Project project = posts({post("left", {-4, 10}, 1.6), post("right", {4, 10}, 1.6), post("middle", {0.5, 10}, 1.6)});
  project.cameras[0].masks = {{"mask", 0, 0, 0.3, 1}};
  const auto points = aims_of(project)[0].points;
  EXPECT_FALSE(points.empty());
  for (const AimPoint& point : points) {
    EXPECT_GT(point.right, 0.3);
    EXPECT_THAT(point.name, ::testing::Not(::testing::StartsWith("left")));
  }
}

TEST(Aim, WhereTwoStandTooCloseSomethingIsSetDown) {
  // 0.4 and 0.6 m of 10 m across, and of no height that counts.
  const Project project = posts({post("one", {0.4, 10}, 0.05), post("other", {0.6, 10}, 0.05)});
  const auto points = aims_of(project)[0].points;
  ASSERT_EQ(points.size(), 2U);
  EXPECT_EQ(points[0].set_down + points[1].set_down, 1);
  const AimPoint& down = points[0].set_down ? points[0] : points[1];
  EXPECT_NEAR(down.at.z, 0, 1e-9);
  EXPECT_GE(std::hypot(points[0].right - points[1].right, 0.75 * (points[0].down - points[1].down)), kUsefulApart);
  const double metres = down.distance.in(m);
  EXPECT_NEAR(metres, std::round(metres), 1e-9);  // a length that a tape shows
}

TEST(Aim, NothingIsSetDownBeyondTheBoundary) {
  Project project = posts({});
  ASSERT_EQ(aims_of(project)[0].points.size(), 2U);
  project.site.boundary = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
  EXPECT_TRUE(aims_of(project)[0].points.empty());
}

TEST(Aim, WhatIsTooSmallInThePictureIsNoMark) {
  // A metre of the picture that is a metre wide at each metre takes 1/110 at 110 m.
  Project project = posts({post("left", {-40, 110}, 1.6), post("right", {40, 110}, 1.6)});
  const auto points = aims_of(project)[0].points;
  EXPECT_FALSE(points.empty());
  for (const AimPoint& point : points) EXPECT_TRUE(point.set_down);
}

TEST(Aim, LookingDownThePlumbAndOneNearThingGiveTheHeading) {
  Project project = posts({post("near", {1.7, 0}, 0.1), post("far", {0, -30}, 0.1)});
  project.site.mounts[0].height = 4 * m;
  project.cameras[0].tilt = 90 * deg;
  const auto points = aims_of(project)[0].points;
  ASSERT_EQ(points.size(), 2U);
  EXPECT_EQ(points[0].name, kPlumb);
  EXPECT_NEAR(points[0].right, 0.5, 1e-3);
  EXPECT_NEAR(points[0].down, 0.5, 1e-3);
  EXPECT_THAT(points[1].name, ::testing::StartsWith("near"));
  EXPECT_GT(points[1].right, 0.5);  // east is right of a picture whose top is north
}

}  // namespace
}  // namespace sightfall::need
