// SPDX-License-Identifier: GPL-3.0-or-later
// Mounts by pencil: what pulls on a fixing, what holds it, what a pole does to the picture.
#include "loads/mounting.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>

#include "loads/fixing.h"
#include "need/sway.h"
#include "need/test_project.h"
#include "site/pole.h"
#include "site/wind.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// A camera of 2 kg and 0.2 x 0.1 m, 4 m up on four fixings 0.1 m apart at an arm of 0.2 m, in 24 m/s over open land.
need::Project wall() {
  need::Project project = need::plain_project();
  project.site.mounts.front().height = Length{4};
  project.site.wind = site::Wind{24.0 * (m / s), site::TerrainCategory::kII};
  site::Fixing fixing;
  fixing.allowable = 300.0 * N;
  fixing.spread = 100.0 * mm;
  fixing.arm = 200.0 * mm;
  project.site.mounts.front().held_by = site::HeldBy::kWall;
  project.site.mounts.front().fixing = fixing;
  project.catalogue.front().ingress = "IP66";
  project.catalogue.front().mass = 2.0 * kg;
  project.catalogue.front().body = camera::Ends<Length>{200.0 * mm, 100.0 * mm};
  project.settings.typical.body_drag = need::exactly(1.2, "drag");
  project.settings.typical.wood_gravity = need::exactly(0.42, "wood");
  return project;
}

HeldMount held(const need::Project& project) { return mounting(project).mounts.front(); }

TEST(Mounting, PullsOnTheUpperFixingsAsAPencilSays) {
  const HeldMount one = held(wall());
  const double wind = gust_pressure(24.0 * (m / s), site::TerrainCategory::kII, Length{4}).in(Pa)*1.2 * 0.02;
  const double weight = 2 * 9.80665;
  EXPECT_NEAR(one.wind.nominal.in(N), wind, 1e-9);
  EXPECT_NEAR(one.moment.nominal.in(N * m), 0.2 * (weight + wind), 1e-9);
  EXPECT_NEAR(one.pull.load.nominal.in(N), 1.5 * ((weight + wind) * 0.2 / 0.1 / 2 + wind / 4), 1e-9);
  EXPECT_EQ(one.pull.held, Held::kMet);
  EXPECT_THAT(one.cameras, testing::ElementsAre("eye"));
}

/// Pencil: 20 kg, indoors, on two anchors under a ceiling: 20 x 9.80665 / 2 x 1.5 = 147.1 N on each, however short the
/// arm.
TEST(Mounting, WhatHangsUnderACeilingPullsStraightOnEachFixing) {
  need::Project project = wall();
  site::Solid shop;
  shop.outline.outer = {{-5, -5}, {5, -5}, {5, 5}, {-5, 5}};
  shop.height = Length{6};
  project.site.solids = {shop};
  project.catalogue.front().mass = 20.0 * kg;
  site::Mount& mount = project.site.mounts.front();
  mount.held_by = site::HeldBy::kCeiling;
  mount.fixing->count = 2, mount.fixing->allowable = 40.0 * N, mount.fixing->arm = 10.0 * mm;
  const HeldMount hung = held(project);
  EXPECT_NEAR(hung.pull.load.nominal.in(N), 147.1, 0.01);
  EXPECT_EQ(hung.held, Held::kMissed);
  EXPECT_EQ(hung.across.high, Force{0});
  EXPECT_EQ(hung.moment.high.si(), 0);
  EXPECT_THAT(hung.pull.rule, HasSubstr("overhead"));
  EXPECT_THAT(hung.pull.remedy, HasSubstr("another ceiling"));
  EXPECT_THAT(mounting(project).cautions, Contains(Field(&Caution::text, HasSubstr("steel cord"))));
  mount.held_by.reset();  // not said: the larger of both
  EXPECT_EQ(held(project).pull.load.nominal, hung.pull.load.nominal);
  EXPECT_THAT(held(project).pull.rule, HasSubstr("is not said"));
  mount.fixing->arm = 500.0 * mm;
  const Force larger = held(project).pull.load.nominal;
  mount.held_by = site::HeldBy::kWall;
  EXPECT_EQ(held(project).pull.load.nominal, larger);
  EXPECT_GT(larger, hung.pull.load.nominal);
}

/// Outdoors the wind turns it about the arm besides, and pulls on each.
TEST(Mounting, UnderASoffitTheWindTurnsAndTheWeightDoesNot) {
  need::Project project = wall();
  project.site.mounts.front().held_by = site::HeldBy::kCeiling;
  const HeldMount one = held(project);
  const double wind = one.wind.nominal.in(N), weight = 2 * 9.80665;
  EXPECT_NEAR(one.pull.load.nominal.in(N), 1.5 * (wind * 0.2 / 0.1 / 2 + (weight + wind) / 4), 1e-9);
  EXPECT_NEAR(one.across.nominal.in(N), 1.5 * wind / 4, 1e-9);
  EXPECT_NEAR(one.moment.nominal.in(N * m), 0.2 * wind, 1e-9);
}

TEST(Mounting, OnAWallWeightAndWindPushAcrossEachFixing) {
  const HeldMount one = held(wall());
  EXPECT_NEAR(one.across.nominal.in(N), 1.5 * (2 * 9.80665 + one.wind.nominal.in(N)) / 4, 1e-9);
}

TEST(Mounting, MoreWindALongerArmOrAHeavierCameraNeverPullLess) {
  need::Project project = wall();
  Force before = held(project).pull.load.nominal;
  const auto grows = [&] {
    const Force now = held(project).pull.load.nominal;
    EXPECT_GT(now, before);
    before = now;
  };
  project.site.wind->basic = 26.0 * (m / s), grows();
  project.site.mounts.front().fixing->arm = 250.0 * mm, grows();
  project.catalogue.front().mass = 3.0 * kg, grows();
  project.site.mounts.front().height = Length{6}, grows();
  project.site.wind->category = site::TerrainCategory::k0, grows();
  project.site.mounts.front().fixing->spread = 80.0 * mm, grows();
  project.site.mounts.front().fixing->count = 2, grows();
}

TEST(Mounting, AHeavyCameraOnAThinSoffitFallsShortAndTheRemedyIsNamed) {
  need::Project project = wall();
  project.catalogue.front().mass = 8.0 * kg;
  site::Fixing& fixing = *project.site.mounts.front().fixing;
  fixing.kind = site::FixingKind::kWoodScrew;
  fixing.allowable.reset();
  fixing.diameter = 4.0 * mm;
  fixing.depth = 9.0 * mm;
  const HeldMount thin = held(project);
  EXPECT_EQ(thin.pull.held, Held::kMissed);
  EXPECT_LT(thin.pull.margin()->in(N), 0);
  EXPECT_THAT(thin.pull.remedy, HasSubstr("masonry wall"));
  EXPECT_THAT(thin.pull.rule, HasSubstr("Wood Handbook"));
  fixing.depth = 60.0 * mm;
  EXPECT_EQ(held(project).pull.held, Held::kMet);
}

TEST(Mounting, AnUnknownWoodMakesItMarginal) {
  need::Project project = wall();
  project.settings.typical.wood_gravity.value = {0.2, 0.42, 0.9};
  site::Fixing& fixing = *project.site.mounts.front().fixing;
  fixing.kind = site::FixingKind::kLagScrew;
  fixing.allowable.reset();
  fixing.diameter = 6.0 * mm;
  fixing.depth = 3.0 * mm;
  const HeldMount one = held(project);
  EXPECT_EQ(one.pull.held, Held::kMarginal);
  EXPECT_EQ(one.pull.capacity, lag_screw_allowable(0.2, 6.0 * mm, 3.0 * mm));
  EXPECT_NEAR(one.pull.load.low.in(N), one.pull.load.high.in(N), 1e-9);  // what the wood holds pulls nothing
}

/// What a remedy says, done, holds.
TEST(Mounting, TheDepthOrTheCountThatARemedyNamesHolds) {
  need::Project project = wall();
  project.settings.typical.wood_gravity.value = {0.35, 0.42, 0.55};
  site::Fixing& fixing = *project.site.mounts.front().fixing;
  fixing.kind = site::FixingKind::kWoodScrew;
  fixing.allowable.reset();
  fixing.diameter = 4.0 * mm;
  fixing.depth = 5.0 * mm;
  const std::string remedy = held(project).pull.remedy;
  int depth = 0, count = 0;
  ASSERT_EQ(std::sscanf(remedy.c_str(), "%d mm", &depth), 1) << remedy;
  ASSERT_EQ(std::sscanf(remedy.c_str() + remedy.find("; or ") + 5, "%d like these", &count), 1) << remedy;
  fixing.depth = Length{1e-3 * depth};
  EXPECT_EQ(held(project).pull.held, Held::kMet);
  fixing.depth = Length{1e-3 * (depth - 1)};
  EXPECT_NE(held(project).pull.held, Held::kMet);
  fixing.depth = 5.0 * mm;
  fixing.count = count;
  EXPECT_EQ(held(project).pull.held, Held::kMet);
}

TEST(Mounting, OfThreeFixingsOneIsUp) {
  need::Project project = wall();
  const double both = held(project).pull.load.nominal.in(N);
  project.site.mounts.front().fixing->count = 3;
  const HeldMount three = held(project);
  EXPECT_NEAR(three.pull.load.nominal.in(N)-1.5 * three.wind.nominal.in(N) / 3,
              2 * (both - 1.5 * three.wind.nominal.in(N) / 4), 1e-9);
}

TEST(Mounting, WithoutFixingsWhatTheyMustCarryIsTold) {
  need::Project project = wall();
  project.site.mounts.front().fixing.reset();
  project.settings.typical.fixing_arm = need::exactly(0.2, "arm");
  project.settings.typical.fixing_spread = need::exactly(0.1, "spread");
  const HeldMount one = held(project);
  EXPECT_EQ(one.held, Held::kUnknown);
  EXPECT_THAT(one.pull.remedy, HasSubstr("each upper fixing must carry"));
}

TEST(Mounting, APolesBendIsToldInThePictureAndWhetherTheVerdictsCountWithIt) {
  need::Project project = wall();
  site::Mount& mount = project.site.mounts.front();
  mount.pole = site::Pole{site::PoleMaterial::kSteel, 60.3 * mm, 2.9 * mm, Length{5}};
  const Mounting answer = mounting(project);
  const PoleBend& bend = *answer.mounts.front().pole;
  EXPECT_EQ(bend.sway, need::sway_of(project, mount).amplitude);
  EXPECT_NEAR(bend.in_picture.in(px), need::kScale * bend.sway.si(), 1e-3 * need::kScale * bend.sway.si());
  EXPECT_THAT(answer.cautions, Contains(Field(&Caution::text, HasSubstr("the verdicts count with it"))));
  mount.sway = 0.001 * deg;
  EXPECT_THAT(mounting(project).cautions,
              Contains(Field(&Caution::text, HasSubstr("should with what the pole gives"))));
  mount.sway = 1.0 * deg;
  EXPECT_THAT(mounting(project).cautions, SizeIs(1));  // that it certifies nothing
}

/// Two brackets on one pole: its foot carries the wind on both, whichever of them is looked at.
TEST(Mounting, APolesFootCarriesAllThatHangsOnIt) {
  need::Project project = wall();
  project.site.mounts.front().pole = site::Pole{site::PoleMaterial::kSteel, 60.3 * mm, 2.9 * mm, Length{5}};
  const HeldMount alone = held(project);
  site::Mount other = project.site.mounts.front();
  other.name = "lower", other.height = Length{2};
  project.site.mounts.push_back(other);
  project.cameras.push_back(need::camera_on("second", "lower"));
  const Mounting both = mounting(project);
  ASSERT_THAT(both.mounts, SizeIs(2));
  EXPECT_EQ(both.mounts[0].pole->stress.load.nominal, both.mounts[1].pole->stress.load.nominal);
  const Pressure more = stress_at_foot(*other.pole, both.mounts[1].wind.nominal * Length{2});
  EXPECT_NEAR((both.mounts[0].pole->stress.load.nominal - alone.pole->stress.load.nominal) / more, 1, 1e-9);
  EXPECT_EQ(both.mounts[0].wind.nominal, alone.wind.nominal);
}

TEST(Mounting, AThinPoleIsMissed) {
  need::Project project = wall();
  project.site.mounts.front().pole = site::Pole{site::PoleMaterial::kWood, 40.0 * mm, 20.0 * mm, Length{6}};
  EXPECT_EQ(held(project).held, Held::kMissed);
}

TEST(Mounting, AThinPoleIsMissedThoughNothingIsKnownOfItsFixings) {
  need::Project project = wall();
  project.site.mounts.front().fixing.reset();
  project.site.mounts.front().pole = site::Pole{site::PoleMaterial::kWood, 40.0 * mm, 20.0 * mm, Length{6}};
  EXPECT_EQ(held(project).held, Held::kMissed);
}

/// A wind that is known within a range presses on the pole within that range, too.
TEST(Mounting, AnUnknownWindMovesThePolesStressAsItsSquare) {
  need::Project project = wall();
  project.site.wind.reset();
  project.settings.typical.wind_speed.value = {20, 24, 30};
  project.site.mounts.front().pole = site::Pole{site::PoleMaterial::kSteel, 60.3 * mm, 2.9 * mm, Length{5}};
  const Ranged<Pressure> stress = held(project).pole->stress.load;
  EXPECT_NEAR(stress.high / stress.nominal, 30. * 30 / (24 * 24), 1e-9);
  EXPECT_NEAR(stress.low / stress.nominal, 20. * 20 / (24 * 24), 1e-9);
}

TEST(Mounting, InsideABuildingThereIsNoWind) {
  need::Project project = wall();
  site::Solid shop;
  shop.outline.outer = {{-5, -5}, {5, -5}, {5, 5}, {-5, 5}};
  shop.height = Length{6};
  project.site.solids = {shop};
  const HeldMount inside = held(project);
  EXPECT_EQ(inside.wind.high, Force{0});
  EXPECT_NEAR(inside.pull.load.high.in(N), 1.5 * 2 * 9.80665 * 0.2 / 0.1 / 2, 1e-9);
  EXPECT_THAT(inside.pull.rule, HasSubstr("without wind"));
  project.site.solids.front().height = Length{3};  // on its roof
  EXPECT_GT(held(project).wind.low, Force{0});
}

TEST(Mounting, ACameraOutdoorsMustBearRain) {
  need::Project project = wall();
  EXPECT_THAT(mounting(project).exposed, IsEmpty());
  project.catalogue.front().ingress.reset();
  EXPECT_THAT(mounting(project).cautions, Contains(Field(&Caution::text, HasSubstr("states no grade against water"))));
  project.catalogue.front().ingress = "IP20";
  const Mounting answer = mounting(project);
  ASSERT_THAT(answer.exposed, SizeIs(1));
  EXPECT_THAT(answer.exposed.front().remedy, HasSubstr("a housing"));
  EXPECT_EQ(answer.held, Held::kMissed);
  site::Solid shop;
  shop.outline.outer = {{-5, -5}, {5, -5}, {5, 5}, {-5, 5}};
  shop.height = Length{6};
  project.site.solids = {shop};
  EXPECT_THAT(mounting(project).exposed, IsEmpty());
}

TEST(Mounting, MountsWithoutCamerasAreLeftOut) {
  need::Project project = wall();
  project.cameras.clear();
  EXPECT_THAT(mounting(project).mounts, IsEmpty());
}

}  // namespace
}  // namespace sightfall::loads
