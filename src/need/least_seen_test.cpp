// SPDX-License-Identifier: GPL-3.0-or-later
// The least-seen way: straight over open ground, round a wall, through the dead corner, and none where none is.
#include "need/least_seen.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

/// A yard of 40 x 40 m with a guarded store in its middle and no camera; the walker's grid steps 0.5 m.
Project yard() {
  Project project = plain_project();
  project.cameras.clear();
  project.site.boundary = rectangle(-20, -20, 20, 20);
  project.site.places = {zone_of("store", rectangle(-2, -2, 2, 2))};
  project.site.places.front().guarded = true;
  return project;
}

std::vector<LeastSeenWay> ways(const Project& project) {
  const Lit day{project};
  return least_seen_ways(project, lit_stations(day.lighting(), stations_of(project)), "day", {});
}

double length_of(const std::vector<geom::PlanPoint>& way) { return geom::length(way).si(); }

TEST(LeastSeenWay, IsStraightOverOpenGround) {
  const auto found = ways(yard());
  ASSERT_EQ(found.size(), 1U);
  const LeastSeenWay& way = found.front();
  EXPECT_EQ(way.place, "store");
  EXPECT_EQ(way.condition, "day");
  EXPECT_NEAR(way.length.si(), 18, 0.51);
  EXPECT_NEAR(length_of(way.way), way.length.si(), 1e-9);
  EXPECT_NEAR(norm(way.way.back() - way.way.front()), way.length.si(), 1e-9) << "straight";
  EXPECT_EQ(way.seen.si(), 0);
  EXPECT_EQ(way.most.si(), 0);
  EXPECT_NEAR(std::max(std::abs(way.way.back().x), std::abs(way.way.back().y)), 2, 0.51) << "at the store";
}

TEST(LeastSeenWay, GoesRoundAWall) {
  Project project = yard();
  // A wall round the store with a gap of 2 m in the north, and one before the gap.
  project.site.solids = {wall_of("ring", {{-1, 6}, {-6, 6}, {-6, -6}, {6, -6}, {6, 6}, {1, 6}}, 2.5),
                         wall_of("screen", {{-8, 10}, {8, 10}}, 2.5)};
  const auto found = ways(project);
  ASSERT_EQ(found.size(), 1U);
  const auto& way = found.front().way;
  const site::Scene scene{project.site, site::Leaves::kOn};
  for (size_t i = 1; i < way.size(); ++i)
    EXPECT_GT(scene.passed({{way[i - 1].x, way[i - 1].y, 0.9}, {way[i].x, way[i].y, 0.9}}), 0);
  EXPECT_TRUE(std::any_of(way.begin(), way.end(), [](auto p) { return std::abs(p.x) <= 1 && p.y > 5.4 && p.y < 6.6; }))
      << "through the gap";
  EXPECT_GT(found.front().length.si(), 18);
}

TEST(LeastSeenWay, StepsOverWhatIsLowAndThroughVeils) {
  Project project = yard();
  project.site.solids = {wall_of("kerb", {{-6, 6}, {-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, 0.5)};
  EXPECT_NEAR(ways(project).at(0).length.si(), 18, 0.51);
  project.site.solids.clear();
  project.site.veils = {mesh_of("fence", {{-6, 6}, {-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, 2, 0.5, 0.5)};
  EXPECT_NEAR(ways(project).at(0).length.si(), 18, 0.51);
}

TEST(LeastSeenWay, IsNoneWhereThePlaceCannotBeReached) {
  Project project = yard();
  project.site.solids = {wall_of("ring", {{-6, 6}, {-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, 2.5)};
  EXPECT_TRUE(ways(project).empty());
}

TEST(LeastSeenWay, PrefersTheDeadCorner) {
  Project project = yard();
  // A camera in the south looks north over the south half: the straight way from the south is in sight.
  project.site.mounts = {mount_at("post", {0, -19}, 3)};
  project.cameras = {camera_on("eye", "post", 0, 10)};
  const LeastSeenWay way = ways(project).at(0);
  EXPECT_GT(way.way.front().y, -10) << "it does not come from where the camera looks first";
  EXPECT_LT(way.seen.si(), 18);
  // A wall along the way from the east leaves a strip behind it that no camera sees.
  project.site.solids = {wall_of("screen", {{3, -3}, {20, -3}}, 3)};
  const LeastSeenWay behind = ways(project).at(0);
  EXPECT_LT(behind.seen.si(), way.seen.si());
  EXPECT_TRUE(
      std::any_of(behind.way.begin(), behind.way.end(), [](auto p) { return p.x > 8 && p.y > -3 && p.y < 0.6; }));
}

TEST(LeastSeenWay, TellsHowMuchOfItIsSeenAndTheMostThatIsDelivered) {
  Project project = yard();
  // Cameras all round that see every step: the way is straight again and all of it is seen.
  project.site.mounts.clear();
  project.cameras.clear();
  for (int i = 0; i < 4; ++i) {
    const double angle = i * std::numbers::pi / 2;
    const std::string name = "post " + std::to_string(i);
    project.site.mounts.push_back(mount_at(name, {-60 * std::sin(angle), -60 * std::cos(angle)}, 3));
    project.cameras.push_back(camera_on("eye " + std::to_string(i), name, 90.0 * i, 2));
  }
  const LeastSeenWay way = ways(project).at(0);
  EXPECT_NEAR(way.length.si(), 18, 0.51);
  EXPECT_NEAR(way.seen.si(), way.length.si(), 1e-6);
  EXPECT_GT(way.most.si(), kScale / 80);  // at least one camera is nearer than 80 m everywhere
  EXPECT_LT(way.most.si(), kScale / 35);
}

TEST(LeastSeenWay, ALinesMiddleCountsAsReached) {
  Project project = yard();
  project.site.places = {way_of("bench", site::PlaceKind::kLine, {{-17, 12.3}, {17, 12.3}})};
  project.site.places.front().guarded = true;
  project.site.solids = {wall_of("west", {{-20, 10}, {-12, 10}, {-12, 19.9}}, 2.5),
                         wall_of("east", {{20, 10}, {12, 10}, {12, 19.9}}, 2.5)};
  // Its ends stand in walled corners that touch the boundary; from the north its middle is 7.7 m away.
  const LeastSeenWay way = ways(project).at(0);
  EXPECT_LT(way.length.si(), 8.1);
}

TEST(LeastSeenWay, ALineBehindAWallIsNotReachedThroughIt) {
  Project project = yard();
  project.site.places = {way_of("shelf", site::PlaceKind::kLine, {{-3, 0.2}, {3, 0.2}})};
  project.site.places.front().guarded = true;
  project.site.solids = {wall_of("cell", {{-5, -0.1}, {5, -0.1}, {5, 5}, {-5, 5}, {-5, -0.1}}, 2.5)};
  EXPECT_TRUE(ways(project).empty());
}

TEST(LeastSeenWay, APlaceSmallerThanAStepIsFound) {
  Project project = yard();
  project.site.places = {zone_of("safe", rectangle(0.1, 0.1, 0.4, 0.4))};
  project.site.places.front().guarded = true;
  ASSERT_EQ(ways(project).size(), 1U);
  EXPECT_NEAR(ways(project).front().length.si(), 19.75, 0.76);
}

TEST(LeastSeenWay, AsksForABoundaryAndAGuardedPlace) {
  Project project = yard();
  project.site.boundary.clear();
  EXPECT_TRUE(ways(project).empty());
  project = yard();
  project.site.places.front().guarded = false;
  EXPECT_TRUE(ways(project).empty());
}

}  // namespace
}  // namespace sightfall::need
