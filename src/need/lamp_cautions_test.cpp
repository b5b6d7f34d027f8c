// SPDX-License-Identifier: GPL-3.0-or-later
// Bands of lamps on the mains by pencil; headlights in the lens along a straight drive.
#include "need/lamp_cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "need/frame.h"
#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;
using testing::HasSubstr;
using testing::IsEmpty;

/// Dark but for one sodium lamp on the mains over grey ground, and a camera with a shutter fixed.
Project lit_by_sodium(double shutter_s) {
  Project project = plain_project();
  project.settings.materials.ground = "grey";
  project.settings.materials.all = {{"grey", {{0.2, 0.2, 0.2}}, "test"}};
  site::Lamp lamp;
  lamp.name = "lamp";
  lamp.at = {0, 8};
  lamp.height = 5 * m;
  lamp.tilt = 90 * deg;
  lamp.light = site::LampLight::kSodium;
  lamp.lumens = 5000 * lm;
  lamp.burns = site::Burns::kAlways;
  project.site.lamps = {lamp};
  project.cameras.front().tilt = 30 * deg;
  project.cameras.front().shutter = Time{shutter_s};
  project.cameras.front().picture = camera::PictureMode::kColour;
  return project;
}

double bands(const Project& project) {
  site::Condition night;
  night.light = site::NamedLight::kDarkNight;
  const Lit lit{project, night};
  return band_depth(in_condition(station_of(project, project.cameras.front()), lit.lighting()));
}

TEST(BandDepth, IsTheSwingThatTheShutterLeaves) {
  // All the light is the lamp's, its depth 0.8 in the plain project; |sinc(100 Hz * 1/400 s)| = sin(pi/4) / (pi/4).
  EXPECT_NEAR(bands(lit_by_sodium(1.0 / 400)), 0.8 * std::sqrt(0.5) / (M_PI / 4), 0.01);
  EXPECT_NEAR(bands(lit_by_sodium(1.0 / 100)), 0, 1e-6);
}

TEST(BandDepth, FollowsTheFrequencyOfTheMains) {
  Project project = lit_by_sodium(1.0 / 120);
  EXPECT_GT(bands(project), 0.1);
  project.settings.mains = 60 * Hz;
  EXPECT_NEAR(bands(project), 0, 1e-6);
}

TEST(BandDepth, ALampMayBeStatedSteady) {
  Project project = lit_by_sodium(1.0 / 400);
  project.site.lamps.front().flicker = 0;
  EXPECT_EQ(bands(project), 0);
}

/// Of the first camera, in automatic exposure where `slowest` is given.
std::optional<Caution> bands_told(Project project, std::optional<Time> slowest, const site::Condition& condition) {
  if (slowest) {
    project.cameras.front().shutter.reset();
    project.cameras.front().slowest_shutter = slowest;
    project.site.lamps.front().lumens = 5e9 * lm;  // so bright that the shutter comes to be short
  }
  const Lit lit{project, condition};
  return band_caution(in_condition(station_of(project, project.cameras.front()), lit.lighting()), "night");
}

site::Condition dark_night() {
  site::Condition night;
  night.light = site::NamedLight::kDarkNight;
  return night;
}

TEST(BandCaution, SaysWhichShutterShowsNone) {
  const auto caution = bands_told(lit_by_sodium(1.0 / 400), Time{1.0 / 25}, dark_night());
  ASSERT_TRUE(caution);
  EXPECT_THAT(caution->text, HasSubstr("1/100 s or 1/50 s shows none"));
  EXPECT_THAT(bands_told(lit_by_sodium(1.0 / 400), Time{1.0 / 100}, dark_night())->text,
              testing::EndsWith(": 1/100 s shows none"));
  EXPECT_FALSE(bands_told(lit_by_sodium(1.0 / 400), {}, {}));
}

TEST(BandCaution, DoesNotAdviseAShutterThatIsForbidden) {
  for (const auto slowest : {std::optional<Time>{}, std::optional<Time>{Time{1.0 / 400}}}) {
    const auto caution = bands_told(lit_by_sodium(1.0 / 400), slowest, dark_night());
    ASSERT_TRUE(caution);
    EXPECT_THAT(caution->text, HasSubstr("held to 1/400 s or shorter"));
    EXPECT_THAT(caution->text, HasSubstr("lamps of steady light"));
    EXPECT_THAT(caution->text, testing::Not(HasSubstr("1/100 s")));
  }
}

/// A drive of 30 m straight at the camera, which looks north from the origin.
Project with_drive(std::vector<geom::PlanPoint> line) {
  site::Place drive;
  drive.name = "drive";
  drive.kind = site::PlaceKind::kRoute;
  drive.line = std::move(line);
  drive.speed = Speed{5};
  Need need;
  need.name = "plate";
  need.place = "drive";
  need.subject = Subject::kPlate;
  need.level = "coarse";
  return project_with(drive, need);
}

std::vector<Caution> headlights(const Project& project) {
  const site::Scene scene{project.site, site::Leaves::kOn};
  return headlight_cautions(project, stations_of(project), scene);
}

TEST(HeadlightCautions, TellForHowLongTheyShineIntoTheLens) {
  const auto all = headlights(with_drive({{0, 40}, {0, 10}}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_THAT(all.front().text, HasSubstr("for 6.0 s of each passage, whenever it is dark")) << "30 m at 5 m/s";
}

TEST(HeadlightCautions, NotOfVehiclesThatDriveAwayOrAcross) {
  EXPECT_THAT(headlights(with_drive({{0, 10}, {0, 40}})), IsEmpty());
  EXPECT_THAT(headlights(with_drive({{-20, 20}, {20, 20}})), IsEmpty());
}

TEST(HeadlightCautions, NotBehindAWallNorOfWalkers) {
  Project project = with_drive({{0, 40}, {0, 10}});
  project.site.solids = {wall_of("wall", {{-5, 5}, {5, 5}}, 4)};
  EXPECT_THAT(headlights(project), IsEmpty());
  Project walked = with_drive({{0, 40}, {0, 10}});
  walked.needs.front().subject = Subject::kFace;
  EXPECT_THAT(headlights(walked), IsEmpty());
}

TEST(HeadlightCautions, CountTheDarkHoursOfTheYear) {
  Project project = with_drive({{0, 40}, {0, 10}});
  project.site.anchor = site::Anchor{0 * deg, 0 * deg, 0 * m, Angle{0}, ""};
  // At the equator the sun's middle is up for half of the year, and refraction adds some four minutes a day.
  EXPECT_THAT(headlights(project).front().text, testing::ContainsRegex("in the 43[0-9]0 h of a year"));
}

}  // namespace
}  // namespace sightfall::need
