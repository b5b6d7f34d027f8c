// SPDX-License-Identifier: GPL-3.0-or-later
// A camera at a face's height that looks north: windows and ground by pencil, masks that remove what they are for, and
// what they cost.
#include "loads/overlook.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "need/cautions.h"
#include "need/lit_project.h"
#include "need/test_project.h"

namespace sightfall::loads {
namespace {

using namespace units;
using need::Project;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// The camera on a post at the origin, with a face needed from 8 to 10 m before it.
Project yard() {
  Project project = need::project_with(need::zone_of("yard", need::rectangle(-1, 8, 1, 10)),
                                       need::need_of(need::Subject::kFace, "yard", "fine"));
  project.site.mounts.front().height = Length{3};
  project.cameras.front().tilt = 5.0 * deg;
  project.site.boundary = need::rectangle(-50, -50, 50, 200);
  return project;
}

site::Window window(double y, double facing_deg = 180) {
  site::Window window;
  window.name = "kitchen";
  window.at = {0, y};
  window.height = Length{3};
  window.width = Length{1};
  window.facing = facing_deg * deg;
  return window;
}

TEST(Overlook, AWindowIsToldAtItsDensityWithTheMaskThatRemovesIt) {
  Project project = yard();
  project.cameras.front().tilt = Angle{0};
  project.site.neighbours = {window(20)};
  const Overlook answer = overlook(need::LitProject{project}, false);
  ASSERT_THAT(answer.things, SizeIs(1));
  const Overlooked& thing = answer.things.front();
  EXPECT_EQ(thing.window, "kitchen");
  EXPECT_NEAR(thing.density.in(px / m), need::kScale / 19.95, 0.01);  // 5 cm before the wall
  // Half a metre to either side at 19.95 m: 50.1 px of 2000, and a hundredth beyond.
  EXPECT_NEAR(thing.mask.left, 0.5 - 0.0251 - 0.01, 1e-3);
  EXPECT_NEAR(thing.mask.right, 0.5 + 0.0251 + 0.01, 1e-3);
  EXPECT_EQ(answer.held, Held::kMarginal);
  EXPECT_THAT(answer.cautions.front().text, HasSubstr("law and courtesy both count here"));

  project.cameras.front().masks = {thing.mask};
  EXPECT_THAT(overlook(need::LitProject{project}, false).things, IsEmpty());
}

TEST(Overlook, TellsTheDensityThatTheCheckTells) {
  Project project = yard();
  project.site.neighbours = {window(20, 140)};  // seen aslant: one edge is nearer than the middle
  project.site.neighbours.front().width = Length{3};
  const Overlook answer = overlook(need::LitProject{project}, false);
  ASSERT_THAT(answer.things, SizeIs(1));
  const std::string told = fmt::format(" at {:.0f} px/m", answer.things.front().density.in(px / m));
  const auto cautions = need::cautions_of(project, need::stations_of(project));
  EXPECT_THAT(cautions, ::testing::Contains(::testing::Field(&need::Caution::text, HasSubstr("\"kitchen\"" + told))));
}

TEST(Overlook, AWindowOfWhichOneCornerIsSeenIsTold) {
  Project project = yard();
  project.site.neighbours = {window(20)};
  project.site.solids = {need::wall_of("wall", {{-3, 10}, {0.2, 10}}, 8)};
  EXPECT_THAT(overlook(need::LitProject{project}, false).things, SizeIs(1));
  project.site.solids = {need::wall_of("wall", {{-3, 10}, {3, 10}}, 8)};
  EXPECT_THAT(overlook(need::LitProject{project}, false).things, IsEmpty());
}

TEST(Overlook, AWindowThatFacesAwayIsNotTold) {
  Project project = yard();
  project.site.neighbours = {window(20, 0)};
  EXPECT_THAT(overlook(need::LitProject{project}, false).things, IsEmpty());
}

/// Beyond y = 20 the ground of the picture, as far as the lowest level: a trapezoid whose area a pencil gives.
TEST(Overlook, GroundBeyondTheBoundaryIsToldWithItsAreaAndDensity) {
  Project project = yard();
  project.site.boundary = need::rectangle(-50, -50, 50, 20);
  project.settings.levels.levels = {{"coarse", PixelDensity{50}}};
  const Overlook answer = overlook(need::LitProject{project}, false);
  ASSERT_THAT(answer.things, SizeIs(1));
  const Overlooked& thing = answer.things.front();
  EXPECT_TRUE(thing.window.empty());
  // Upright, at 20 m along the ground from a lens 3 m up: a little under 2000 / 20.
  EXPECT_NEAR(thing.density.in(px / m), 98, 3);
  // The picture is as wide as a point is deep, 0.996 y + 0.26 m at 5 degrees of tilt, out to where 2000 px reach
  // 50 px/m, y = 39.8 m; a cell there is 1.7 m long.
  EXPECT_NEAR(thing.area.in(m2), 0.498 * (39.8 * 39.8 - 20 * 20) + 0.26 * 19.8, 0.03 * 595);
  project.cameras.front().masks = {thing.mask};
  EXPECT_THAT(overlook(need::LitProject{project}, false).things, IsEmpty());
}

TEST(Overlook, WithoutABoundaryTheGroundIsNotTold) {
  Project project = yard();
  project.site.boundary.clear();
  const Overlook answer = overlook(need::LitProject{project}, false);
  EXPECT_TRUE(answer.no_boundary);
  EXPECT_THAT(answer.things, IsEmpty());
}

TEST(Overlook, AMaskOverWhatIsNeededCostsTheNeed) {
  Project project = yard();
  project.site.neighbours = {window(11)};  // behind the yard, at the faces' height in the picture
  project.site.neighbours.front().height = Length{1.6};
  project.site.neighbours.front().width = Length{4};
  const Overlook answer = overlook(need::LitProject{project}, true);
  ASSERT_THAT(answer.things, SizeIs(1));
  EXPECT_TRUE(answer.things.front().judged);
  ASSERT_THAT(answer.things.front().costs, SizeIs(1));
  const MaskCost& cost = answer.things.front().costs.front();
  EXPECT_EQ(cost.before, need::Answer::kMet);
  EXPECT_EQ(cost.after, need::Answer::kMissed);
  EXPECT_LT(cost.share_after, cost.share_before);
}

/// Little is asked of the share, so the need stays met; what is behind the mask is lost all the same.
TEST(Overlook, AMaskThatLeavesTheVerdictTellsWhatShareAndWorstPlaceLose) {
  Project project = yard();
  project.site.neighbours = {window(11)};
  project.site.neighbours.front().height = Length{1.4};
  project.site.neighbours.front().width = Length{0.5};
  project.needs.front().share = 0.01;
  const Overlook answer = overlook(need::LitProject{project}, true);
  ASSERT_THAT(answer.things, SizeIs(1));
  ASSERT_THAT(answer.things.front().costs, SizeIs(1));
  const MaskCost& cost = answer.things.front().costs.front();
  EXPECT_EQ(cost.before, need::Answer::kMet);
  EXPECT_EQ(cost.after, need::Answer::kMet);
  EXPECT_LT(cost.share_after, cost.share_before);
  EXPECT_EQ(cost.worst_after, PixelDensity{0});
  EXPECT_GT(cost.worst_before, PixelDensity{0});
}

TEST(Overlook, WhatAMaskLeavesAsItIsIsNotTold) {
  MaskCost cost{"gate", need::Answer::kMet, need::Answer::kMet, 1, 0.98, 146.0 * (px / m), PixelDensity{0}};
  EXPECT_EQ(cost_words(cost, need::Units::kMetres),
            "gate: still met, share 100 % to 98 %, worst place 146 px/m to 0 px/m");
  cost.share_after = 1;
  cost.after = need::Answer::kMissed;
  EXPECT_EQ(cost_words(cost, need::Units::kMetres), "gate: met, then missed, worst place 146 px/m to 0 px/m");
}

TEST(Overlook, AMaskBesideWhatIsNeededCostsNothing) {
  Project project = yard();
  project.site.neighbours = {window(60)};
  project.site.neighbours.front().at = {25, 60};
  const Overlook answer = overlook(need::LitProject{project}, true);
  ASSERT_THAT(answer.things, SizeIs(1));
  EXPECT_TRUE(answer.things.front().judged);
  EXPECT_THAT(answer.things.front().costs, IsEmpty());
}

}  // namespace
}  // namespace sightfall::loads
