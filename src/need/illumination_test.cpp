// SPDX-License-Identifier: GPL-3.0-or-later
// Electrons by pencil: own infrared by inverse square out and back, plate sheeting, stray light, vignetting.
#include "need/illumination.h"

#include <gtest/gtest.h>

#include <cmath>

#include "light/spectrum.h"
#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;

/// The plain camera with an infrared lamp of 10 W/sr, in a night without any other light.
struct Night {
  Project project = plain_project();
  site::Condition condition;
  Night() {
    camera::Infrared lamp;
    lamp.intensity = RadiantIntensity{10};
    lamp.half_power = 60 * deg;
    lamp.wavelength = 850 * nm;
    project.catalogue.front().infrared = lamp;
    project.settings.materials.all = {{"skin", {{0.3, 0.6, 0.5}}, "test"},
                                      {"plate sheeting", {{0.3, 0.3, 0.3}}, "test"}};
    condition.light = site::NamedLight::kDarkNight;
    condition.visibility = 200 * km;
  }
  detail::Seen at(geom::SitePoint place, Subject subject = Subject::kFace) const {
    const Lit lit{project, condition};
    const Station station = in_condition(station_of(project, project.cameras.front()), lit.lighting());
    detail::Seen seen;
    seen.density = 100;
    illuminate(station, lit.lighting(), PlaceLight{}, {subject, place, {0, -1, 0}}, seen);
    return seen;
  }
};

TEST(Illuminate, OwnInfraredByPencil) {
  const Night night;
  // 10 W/sr at 10 m: 0.1 W/m2; skin gives back 0.6; 1 / (4 * 2^2) of it reaches the sensor through 0.8 of the lens, on
  // 2.5 um squared, 0.6 * 0.35 electrons a photon.
  const double photons = 0.1 * 850e-9 / (6.62607015e-34 * 299792458);
  const double electrons = photons * 0.6 / 16 * 0.8 * 6.25e-12 * 0.6 * 0.35;
  EXPECT_NEAR(night.at({0, 10, 1.6}).own, electrons, 1e-3 * electrons);
}

TEST(Illuminate, AFaceIsOfManyTonesAndAPlateOfTwo) {
  const Night night;
  EXPECT_TRUE(night.at({0, 10, 1.6}).shaded);
  EXPECT_FALSE(night.at({0, 10, 1.6}, Subject::kPlate).shaded);
}

TEST(Illuminate, OwnInfraredFallsWithTheSquareOfTheDistance) {
  const Night night;
  EXPECT_NEAR(night.at({0, 10, 1.6}).own / night.at({0, 20, 1.6}).own, 4, 0.01);
}

TEST(Illuminate, InfraredIsStrongestInTheMiddle) {
  const Night night;
  const double middle = night.at({0, 10, 1.6}).own, aside = night.at({4, 9.165, 1.6}).own;  // as far, 23.6 degrees off
  const double beam = std::pow(std::cos(std::asin(0.4)), std::log(0.5) / std::log(std::cos(M_PI / 6)));
  const double facing = 0.9165, vignetting = std::pow(0.9165, 4);
  EXPECT_NEAR(aside / middle, beam * facing * vignetting, 1e-3);
}

TEST(Illuminate, FogTakesItOutAndBackAndGivesItsOwnLight) {
  Night night;
  const double clear = night.at({0, 20, 1.6}).own;
  EXPECT_LT(night.at({0, 20, 1.6}).own_path, 0.02 * clear);
  night.condition.visibility = 100 * m;
  const detail::Seen fog = night.at({0, 20, 1.6});
  EXPECT_NEAR(fog.own / clear, std::exp(-2 * 2.995732 * 20 / 100), 0.01);
  EXPECT_GT(fog.own_path, fog.own);
}

TEST(Illuminate, SheetingShinesBackMoreTheFartherItIsFromLampAndLens) {
  const Night night;
  const double near = night.at({0, 3, 1.6}, Subject::kPlate).own * 9,
               far = night.at({0, 30, 1.6}, Subject::kPlate).own * 900;
  EXPECT_GT(far, 2 * near) << "0.04 m between them is 0.76 degrees at 3 m, 0.08 at 30 m";
  const double matt = 0.3, largest = M_PI * 70;
  const double face = night.at({0, 30, 1.6}).own * 900 / 0.6;  // of a white surface
  EXPECT_NEAR(far / face, matt + largest / (1 + std::pow(0.04 / 30 / deg.si() / 0.5, 2)), 0.5);
}

TEST(Illuminate, ALampNearTheSubjectVeilsItWithStrayLight) {
  Night night;
  site::Lamp lamp;
  lamp.name = "behind";
  lamp.at = {1, 20};
  lamp.height = 2 * m;
  lamp.heading = 180 * deg;  // towards the camera
  lamp.lumens = 2000 * lm;
  night.project.site.lamps = {lamp};
  night.condition.lamps = {"behind"};
  const double beside = night.at({0.5, 10, 1.6}).glare, aside = night.at({-4, 10, 1.6}).glare;
  EXPECT_GT(beside, 10 * aside);
  night.condition.lamps = std::vector<std::string>{};
  EXPECT_EQ(night.at({0.5, 10, 1.6}).glare, 0);
}

TEST(RelativeIllumination, IsTheFourthPowerOfTheCosineToFortyFiveDegrees) {
  camera::Projector p;
  EXPECT_DOUBLE_EQ(relative_illumination(p, 1), 1);
  EXPECT_NEAR(relative_illumination(p, std::cos(0.5)), std::pow(std::cos(0.5), 4), 1e-12);
  EXPECT_NEAR(relative_illumination(p, 0.1), 0.25, 1e-12) << "no less beyond";
  p.mapping = camera::Mapping::kFisheye;
  EXPECT_NEAR(relative_illumination(p, std::cos(1.0)), std::cos(1.0) * std::sin(1.0), 1e-12);
}

TEST(InCondition, TurnsToMonochromeWithInfraredAfterDark) {
  Night night;
  const Station station = station_of(night.project, night.project.cameras.front());
  const Station by_night = in_condition(station, Lit{night.project, night.condition}.lighting());
  EXPECT_TRUE(by_night.monochrome);
  EXPECT_TRUE(by_night.infrared_on);
  EXPECT_TRUE(by_night.near_infrared);
  EXPECT_NEAR(by_night.constants.wavelength, 850e-9, 1e-12);
  const Station by_day = in_condition(station, Lit{night.project, {}}.lighting());
  EXPECT_FALSE(by_day.monochrome);
  EXPECT_FALSE(by_day.infrared_on);
  EXPECT_NEAR(by_day.scene_lux, 10000, 1);
  night.project.cameras.front().picture = camera::PictureMode::kColour;
  night.project.cameras.front().infrared = camera::InfraredUse::kOff;
  const Station forced = in_condition(station_of(night.project, night.project.cameras.front()),
                                      Lit{night.project, night.condition}.lighting());
  EXPECT_FALSE(forced.monochrome);
  EXPECT_FALSE(forced.infrared_on);
}

TEST(InCondition, AWallBeforeTheLampFillsTheMeter) {
  Night night;
  const auto mean = [&] {
    const Lit lit{night.project, night.condition};
    return in_condition(station_of(night.project, night.project.cameras.front()), lit.lighting())
        .constants.metering.mean();
  };
  const double open = mean();
  night.project.site.solids = {wall_of("near wall", {{0.4, 0.2}, {0.4, 3}}, 3)};
  EXPECT_GT(mean(), 20 * open);
}

TEST(Illuminate, ASharedPaneThrowsTheLampBack) {
  Night night;
  EXPECT_EQ(night.at({0, 10, 1.6}).own_glass, 0);
  night.project.catalogue.front().infrared->shared_glass = true;
  // 0.003 a square metre of 10 W/sr, as if a white wall were lit by 0.03 W/m2: 0.3 of what falls on a face at 10 m,
  // which gives back 0.6 of it.
  const detail::Seen seen = night.at({0, 10, 1.6});
  EXPECT_NEAR(seen.own_glass / seen.own, 0.3 / 0.6, 1e-3);
}

TEST(Illuminate, TellsWhatShareOfTheLightSwings) {
  Night night;
  site::Lamp lamp;
  lamp.name = "lamp";
  lamp.at = {0, 5};
  lamp.height = 4 * m;
  lamp.tilt = 60 * deg;
  lamp.lumens = 3000 * lm;
  lamp.burns = site::Burns::kAlways;
  night.project.site.lamps = {lamp};
  night.project.cameras.front().picture = camera::PictureMode::kColour;
  const Lit lit{night.project, night.condition};
  const Station station = in_condition(station_of(night.project, night.project.cameras.front()), lit.lighting());
  const geom::SitePoint place{0, 10, 1.6};
  detail::Seen seen;
  seen.density = 100;
  illuminate(station, lit.lighting(), lit.lighting().at({&place, 1}).front(), {Subject::kFace, place, {0, -1, 0}},
             seen);
  EXPECT_NEAR(seen.flicker, 0.2, 1e-3) << "the depth of an LED in the plain project: hardly any other light";
}

}  // namespace
}  // namespace sightfall::need
