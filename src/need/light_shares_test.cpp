// SPDX-License-Identifier: GPL-3.0-or-later
// Whose light a subject is seen by, by pencil: lamps of equal strength at equal distances share alike.
#include "need/light_shares.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;
using testing::SizeIs;

constexpr double kExponent = 4.8188;  // of a beam of 60 degrees: ln 0.5 / ln cos 30

/// An infrared lamp of the site that looks north, of so many W/sr on its axis.
site::Lamp infrared_lamp(const std::string& name, geom::PlanPoint at, double intensity) {
  site::Lamp lamp;
  lamp.name = name;
  lamp.at = at;
  lamp.height = 1.6 * m;
  lamp.light = site::LampLight::kInfrared850;
  lamp.beam = 60 * deg;
  lamp.draw = (intensity * 2 * M_PI / (kExponent + 1) / 0.35) * W;
  lamp.burns = site::Burns::kAlways;
  return lamp;
}

/// The plain camera with 10 W/sr of its own, in a night without any other light.
Project by_night() {
  Project project = plain_project();
  camera::Infrared own;
  own.intensity = RadiantIntensity{10};
  own.half_power = 60 * deg;
  own.wavelength = 850 * nm;
  project.catalogue.front().infrared = own;
  project.settings.materials.all = {{"skin", {{0.3, 0.6, 0.5}}, "test"}};
  return project;
}

/// Of a face 10 m north of the first camera that looks at it.
std::vector<LightShare> shares(const Project& project, double power = 1, bool by_day = false) {
  site::Condition condition;
  if (!by_day) condition.light = site::NamedLight::kDarkNight;
  condition.visibility = 200 * km;
  const Lit lit{project, condition};
  const std::vector<Station> stations = stations_of(project);
  const Lighting lighting = with_cameras(lit.lighting(), stations);
  const geom::SitePoint place{0, 10, 1.6};
  return light_shares(in_condition(stations.front(), lighting), lighting, lighting.at({&place, 1}).front(),
                      {Subject::kFace, place, {0, -1, 0}}, power);
}

TEST(LightShares, AnEqualLampBesideTheLensGivesHalf) {
  Project project = by_night();
  project.site.lamps = {infrared_lamp("beside", {0, 0}, 10)};
  const auto all = shares(project);
  ASSERT_THAT(all, SizeIs(2));
  EXPECT_NEAR(all[0].share, 0.5, 0.005);
  EXPECT_NEAR(all[1].share, 0.5, 0.005);
  EXPECT_LE(all[0].share + all[1].share, 1);
}

TEST(LightShares, OwnInfraredCountsAtThePowerItComesTo) {
  Project project = by_night();
  project.site.lamps = {infrared_lamp("beside", {0, 0}, 10)};
  const auto all = shares(project, 0.25);
  ASSERT_THAT(all, SizeIs(2));
  EXPECT_EQ(all[0].from, LightFrom::kLamp);
  EXPECT_EQ(all[0].name, "beside");
  EXPECT_NEAR(all[0].share, 0.8, 0.01);
  EXPECT_EQ(all[1].from, LightFrom::kOwnInfrared);
}

TEST(LightShares, FallWithTheSquareOfTheDistanceAndEndBehindAWall) {
  Project project = by_night();
  project.catalogue.front().infrared.reset();
  project.site.lamps = {infrared_lamp("far", {0, -10}, 10), infrared_lamp("near", {0, 0}, 10)};
  const auto all = shares(project);
  ASSERT_GE(all.size(), 2U);
  EXPECT_EQ(all[0].name, "near");
  EXPECT_NEAR(all[0].share / all[1].share, 4, 0.01);
  project.site.solids = {wall_of("wall", {{-3, -5}, {3, -5}}, 5)};
  for (const LightShare& one : shares(project)) EXPECT_NE(one.name, "far");
}

TEST(LightShares, NameTheCameraWhoseInfraredItIs) {
  Project project = by_night();
  project.catalogue.push_back(project.catalogue.front());
  project.catalogue.back().name = "without";
  project.catalogue.back().infrared.reset();
  project.cameras.insert(project.cameras.begin(), camera_on("watcher", "post"));
  project.cameras.front().sheet = "without";
  const auto all = shares(project);
  ASSERT_FALSE(all.empty());
  EXPECT_EQ(all.front().from, LightFrom::kOthersInfrared);
  EXPECT_EQ(all.front().name, "eye");
  EXPECT_GT(all.front().share, 0.98);
}

TEST(LightShares, ByDayAllComesFromAllRound) {
  const auto all = shares(by_night(), 1, true);
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all.front().from, LightFrom::kAllRound);
  EXPECT_NEAR(all.front().share, 1, 1e-12);
}

}  // namespace
}  // namespace sightfall::need
