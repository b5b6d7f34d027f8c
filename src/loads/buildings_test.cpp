// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/buildings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// A shop of 10 m x 10 m with a court of 2 m x 2 m in its middle, and a canopy beside it.
site::Site shop() {
  site::Site site;
  site.solids.resize(2);
  site.solids[0].name = "shop";
  site.solids[0].outline = {{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {{{4, 4}, {6, 4}, {6, 6}, {4, 6}}}};
  site.solids[1].name = "canopy";
  site.solids[1].kind = site::SolidKind::kRoof;
  site.solids[1].outline = {{{10, 0}, {20, 0}, {20, 10}, {10, 10}}, {}};
  return site;
}

TEST(Buildings, APointIsInOneOrHangsOnOne) {
  const site::Site site = shop();
  EXPECT_EQ(building_around(site, {2, 2}), &site.solids[0]);
  EXPECT_EQ(building_around(site, {5, 5}), nullptr);
  EXPECT_EQ(building_around(site, {-0.2, 2}), nullptr);
  EXPECT_EQ(building_at(site, {-0.2, 2}), &site.solids[0]);
  EXPECT_EQ(building_at(site, {-0.4, 2}), nullptr);
  EXPECT_EQ(building_at(site, {15, 5}), nullptr);
}

TEST(Buildings, APieceIntoOneOrAcrossItPassesItsWalls) {
  EXPECT_THAT(walls_passed(shop(), {{-3, 2, 0}, {2, 2, 0}}), ElementsAre("shop"));
  EXPECT_THAT(walls_passed(shop(), {{-3, 2, 0}, {13, 2, 0}}), ElementsAre("shop"));
  EXPECT_THAT(walls_passed(shop(), {{3, 5, 0}, {7, 5, 0}}), ElementsAre("shop"));  // across the court
}

TEST(Buildings, APieceWithinOneOrBesideItPassesNone) {
  EXPECT_THAT(walls_passed(shop(), {{1, 2, 0}, {9, 2, 0}}), IsEmpty());
  EXPECT_THAT(walls_passed(shop(), {{-1, -1, 0}, {-1, 12, 0}}), IsEmpty());
  EXPECT_THAT(walls_passed(shop(), {{12, 2, 0}, {18, 2, 0}}), IsEmpty());
}

TEST(Buildings, AWallThatIsDrawnALittleAsideIsNotPassed) {
  EXPECT_THAT(walls_passed(shop(), {{-1, 2, 0}, {0.2, 2, 0}}), IsEmpty());
}

/// A trough of 3 m x 1 m and a wall of 0.4 m with a corner.
TEST(Buildings, WhatStandsOnTheGroundIsOverALineThatRunsUnderIt) {
  site::Site site;
  site::Solid trough;
  trough.name = "trough";
  trough.kind = site::SolidKind::kBox;
  trough.at = {44, 30};
  trough.size_across = Length{3};
  trough.size_along = Length{1};
  site::Solid wall;
  wall.name = "wall";
  wall.kind = site::SolidKind::kWall;
  wall.line = {{0, 0}, {30, 0}, {30, 10}};
  wall.thickness = Length{0.4};
  site.solids = {trough, wall};
  EXPECT_THAT(stands_over(site, {{44, 20}, {44, 40}}), ElementsAre("trough"));
  EXPECT_THAT(stands_over(site, {{45.4, 20}, {45.4, 40}}), ElementsAre("trough"));
  EXPECT_THAT(stands_over(site, {{45.6, 20}, {45.6, 40}}), IsEmpty());
  EXPECT_THAT(stands_over(site, {{40, 30.5}, {50, 30.5}}), IsEmpty()) << "along its edge";
  EXPECT_THAT(stands_over(site, {{29, 5}, {40, 5}, {40, 30}, {44, 30}}), ElementsAre("trough", "wall"));
  EXPECT_THAT(stands_over(site, {{0, 0.21}, {29, 0.21}}), IsEmpty());
  EXPECT_THAT(stands_over(site, {{0, 0.19}, {29, 0.19}}), ElementsAre("wall"));
  site.solids[0].heading = Angle{M_PI / 2};
  EXPECT_THAT(stands_over(site, {{45, 20}, {45, 40}}), IsEmpty()) << "turned, it is 1 m across";
  EXPECT_THAT(stands_over(site, {{40, 31}, {50, 31}}), ElementsAre("trough"));
  site.solids[0].base = Length{0.4};
  EXPECT_THAT(stands_over(site, {{40, 31}, {50, 31}}), IsEmpty()) << "hangs";
}

}  // namespace
}  // namespace sightfall::loads
