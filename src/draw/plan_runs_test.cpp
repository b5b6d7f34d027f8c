// SPDX-License-Identifier: GPL-3.0-or-later
// Cables in one line, by pencil.
#include "draw/plan_runs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "geom/polygon.h"

namespace sightfall::draw {
namespace {

using ::testing::ElementsAre;
using ::testing::SizeIs;
using namespace units;

/// A and B leave together to the east; B turns north at 6, A goes on to 10; C comes from the north into A's last part.
std::vector<PlanCable> three() {
  return {{"A", "one", {{0, 0}, {10, 0}}},
          {"B", "two", {{0, 0}, {6, 0}, {6, 5}}},
          {"C", "three", {{8, 4}, {8, 0.001}, {10, 0}}, true}};
}

TEST(PlanRuns, EachStretchHasTheCablesThatLieInIt) {
  const std::vector<PlanCable> cables = three();
  std::vector<std::string> words;
  for (const PlanStretch& stretch : stretches_of(cables)) words.push_back(stretch_words(cables, stretch));
  EXPECT_THAT(words, ElementsAre("A B", "A", "A C", "B", "C"));
}

TEST(PlanRuns, StretchesAreAsLongAsTheLinesThatTheyStandFor) {
  double drawn = 0, together = 0;
  for (const PlanStretch& stretch : stretches_of(three())) {
    drawn += geom::length(stretch.line).si();
    if (stretch.cables.size() == 2) together += geom::length(stretch.line).si();
  }
  // 10 of A, 5 of B alone, 4 of C alone; 6 of A and B, 2 of A and C.
  EXPECT_NEAR(drawn, 19, 0.01);
  EXPECT_NEAR(together, 8, 0.01);
}

TEST(PlanRuns, LinesThatOnlyCrossAreNotParted) {
  EXPECT_THAT(stretches_of({{"A", "", {{0, 0}, {10, 0}}}, {"B", "", {{5, -5}, {5, 5}}}}), SizeIs(2));
}

TEST(PlanRuns, ALineThatGoesThereAndBackIsOneStretch) {
  const auto stretches = stretches_of({{"A", "", {{0, 0}, {10, 0}, {10, 0}, {0, 0}, {0, 3}}}});
  double drawn = 0;
  for (const PlanStretch& stretch : stretches) drawn += geom::length(stretch.line).si();
  EXPECT_NEAR(drawn, 13, 1e-9);
}

TEST(PlanRuns, ManyNamesAreBrokenToLines) {
  std::vector<PlanCable> cables;
  for (const char* name : {"A", "B", "C", "D", "E", "F", "G"}) cables.push_back({name, "", {{0, 0}, {1, 0}}});
  EXPECT_EQ(stretch_words(cables, stretches_of(cables).front()), "A B C D E F\nG");
}

TEST(PlanRuns, AWayIsToldWithItsKindAndItsHeightOrDepth) {
  site::Way way;
  way.name = "yard conduit";
  way.kind = site::WayKind::kConduit;
  way.height = -0.6 * m;
  EXPECT_EQ(way_words(way, need::Units::kMetres), "yard conduit, 0.6 m deep");
  way.name = "eaves";
  way.kind = site::WayKind::kWall;
  way.height = 3.5 * m;
  EXPECT_EQ(way_words(way, need::Units::kMetres), "eaves, wall, 3.5 m up");
  way.kind = site::WayKind::kTrench;
  way.height = Length{};
  EXPECT_EQ(way_words(way, need::Units::kMetres), "eaves, trench, no depth entered");
}

TEST(PlanRuns, OnlyWaysThatACableTakesAreNamed) {
  site::Site site;
  site.ways.resize(3);
  site.ways[0].name = "a", site.ways[1].name = "b", site.ways[2].name = "c";
  EXPECT_THAT(ways_taken(site, {{"A", "", {}, false, {"c"}}, {"B", "", {}, false, {"a", "c"}}}),
              ElementsAre(&site.ways[0], &site.ways[2]));
}

}  // namespace
}  // namespace sightfall::draw
