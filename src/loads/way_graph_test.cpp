// SPDX-License-Identifier: GPL-3.0-or-later
// Routes through small nets whose lengths a pencil gives.
#include "loads/way_graph.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>

#include "loads/test_cabling.h"

namespace sightfall::loads {
namespace {

using geom::SitePoint;
using site::WayKind;
using ::testing::ElementsAre;
using ::testing::SizeIs;

double total(const Route& route) {
  return std::accumulate(route.begin(), route.end(), 0.0,
                         [](double sum, const Leg& leg) { return sum + leg.length.si(); });
}

double drawn(const Route& route) {
  double sum = 0;
  for (const Leg& leg : route)
    for (size_t i = 1; i < leg.line.size(); ++i) sum += norm(leg.line[i] - leg.line[i - 1]);
  return sum;
}

std::vector<std::string> ways(const Route& route) {
  std::vector<std::string> names;
  for (const Leg& leg : route)
    if (leg.way != nullptr) names.push_back(leg.way->name);
  return names;
}

site::Site site_of(std::vector<site::Way> ways) {
  site::Site site;
  site.ways = std::move(ways);
  return site;
}

TEST(WayGraph, AnLOnAWallIsFollowed) {
  const site::Site site = site_of({way("wall", {{0, 1}, {20, 1}, {20, 11}}, 3)});
  const Route route = WayGraph(site).shortest({0, 0, 2}, {21, 11, 2.5});
  // Up 1 and over 1; 20 and 10 along; over 1 and down 0.5.
  EXPECT_NEAR(total(route), 2 + 30 + 1.5, 1e-12);
  EXPECT_NEAR(drawn(route), total(route), 1e-12);
  ASSERT_THAT(route, SizeIs(3));
  EXPECT_EQ(route[1].line[1], (SitePoint{20, 1, 3}));
  EXPECT_DOUBLE_EQ(route[0].over.si(), 1);
  EXPECT_EQ(route.back().line.back(), (SitePoint{21, 11, 2.5}));
}

TEST(WayGraph, ARouteIsAsLongBackwards) {
  const site::Site site = site_of({way("wall", {{0, 1}, {20, 1}}, 3), way("trench", {{10, -5}, {10, 20}}, -0.6)});
  const WayGraph graph(site);
  const Route there = graph.shortest({0, 0, 2}, {11, 18, 2}), back = graph.shortest({11, 18, 2}, {0, 0, 2});
  EXPECT_NEAR(total(there), total(back), 1e-12);
  EXPECT_EQ(back.front().line.front(), there.back().line.back());
}

TEST(WayGraph, WaysThatCrossAreJoinedWithAPieceDown) {
  const site::Site site = site_of({way("wall", {{0, 0}, {20, 0}}, 3), way("trench", {{10, -5}, {10, 20}}, -0.6)});
  const Route route = WayGraph(site).shortest({0, 0, 3}, {10, 20, -0.6});
  EXPECT_NEAR(total(route), 10 + 3.6 + 20, 1e-12);
  EXPECT_NEAR(drawn(route), total(route), 1e-12);
  EXPECT_THAT(ways(route), ElementsAre("wall", "trench"));
}

TEST(WayGraph, WaysThatComeNearAreJoinedAndOthersAreNot) {
  const auto route_with_gap = [](double gap) {
    const site::Site site = site_of({way("a", {{0, 0}, {20, 0}}, 3), way("b", {{20 + gap, 0}, {40, 0}}, 3)});
    return ways(WayGraph(site).shortest({0, 0, 3}, {40, 0, 3}));
  };
  EXPECT_THAT(route_with_gap(0.49), ElementsAre("a", "b"));
  EXPECT_THAT(route_with_gap(0.51), SizeIs(1));
}

TEST(WayGraph, TheShorterOfTwoWaysAroundIsTaken) {
  const site::Site site =
      site_of({way("around", {{0, 0}, {0, 10}, {20, 10}, {20, 0}}, 3), way("across", {{0, 4}, {20, 4}}, 3)});
  const Route route = WayGraph(site).shortest({0, 0, 3}, {20, 0, 3});
  EXPECT_NEAR(total(route), 28, 1e-12);
  EXPECT_THAT(ways(route), ElementsAre("around", "across", "around"));
}

/// The two arms of a U are 8 m apart: it is not left for the short cut across.
TEST(WayGraph, AWayIsNotLeftForAShortCutOverOpenGround) {
  const site::Site site = site_of({way("u", {{0, 0}, {0, 30}, {8, 30}, {8, 0}}, 3)});
  EXPECT_NEAR(total(WayGraph(site).shortest({0, 0, 3}, {8, 0, 3})), 68, 1e-12);
}

TEST(WayGraph, AWallIsNotPassedWhereAWayLeads) {
  site::Site site = site_of({way("wall", {{-4, 0}, {20, 0}}, 3), way("tray", {{15, 0}, {15, 2}, {2, 2}}, 3)});
  const auto from_inside = [&] { return ways(WayGraph(site).shortest({2, 2, 3}, {-4, 0, 3})); };
  EXPECT_THAT(from_inside(), ElementsAre("wall"));
  site.solids = {building_of("shop", need::rectangle(-5, 0.5, 18, 9))};
  EXPECT_THAT(from_inside(), ElementsAre("tray", "wall"));
}

/// A tray comes out of a wall; a camera hangs 1.2 m along the wall from there, 0.05 m off the way that passes it.
TEST(WayGraph, AWayThatPassesTheEndIsFollowedUpToIt) {
  const site::Site site = site_of({way("tray", {{10, 20}, {20, 20}}, 2.6), way("wall", {{20, 16}, {20, 25}}, 2.6)});
  const Route route = WayGraph(site).shortest({10, 20, 1.8}, {20.05, 21.2, 2.5});
  EXPECT_THAT(ways(route), ElementsAre("tray", "wall"));
  EXPECT_NEAR(route.back().over.si(), 0.05, 1e-12);
  EXPECT_NEAR(total(route), 0.8 + 10 + 1.2 + 0.05 + 0.1, 1e-12);
}

TEST(WayGraph, AWayThatIsNotReachedIsLeftOutAndTheOpenPieceIsKept) {
  const site::Site site = site_of({way("near", {{0, 0}, {20, 0}}, 3), way("far", {{25, 10}, {40, 10}}, 3)});
  const Route route = WayGraph(site).shortest({0, 0, 3}, {20, 10, 3});
  EXPECT_THAT(ways(route), ElementsAre("near"));
  EXPECT_NEAR(route.back().over.si(), 10, 1e-12);
  EXPECT_NEAR(total(route), 30, 1e-12);
}

TEST(WayGraph, WithoutWaysItIsOneLegUpAndOver) {
  const site::Site site;
  const Route route = WayGraph(site).shortest({0, 0, 1}, {3, 4, 3});
  ASSERT_THAT(route, SizeIs(1));
  EXPECT_EQ(route.front().way, nullptr);
  EXPECT_NEAR(total(route), 7, 1e-12);
}

TEST(WayGraph, AnOverheadWayIsLeftOnlyAtItsPoints) {
  const site::Site site = site_of({way("line", {{0, 0}, {30, 0}}, 5, WayKind::kOverhead),
                                   way("wall", {{15, -10}, {15, 10}}, 3), way("end", {{30, 0}, {30, 10}}, 3)});
  const WayGraph graph(site);
  EXPECT_THAT(graph.gap({"line", "wall"}), ::testing::Optional(std::pair<std::string, std::string>("line", "wall")));
  EXPECT_EQ(graph.gap({"line", "end"}), std::nullopt);
  // 15 m over at the middle would be 0; at its points it is 15.
  EXPECT_NEAR(graph.along({0, 0, 5}, {15, 0, 5}, {"line"}).back().over.si(), 15, 1e-12);
}

TEST(WayGraph, NamedWaysAreTakenInTheirOrder) {
  const site::Site site = site_of({way("across", {{0, 2}, {20, 2}}, 3), way("west", {{0, 0}, {0, 10}}, 3),
                                   way("north", {{0, 10}, {20, 10}}, 3), way("east", {{20, 0}, {20, 10}}, 3)});
  const WayGraph graph(site);
  const Route route = graph.along({0, 0, 3}, {20, 0, 3}, {"west", "north", "east"});
  EXPECT_THAT(ways(route), ElementsAre("west", "north", "east"));
  EXPECT_NEAR(total(route), 40, 1e-12);
  const Route back_again = graph.along({0, 0, 3}, {0, 5, 3}, {"west", "across", "west"});
  EXPECT_THAT(ways(back_again), ElementsAre("west", "across", "west"));
  EXPECT_THAT(graph.gap({"west", "west", "east"}), ::testing::Optional(::testing::Pair("west", "east")));
}

TEST(WayGraph, HeightsAreAboveTheGroundAtTheWaysPoints) {
  site::Site site = site_of({way("wall", {{0, 0}, {10, 0}}, 3)});
  site.terrain.south_west = {0, -10};
  site.terrain.step = Length{10};
  site.terrain.columns = 2;
  site.terrain.rows = 3;
  site.terrain.heights = {0, 1, 0, 1, 0, 1};
  const Route route = WayGraph(site).shortest({0, 0, 3}, {10, 0, 4});
  EXPECT_NEAR(total(route), std::sqrt(101), 1e-12);
  EXPECT_NEAR(route.back().length.si(), 0, 1e-12);
}

}  // namespace
}  // namespace sightfall::loads
