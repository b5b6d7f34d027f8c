// SPDX-License-Identifier: GPL-3.0-or-later
// Lines beside, along, into, through and within a house and one with a courtyard.
#include "site/way_in_building.h"

#include <gtest/gtest.h>

namespace sightfall::site {
namespace {

using geom::PlanPoint;
using Line = std::vector<PlanPoint>;

Solid building(const char* name, geom::Outline outline) {
  Solid solid;
  solid.name = name;
  solid.outline = std::move(outline);
  return solid;
}

/// 16 m by 10 m.
Solid house() { return building("house", {{{0, 0}, {16, 0}, {16, 10}, {0, 10}}, {}}); }

/// Its courtyard is 6 m by 4 m.
Solid cloister() {
  return building("cloister", {{{20, 0}, {36, 0}, {36, 10}, {20, 10}}, {{{25, 3}, {31, 3}, {31, 7}, {25, 7}}}});
}

/// How a line lies to the house and the cloister: "" clear of both.
std::string lies(const Line& line) {
  const std::vector<Solid> solids{house(), cloister()};
  const auto entered = building_entered(line, solids);
  return entered ? entered->building->name + (entered->whole ? " within" : " through") : "";
}

TEST(WayInBuilding, KeepsClearOrRunsAlongTheWalls) {
  EXPECT_EQ(lies({{-4, -5}, {40, -5}}), "");
  EXPECT_EQ(lies({{0.1, -0.1}, {15.9, 0.2}}), "") << "along a wall, now outside of it and now within";
  EXPECT_EQ(lies({{-1, 0.29}, {17, 0.29}}), "");
  EXPECT_EQ(lies({{-1, 0.31}, {17, 0.31}}), "house through");
  EXPECT_EQ(lies({{17, -2}, {17, 12}, {19, 12}, {19, -2}}), "") << "between two buildings";
}

TEST(WayInBuilding, LeadsIntoOrThroughIt) {
  EXPECT_EQ(lies({{2, 2}, {-4, 2}}), "house through");
  EXPECT_EQ(lies({{-4, 2}, {19, 2}}), "house through");
  EXPECT_EQ(lies({{2, 2}, {14, 2}, {14, 12}}), "house through") << "its last segment leads out";
  EXPECT_EQ(lies({{-4, 5}, {40, 5}}), "house through") << "the first of two";
}

TEST(WayInBuilding, LiesWithinIt) {
  EXPECT_EQ(lies({{2, 2}, {14, 8}}), "house within");
  EXPECT_EQ(lies({{2, 2}, {0, 2}}), "house within") << "it ends in the wall";
  EXPECT_EQ(lies({{2, 2}, {-0.3, 2}}), "house within") << "it ends at the wall's outside";
  EXPECT_EQ(lies({{2, 2}, {-0.5, 2}}), "house through");
}

TEST(WayInBuilding, ACourtyardIsNotInside) {
  EXPECT_EQ(lies({{26, 4}, {30, 6}}), "");
  EXPECT_EQ(lies({{22, 5}, {28, 5}}), "cloister through");
  EXPECT_EQ(lies({{22, 1}, {34, 1}, {34, 9}}), "cloister within");
}

TEST(WayInBuilding, FindsTheFirstPlaceInside) {
  const auto at = first_inside({{-10, 5}, {20, 5}}, house().outline);
  ASSERT_TRUE(at);
  EXPECT_NEAR(at->x, 0.4, 1e-9) << "looks are 0.1 m apart from the outline's edge; at 0.3 m it is still the wall";
  EXPECT_EQ(at->y, 5);
}

TEST(WayInBuilding, AHostileLengthIsBounded) {
  EXPECT_EQ(lies({{2, 5}, {1e9, 5}}), "house through");
  EXPECT_EQ(lies({{5, 5}, {5, 5}}), "house within") << "both ends are one point";
}

}  // namespace
}  // namespace sightfall::site
