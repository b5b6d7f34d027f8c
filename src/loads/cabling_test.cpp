// SPDX-License-Identifier: GPL-3.0-or-later
// A switch, a camera, and ways between them: lengths, exposure, fill and what is said, by pencil.
#include "loads/cabling.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/test_cabling.h"

namespace sightfall::loads {
namespace {

using namespace units;
using need::Project;
using site::WayKind;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

/// The camera at the end of an L along a wall: 1 up, 30 along, and it hangs on the way.
Project l_shaped() {
  Project project = yard({20, 10});
  project.site.ways = {way("wall", {{0, 0}, {20, 0}, {20, 10}}, 3)};
  return project;
}

LaidRun first(const Project& project) { return lay(project).runs.front(); }

TEST(Cabling, ARunGoesUpAndAlongItsWay) {
  const Project project = l_shaped();
  const LaidRun run = first(project);
  EXPECT_NEAR(run.length.nominal.si(), 31, 1e-9);
  EXPECT_THAT(run.along, ElementsAre("wall"));
  EXPECT_NEAR(run.open.si(), 0, 1e-9);
  EXPECT_THAT(run.line, SizeIs(4));
}

/// From a switch in the shop to a camera on the far wall of the barn: out through the shop's own wall, which is told;
/// but a straight line through a barn in which neither end is, is no way.
TEST(Cabling, AStraightLineThroughAnotherBuildingIsDoubted) {
  Project project = yard({30, 0});
  project.site.solids = {building_of("shop", {{-5, -5}, {5, -5}, {5, 5}, {-5, 5}})};
  project.site.runs.front().surge_protected = true;
  EXPECT_EQ(first(project).held, Held::kMet);
  EXPECT_THAT(first(project).flags, Contains(HasSubstr("passes a wall of \"shop\"")));
  project.site.solids.push_back(building_of("barn", {{10, -5}, {29.9, -5}, {29.9, 5}, {10, 5}}));
  const LaidRun through = first(project);
  EXPECT_EQ(through.held, Held::kMarginal);
  EXPECT_THAT(through.flags, Contains(HasSubstr("leads through \"barn\" along no way")));
  EXPECT_THAT(through.flags, Not(Contains(HasSubstr("leads through \"shop\""))));
}

TEST(Cabling, SlackAndLoopsComeOnTop) {
  Project project = l_shaped();
  project.settings.typical.cable_slack.value = {1.03, 1.1, 1.25};
  project.settings.typical.service_loop.value = {1, 3, 6};
  const LaidRun run = first(project);
  EXPECT_NEAR(run.length.low.si(), 31 * 1.03 + 1, 1e-9);
  EXPECT_NEAR(run.length.nominal.si(), 31 * 1.1 + 3, 1e-9);
  EXPECT_NEAR(run.length.high.si(), 31 * 1.25 + 6, 1e-9);
}

TEST(Cabling, AStatedLengthReplacesAllAndTheWaysAreKept) {
  Project project = l_shaped();
  project.settings.typical.cable_slack.value = {1.03, 1.1, 1.25};
  project.site.runs.front().length = Length{37};
  const LaidRun run = first(project);
  EXPECT_EQ(run.length, Ranged<Length>::exact(Length{37}));
  EXPECT_THAT(run.along, ElementsAre("wall"));
}

TEST(Cabling, AStatedLengthShorterThanTheStraightLineIsDoubted) {
  Project project = l_shaped();
  project.site.runs.front().length = Length{22};  // the ends are 22.4 m apart
  const LaidRun run = first(project);
  EXPECT_EQ(run.held, Held::kMarginal);
  EXPECT_THAT(run.flags, Contains(HasSubstr("measure it again")));
}

TEST(Cabling, WithoutWaysTheStraightLineIsTheLowEnd) {
  Project project = yard({30, 40});
  const LaidRun run = first(project);
  EXPECT_NEAR(run.length.low.si(), 51, 1e-9);  // 50 over and 1 up
  EXPECT_NEAR(run.length.nominal.si(), 51 + 0.41 * 47, 1e-9);
  EXPECT_NEAR(run.length.high.si(), 51 + 47, 1e-9);
  EXPECT_NEAR(run.open.si(), 50, 1e-9);
  EXPECT_THAT(run.flags, Contains(HasSubstr("draw ways")));
}

TEST(Cabling, ALongPieceAlongNoWayIsFlaggedAndAShortOneIsNot) {
  Project project = l_shaped();
  project.site.mounts.front().at = {22, 10};
  EXPECT_THAT(first(project).flags, Not(Contains(HasSubstr("along no way"))));
  EXPECT_NEAR(first(project).open.si(), 2, 1e-9);
  project.site.mounts.front().at = {24, 10};
  EXPECT_THAT(first(project).flags, Contains(HasSubstr("4.0 m of it lie along no way")));
  EXPECT_NEAR(first(project).length.high.si() - first(project).length.low.si(), 1, 1e-9);
}

TEST(Cabling, APieceThroughAWallAlongNoWayIsFlagged) {
  Project project = l_shaped();
  project.site.solids = {building_of("shop", need::rectangle(-5, -5, 5, -1))};
  project.site.feeds.front().at = {0, -3};
  EXPECT_THAT(first(project).flags, Contains(HasSubstr("passes a wall of \"shop\"")));
  project.site.ways.push_back(way("tray", {{0, -3}, {0, 0}}, 3, WayKind::kTray));
  project.site.ways.back().indoors = true;
  EXPECT_THAT(first(project).flags, Not(Contains(HasSubstr("passes a wall"))));
}

TEST(Cabling, NamedWaysThatDoNotMeetAreMissedByName) {
  Project project = l_shaped();
  project.site.ways.push_back(way("fence", {{0, 30}, {20, 30}}, 1));
  project.site.runs.front().along = {"wall", "fence"};
  const LaidRun run = first(project);
  EXPECT_EQ(run.held, Held::kMissed);
  EXPECT_THAT(run.flags, Contains(HasSubstr("\"wall\" and \"fence\"")));
  EXPECT_NEAR(run.length.nominal.si(), 31, 1e-9);
}

TEST(Cabling, NamedWaysAreTakenThoughAShorterOneIsThere) {
  Project project = l_shaped();
  project.site.ways.push_back(way("short cut", {{0, 0}, {20, 10}}, 3));
  EXPECT_THAT(first(project).along, ElementsAre("short cut"));
  project.site.runs.front().along = {"wall"};
  EXPECT_THAT(first(project).along, ElementsAre("wall"));
  EXPECT_NEAR(first(project).length.nominal.si(), 31, 1e-9);
}

/// Between two buildings through a trench: 12 m of it, and 3 m up at each end.
Project two_buildings() {
  Project project = yard({0, 0});
  project.site.solids = {building_of("shop", need::rectangle(-10, -10, 1, 10)),
                         building_of("shed", need::rectangle(11, -10, 20, 10))};
  project.site.feeds = {switch_at("switch", {0, 0}, 2.4), switch_at("other", {12, 0}, 2.4)};
  project.site.ways = {way("trench", {{0, 0}, {12, 0}}, -0.6, WayKind::kTrench)};
  project.site.runs = {run_to("F1", "switch", "other")};
  return project;
}

TEST(Cabling, ATrenchBetweenTwoBuildings) {
  Project project = two_buildings();
  const LaidRun run = first(project);
  EXPECT_NEAR(run.length.nominal.si(), 3 + 12 + 3, 1e-9);
  EXPECT_TRUE(run.between_buildings);
  EXPECT_TRUE(run.outdoors);
  EXPECT_FALSE(run.in_sun);
  EXPECT_THAT(run.flags, ElementsAre(HasSubstr("from \"shop\" to \"shed\"")));
  EXPECT_EQ(run.held, Held::kMarginal);
}

TEST(Cabling, AFeedOutsideABuildingIsNotInIt) {
  Project project = two_buildings();
  project.site.feeds[1].at = {10, 0};
  EXPECT_FALSE(first(project).between_buildings);
  project.site.feeds[1].outdoors = true;
  project.site.feeds[1].at = {10.8, 0};  // it hangs on the shed
  EXPECT_TRUE(first(project).between_buildings);
}

TEST(Cabling, SunFallsOnWallsAndNotOnWhatIsShadedBuriedOrIndoors) {
  Project project = l_shaped();
  EXPECT_TRUE(first(project).in_sun);
  project.site.ways.front().shaded = true;
  EXPECT_TRUE(first(project).outdoors);
  EXPECT_FALSE(first(project).in_sun);
  project.site.ways.front().indoors = true;
  EXPECT_FALSE(first(project).outdoors);
  // A camera that hangs lower, outside: the piece down to it lies outdoors.
  project.site.ways.front().shaded = false;
  project.site.mounts.front().height = Length{2.5};
  EXPECT_TRUE(first(project).in_sun);
  project.site.solids = {building_of("hall", need::rectangle(-10, -10, 40, 40))};
  EXPECT_FALSE(first(project).outdoors);
}

TEST(Cabling, AConduitIsFilledByTheRunsThatTakeIt) {
  Project project = l_shaped();
  project.site.ways.front().kind = WayKind::kConduit;
  project.site.ways.front().bore = 20 * mm;
  project.site.mounts.push_back(need::mount_at("second", {20, 10}, 3));
  project.cameras.push_back(need::camera_on("other eye", "second"));
  project.site.runs.push_back(run_to("C2", "switch", "other eye"));
  const Cabling answer = lay(project);
  ASSERT_THAT(answer.conduits, SizeIs(1));
  EXPECT_EQ(answer.conduits.front().cables, 2);
  EXPECT_NEAR(answer.conduits.front().fill.load.nominal, 2 * 49.0 / 400, 1e-9);  // 24.5 % of 31 %
  EXPECT_EQ(answer.conduits.front().fill.held, Held::kMet);
  project.site.ways.front().bore = 15 * mm;  // 43.6 %, and 35.3 % of thin ones
  EXPECT_EQ(lay(project).conduits.front().fill.held, Held::kMissed);
  EXPECT_EQ(lay(project).held, Held::kMissed);
  // 7 mm x sqrt(2 / 0.31) x 1.1 = 19.6
  EXPECT_THAT(lay(project).conduits.front().fill.remedy, HasSubstr("a bore of 20 mm would do"));
  project.site.runs.clear();
  EXPECT_EQ(lay(project).conduits.front().cables, 0);
}

TEST(Cabling, WhatToBuyAddsUpByKind) {
  Project project = l_shaped();
  project.site.feeds.push_back(switch_at("other", {10, 0}, 3));
  project.site.feeds.push_back(switch_at("third", {5, 0}, 3));
  project.site.runs.push_back(run_to("F1", "switch", "other", "fibre"));
  project.site.runs.push_back(run_to("C2", "switch", "third"));
  const Cabling answer = lay(project);
  ASSERT_THAT(answer.to_buy, SizeIs(2));
  EXPECT_EQ(answer.to_buy[0].cable, "pairs, outdoor");
  EXPECT_EQ(answer.to_buy[0].runs, 2);
  EXPECT_NEAR(answer.to_buy[0].length.nominal.si(), 31 + 6, 1e-9);
  EXPECT_NEAR(answer.to_buy[1].length.nominal.si(), 11, 1e-9);
}

std::vector<std::string> said_of(const Cabling& answer, const std::string& about) {
  std::vector<std::string> texts;
  for (const Caution& caution : answer.cautions)
    if (caution.about == about) texts.push_back(caution.text);
  return texts;
}

TEST(Cabling, TrenchesMainsAndOverheadLinesCarryCautions) {
  Project project = two_buildings();
  project.site.ways.push_back(way("shallow", {{0, 5}, {9, 5}}, -0.2, WayKind::kTrench));
  project.site.ways.push_back(way("line", {{0, 6}, {9, 6}}, 5, WayKind::kOverhead));
  project.site.ways.push_back(way("tray", {{0, 7}, {9, 7}}, 3, WayKind::kTray));
  const Cabling answer = lay(project);
  EXPECT_THAT(said_of(answer, "trench"), ElementsAre(HasSubstr("lies 0.60 m deep:")));
  EXPECT_THAT(said_of(answer, "shallow"), ElementsAre(HasSubstr("where a spade reaches")));
  EXPECT_THAT(said_of(answer, "line"), ElementsAre(HasSubstr("clearance")));
  EXPECT_THAT(said_of(answer, "tray"), IsEmpty());
  EXPECT_THAT(said_of(answer, ""), ElementsAre(HasSubstr("apart from mains")));
}

TEST(Cabling, AWayInTheGroundTellsWhatStandsOverIt) {
  Project project = two_buildings();
  site::Solid trough = building_of("trough", {});
  trough.kind = site::SolidKind::kBox;
  trough.at = {6, 0};
  trough.size_across = trough.size_along = Length{1};
  project.site.solids.push_back(trough);
  project.site.ways.push_back(way("pipe", {{6, -5}, {6, 5}}, -0.6, WayKind::kConduit));
  project.site.ways.back().bore = Length{0.04};
  project.site.ways.push_back(way("tray", {{6, -5}, {6, 5}}, 3, WayKind::kTray));
  const auto under = Contains(HasSubstr("leads under \"trough\""));
  EXPECT_THAT(said_of(lay(project), "trench"), under);
  EXPECT_THAT(said_of(lay(project), "pipe"), under);
  EXPECT_THAT(said_of(lay(project), "tray"), Not(under));
  project.site.ways.front().indoors = true;
  EXPECT_THAT(said_of(lay(project), "trench"), Not(under)) << "on a floor it is furniture";
}

TEST(Cabling, ACameraWithoutARunIsUnknownAndNotMet) {
  Project project = l_shaped();
  project.site.mounts.push_back(need::mount_at("second", {5, 0}, 3));
  project.cameras.push_back(need::camera_on("other eye", "second"));
  const Cabling answer = lay(project);
  EXPECT_EQ(answer.held, Held::kUnknown);
  EXPECT_THAT(said_of(answer, "other eye"), Contains(HasSubstr("no run leads to it")));
  project.site.runs.clear();
  EXPECT_EQ(lay(project).held, Held::kUnknown);
  EXPECT_THAT(said_of(lay(project), ""), SizeIs(1));
}

TEST(Cabling, ATailOutdoorsIsToldUnlessABoxHoldsIt) {
  Project project = yard({20, 0});
  const auto tail = ElementsAre(AllOf(HasSubstr("tail"), HasSubstr("common practice")));
  EXPECT_THAT(said_of(lay(project), "eye"), tail);
  project.site.solids = {building_of("barn", need::rectangle(15, -5, 25, 5))};
  EXPECT_THAT(said_of(lay(project), "eye"), IsEmpty()) << "indoors";
  project.site.solids.clear();
  project.site.mounts.front().back_box = true;
  EXPECT_THAT(said_of(lay(project), "eye"), IsEmpty());
}

TEST(Cabling, APriceOfAMetreIsOfAllRunsOfTheKind) {
  Project project = yard({20, 0});
  project.site.mounts.front().height = 2 * m;
  project.site.ways = {way("eaves", {{0, 0}, {20, 0}}, 2)};
  project.site.runs.push_back(run_to("C2", "switch", "eye"));
  EXPECT_EQ(lay(project).to_buy.front().price(), std::nullopt);
  project.site.runs.back().metre_price = 1.5;
  ASSERT_THAT(lay(project).to_buy, SizeIs(1));
  EXPECT_NEAR(*lay(project).to_buy.front().price(), 2 * 20 * 1.5, 1e-9);
}

TEST(Cabling, AConduitOfMoreThanFourQuarterTurnsIsCautioned) {
  Project project = yard({20, 10});
  project.site.ways = {way("pipe", {{0, 0}, {20, 0}, {20, 10}}, 3, WayKind::kConduit)};
  project.site.ways.front().bore = 20 * mm;
  const auto turns = Contains(AllOf(Field(&Caution::about, "pipe"), Field(&Caution::text, HasSubstr("bends by"))));
  EXPECT_NEAR(lay(project).conduits.front().bends.in(deg), 90, 1e-9);
  EXPECT_THAT(lay(project).cautions, Not(turns));
  project.site.ways.front().line = {{0, 0}, {4, 0}, {4, 4}, {8, 4}, {8, 0}, {20, 0}, {20, 10}};  // five quarter turns
  EXPECT_NEAR(lay(project).conduits.front().bends.in(deg), 450, 1e-9);
  EXPECT_THAT(lay(project).cautions, turns);
}

}  // namespace
}  // namespace sightfall::loads
