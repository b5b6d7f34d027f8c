// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/mount_place.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

using ::testing::HasSubstr;

/// A house of 10 by 6 m, and a garden wall of 8 m east of it.
need::Project yard_with_house() {
  need::Project project;
  site::Solid house;
  house.name = "house";
  house.kind = site::SolidKind::kBuilding;
  house.outline.outer = {{0, 0}, {10, 0}, {10, 6}, {0, 6}};
  house.height = Length{3};
  site::Solid wall;
  wall.name = "garden wall";
  wall.kind = site::SolidKind::kWall;
  wall.line = {{20, 0}, {20, 8}};
  wall.height = Length{2};
  wall.thickness = Length{0.2};
  project.site.solids = {house, wall};
  return project;
}

std::string words_at(const need::Project& project, geom::PlanPoint at) {
  site::Mount mount;
  mount.at = at;
  return mount_place_words(project, mount, site::Scene{project.site, site::Leaves::kOn});
}

TEST(MountPlace, OnAWallItIsSoFarAlongThatWall) {
  const need::Project project = yard_with_house();
  EXPECT_EQ(words_at(project, {10.15, 2}), "2.0 m from house, south-east corner, along its east wall");
  EXPECT_EQ(words_at(project, {7, 6.4}), "3.0 m from house, north-east corner, along its north wall");
  EXPECT_EQ(words_at(project, {4, 0.1}), "4.0 m from house, south-west corner, along its south wall, inside");
  EXPECT_EQ(words_at(project, {19.8, 7}), "1.0 m from garden wall, north end, along it");
}

TEST(MountPlace, InFeetItIsToldToTheInch) {
  need::Project project = yard_with_house();
  project.settings.units = need::Units::kFeet;
  EXPECT_EQ(words_at(project, {10.15, 2.3}),
            "7 ft 7 in from house, south-east corner, along its east wall");  // 90.6 in
}

TEST(MountPlace, OnAPoleItIsFoundByTwoTapes) {
  const need::Project project = yard_with_house();
  const std::string words = words_at(project, {15, 3});
  EXPECT_THAT(words, HasSubstr(" m from "));
  EXPECT_THAT(words, HasSubstr(", and "));
  EXPECT_THAT(words, HasSubstr(" of the line between the two"));
  site::Mount mount{"pole", {15, 3}};
  mount.pole.emplace();
  EXPECT_EQ(mount_place_words(project, mount, site::Scene{project.site, site::Leaves::kOn}),
            "the pole's middle " + words);
}

TEST(MountPlace, NoTapeBeginsUnderACameraThatHasYetToBeHung) {
  need::Project project = yard_with_house();
  project.site.mounts = {{"pole", {15, 3}}, {"other pole", {13, 2}}};
  project.cameras = {{"a"}, {"b"}};
  project.cameras[0].mount = "pole", project.cameras[1].mount = "other pole";
  EXPECT_THAT(words_at(project, {15, 3}), ::testing::Not(HasSubstr("under the camera")));
}

TEST(MountPlace, AFarEndIsTakenWhereTheNearOneSharesItsName) {
  need::Project project = yard_with_house();
  // Two corners lie south-east of the middle.
  project.site.solids.front().outline.outer = {{0, 0}, {9.9, 0}, {9.9, 0.1}, {10, 0.1}, {10, 6}, {0, 6}};
  EXPECT_EQ(words_at(project, {10.1, 2}), "4.0 m from house, north-east corner, along its east wall");
}

}  // namespace
}  // namespace sightfall::papers
