// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/tape.h"

#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

const std::vector<TapePoint> kPosts{{"post a", {0, 0}}, {"post b", {8, 0}}, {"post c", {60, 0}}};

site::Site site_with(std::vector<geom::PlanPoint> wall) {
  site::Site site;
  site::Solid solid;
  solid.name = "wall";
  solid.kind = site::SolidKind::kWall;
  solid.line = std::move(wall);
  solid.height = Length{2};
  solid.thickness = Length{0.2};
  site.solids.push_back(solid);
  return site;
}

std::string words_at(geom::PlanPoint mark, const site::Site& site, need::Units units = need::Units::kMetres) {
  need::Project project;
  project.site = site;
  project.settings.units = units;
  return tape_words(kPosts, site::Scene{site, site::Leaves::kOn}, mark, project);
}

TEST(Tape, TwoPointsAndASideSayWhereItIs) {
  const site::Site site = site_with({{100, 100}, {110, 100}});
  const auto mark = taped(kPosts, site::Scene{site, site::Leaves::kOn}, site.terrain, {4, 3});
  ASSERT_TRUE(mark);
  EXPECT_EQ(mark->first.name, "post a");
  EXPECT_EQ(mark->second.name, "post b");
  EXPECT_DOUBLE_EQ(mark->from_first.si(), 5);
  EXPECT_DOUBLE_EQ(mark->from_second.si(), 5);
  EXPECT_EQ(mark->side, "north");
  EXPECT_EQ(words_at({4, 3}, site), "5.0 m from post a, and 5.0 m from post b; north of the line between the two");
  // 5 m are 196.9 in.
  EXPECT_EQ(words_at({4, 3}, site, need::Units::kFeet),
            "16 ft 5 in from post a, and 16 ft 5 in from post b; north of the line between the two");
}

TEST(Tape, GoesThroughNoWall) {
  const site::Site site = site_with({{1, 1}, {3, 1}});  // between post a and the mark
  const auto mark = taped(kPosts, site::Scene{site, site::Leaves::kOn}, site.terrain, {4, 3});
  EXPECT_FALSE(mark) << "post c is beyond a tape";
  EXPECT_EQ(words_at({4, 3}, site),
            "5.0 m from post a, heading 53.1 deg from it (no two points with a free way for a tape)");
}

TEST(Tape, PointsThatShareANameAreNone) {
  need::Project project;
  site::Solid house;
  house.name = "house";
  house.outline.outer = {{0, 0}, {9, 0}, {9, 9}, {8, 9}, {8, 8.9}, {0, 8.9}};
  project.site.solids.push_back(house);
  int north_east = 0, south_west = 0;
  for (const TapePoint& point : tape_points(project)) {
    north_east += point.name == "house, north-east corner" ? 1 : 0;
    south_west += point.name == "house, south-west corner" ? 1 : 0;
  }
  EXPECT_EQ(north_east, 0);
  EXPECT_EQ(south_west, 1);
}

}  // namespace
}  // namespace sightfall::papers
