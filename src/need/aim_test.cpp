// SPDX-License-Identifier: GPL-3.0-or-later
// How a camera is aimed by two points: by pencil on a small site.
#include "need/aim.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

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
  EXPECT_TRUE(aims[0].points.empty());  // the wall's ends lie outside too
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

}  // namespace
}  // namespace sightfall::need
