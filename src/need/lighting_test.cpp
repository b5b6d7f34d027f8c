// SPDX-License-Identifier: GPL-3.0-or-later
// Light at a place: the open sky by pencil, walls and roofs in its way, lamps by inverse square and cosine, air, what
// burns when.
#include "need/lighting.h"

#include <gtest/gtest.h>

#include <cmath>

#include "light/spectrum.h"
#include "need/frame.h"
#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;
using light::Band;

site::Condition named(site::NamedLight light) {
  site::Condition condition;
  condition.light = light;
  return condition;
}

site::Lamp lamp_at(geom::PlanPoint at, double height, double lumens) {
  site::Lamp lamp;
  lamp.name = "lamp";
  lamp.at = at;
  lamp.height = height * m;
  lamp.tilt = 90 * deg;
  lamp.lumens = lumens * lm;
  return lamp;
}

double lux_of_led(const light::PerBand& light) {
  return light[Band::kVisible] / light::photons_per_lux(light::Spectrum::kLed)[Band::kVisible];
}

PlaceLight light_at(const Project& project, const site::Condition& condition, geom::SitePoint place) {
  const Lit lit{project, condition};
  return lit.lighting().at({&place, 1}).front();
}

TEST(Lighting, OpenSkyGivesTheHorizontalAllOfItAndTheVerticalHalf) {
  const Project project = plain_project();
  const PlaceLight light = light_at(project, named(site::NamedLight::kOvercast), {0, 10, 1.6});
  EXPECT_NEAR(as_lux(light.on({0, 0, 1})), 10000, 200);
  EXPECT_NEAR(as_lux(light.on({0, -1, 0})), 5000, 150);
  EXPECT_NEAR(as_lux(light.on({1, 0, 0})), 5000, 150) << "alike all round";
  EXPECT_NEAR(as_lux(light.on({0, 0, -1})), 0, 150) << "black ground gives nothing back";
}

TEST(Lighting, GroundGivesBackItsReflectance) {
  Project project = plain_project();
  project.settings.materials.ground = "chalk";
  project.settings.materials.all = {{"chalk", {{0.5, 0.5, 0.5}}, "test"}};
  const PlaceLight light = light_at(project, named(site::NamedLight::kOvercast), {0, 10, 1.6});
  EXPECT_NEAR(as_lux(light.on({0, -1, 0})), 5000 + 0.5 * 10000 / 2, 200);
  EXPECT_NEAR(as_lux(light.on({0, 0, -1})), 5000, 200);
}

TEST(Lighting, AWallTakesTheSkyOnItsSideAway) {
  Project project = plain_project();
  project.site.solids = {wall_of("wall", {{-100, 12}, {100, 12}}, 80)};
  const PlaceLight light = light_at(project, named(site::NamedLight::kOvercast), {0, 11, 1.6});
  EXPECT_LT(as_lux(light.on({0, 1, 0})), 0.2 * as_lux(light.on({0, -1, 0})));
  EXPECT_NEAR(as_lux(light.on({0, 0, 1})), 5000, 500) << "half of the sky is left";
}

TEST(Lighting, AmpleLightIsTheSameEverywhere) {
  Project project = plain_project();
  project.site.solids = {wall_of("wall", {{-100, 12}, {100, 12}}, 80)};
  const PlaceLight light = light_at(project, {}, {0, 11, 1.6});
  for (const geom::Vec3 n : {geom::Vec3{0, 1, 0}, {0, 0, 1}, {-1, 0, 0}}) EXPECT_NEAR(as_lux(light.on(n)), 10000, 1e-6);
}

TEST(Lighting, ALampFallsWithTheSquareOfTheDistanceAndTheCosine) {
  Project project = plain_project();
  project.site.lamps = {lamp_at({0, 0}, 6, 1000)};
  site::Condition night = named(site::NamedLight::kLitNight);
  night.visibility = 200 * km;
  // A matt lamp: 1000 / pi cd along its axis, cos theta beside it.
  const double axis = 1000 / M_PI;
  EXPECT_NEAR(lux_of_led(light_at(project, night, {0, 0, 2}).on({0, 0, 1})), axis / 16, 0.01 * axis / 16);
  EXPECT_NEAR(lux_of_led(light_at(project, night, {0, 0, 4}).on({0, 0, 1})), axis / 4, 0.01 * axis / 4);
  const double slant2 = 16 + 9;
  EXPECT_NEAR(lux_of_led(light_at(project, night, {3, 0, 2}).on({0, 0, 1})), axis * (4 / 5.0) * (4 / 5.0) / slant2,
              0.01 * axis / slant2);
  EXPECT_NEAR(lux_of_led(light_at(project, night, {3, 0, 2}).on({-1, 0, 0})), axis * (4 / 5.0) * (3 / 5.0) / slant2,
              0.01 * axis / slant2);
  EXPECT_NEAR(lux_of_led(light_at(project, night, {3, 0, 2}).on({1, 0, 0})), 0, 0.01) << "turned away from it";
}

TEST(Lighting, ALampsLightThroughASphereIsItsFlux) {
  Project project = plain_project();
  project.site.lamps = {lamp_at({0, 0}, 50, 1000)};
  project.site.lamps.front().beam = 60 * deg;
  site::Condition night = named(site::NamedLight::kLitNight);
  night.visibility = 200 * km;
  const Lit lit{project, night};
  constexpr double kRadius = 5;
  double flux = 0;
  constexpr int kRings = 60, kTurns = 24;
  for (int i = 0; i < kRings; ++i)
    for (int j = 0; j < kTurns; ++j) {
      const double z = 1 - (2 * i + 1.0) / kRings, r = std::sqrt(1 - z * z), turn = 2 * M_PI * j / kTurns;
      const geom::Vec3 outward{r * std::cos(turn), r * std::sin(turn), z};
      const geom::SitePoint place = geom::SitePoint{0, 0, 50} + kRadius * outward;
      const PlaceLight light = lit.lighting().at({&place, 1}, 4).front();
      for (const Direct& one : light.direct)
        flux += lux_of_led(one.normal) * 4 * M_PI * kRadius * kRadius / (kRings * kTurns);
    }
  EXPECT_NEAR(flux, 1000, 10);
}

TEST(Lighting, LampsThrowShadows) {
  Project project = plain_project();
  project.site.lamps = {lamp_at({0, 20}, 6, 1000)};
  project.site.solids = {wall_of("wall", {{-5, 15}, {5, 15}}, 5)};
  const site::Condition night = named(site::NamedLight::kLitNight);
  EXPECT_TRUE(light_at(project, night, {0, 10, 1.6}).direct.empty());
  EXPECT_EQ(light_at(project, night, {0, 16, 1.6}).direct.size(), 1U);
}

TEST(Lighting, LampsBurnWhenTheyAreSaidTo) {
  Project project = plain_project();
  project.site.lamps = {lamp_at({0, 5}, 3, 100), lamp_at({1, 5}, 3, 100), lamp_at({2, 5}, 3, 100)};
  project.site.lamps[0].burns = site::Burns::kAfterDark;
  project.site.lamps[1].burns = site::Burns::kAlways;
  project.site.lamps[1].name = "always";
  project.site.lamps[2].burns = site::Burns::kWhenListed;
  project.site.lamps[2].name = "listed";
  const auto burning = [&](const site::Condition& condition) {
    std::string names;
    const Lit lit{project, condition};
    for (const BurningLamp& one : lit.lighting().lamps()) names += one.lamp->name + " ";
    return names;
  };
  EXPECT_EQ(burning(named(site::NamedLight::kOvercast)), "always ");
  EXPECT_EQ(burning(named(site::NamedLight::kLitNight)), "lamp always ");
  EXPECT_EQ(burning(named(site::NamedLight::kDarkNight)), "always ");
  site::Condition listed = named(site::NamedLight::kLitNight);
  listed.lamps = {"listed"};
  EXPECT_EQ(burning(listed), "listed ");
}

TEST(Lighting, FogDimsALampOnItsWay) {
  Project project = plain_project();
  project.site.lamps = {lamp_at({0, 0}, 12, 1000)};
  site::Condition clear = named(site::NamedLight::kLitNight), fog = clear;
  clear.visibility = 200 * km;
  fog.visibility = 100 * m;
  const double through = std::exp(-2.995732 * 10 / 100);
  EXPECT_NEAR(lux_of_led(light_at(project, fog, {0, 0, 2}).direct.at(0).normal) /
                  lux_of_led(light_at(project, clear, {0, 0, 2}).direct.at(0).normal),
              through, 2e-4);
}

TEST(Lighting, TheSunStandsWhereTheHourSaysAndThrowsShadows) {
  Project project = plain_project();
  project.site.anchor = site::Anchor{.latitude = 51 * deg, .time_zone = "UTC"};
  site::Condition noon;
  noon.when = site::ClockTime{2026, 6, 21, 12, 0};
  noon.julian_day = light::julian_day(2026, 6, 21, 12);
  const PlaceLight open = light_at(project, noon, {0, 10, 1.6});
  ASSERT_FALSE(open.direct.empty());
  const geom::Vec3 sun = open.direct.front().towards;  // before the moon
  EXPECT_NEAR(std::asin(sun.z) / deg.si(), 90 - 51 + 23.4, 0.2);
  EXPECT_LT(sun.y, 0) << "in the south";
  EXPECT_NEAR(sun.x, 0, 0.03);
  project.site.anchor->turn = 90 * deg;  // true north lies to the site's east, so the sun to its west
  EXPECT_LT(light_at(project, noon, {0, 10, 1.6}).direct.front().towards.x, -0.3);
  project.site.anchor->turn = Angle{0};
  project.site.solids = {wall_of("wall", {{-20, 9}, {20, 9}}, 10)};
  for (const Direct& one : light_at(project, noon, {0, 10, 1.6}).direct)
    EXPECT_LT(as_lux(one.normal), 1) << "the moon alone";
}

TEST(NightSwitch, IsHigherWhereTheLightRises) {
  Project project = plain_project();
  project.site.anchor = site::Anchor{51.5 * deg, 0 * deg, 0 * m, Angle{0}, "UTC"};
  site::Condition evening, morning;
  evening.when = site::ClockTime{2027, 3, 20, 18, 0};
  evening.julian_day = 2461485.25;  // 2027-03-20 18:00
  morning.when = site::ClockTime{2027, 3, 20, 6, 0};
  morning.julian_day = 2461484.75;
  EXPECT_EQ((Lit{project, evening}.lighting().night_switch()), 3);
  EXPECT_EQ((Lit{project, morning}.lighting().night_switch()), 6) << "twice as much turns it back";
  EXPECT_EQ((Lit{project, named(site::NamedLight::kDusk)}.lighting().night_switch()), 3);
}

/// Two cameras with infrared in a dark night, ten metres apart, the second looking along the first one's view.
Project two_with_infrared() {
  Project project = plain_project();
  camera::Infrared lamp;
  lamp.intensity = RadiantIntensity{10};
  lamp.half_power = 60 * deg;
  project.catalogue.front().infrared = lamp;
  project.site.mounts.push_back(mount_at("other post", {10, 0}, 1.6));
  project.cameras.push_back(camera_on("other", "other post", -45));
  return project;
}

TEST(WithCameras, EachLightsWhatTheOtherSeesAndNotItsOwnTwice) {
  const Project project = two_with_infrared();
  const Lit lit{project, named(site::NamedLight::kDarkNight)};
  const Lighting lighting = with_cameras(lit.lighting(), stations_of(project));
  const geom::SitePoint place{0, 10, 1.6};
  const PlaceLight light = lighting.at({&place, 1}).front();
  // The other lamp stands 14.1 m away and has the place on its axis; by inverse square through clear air.
  const double photons = light::photons_per_watt(light::Spectrum::kInfrared850)[Band::kNear850];
  const double through = lighting.transmission(std::sqrt(200.0))[Band::kNear850];
  const geom::Vec3 towards_other{std::sqrt(0.5), -std::sqrt(0.5), 0};
  EXPECT_NEAR(light.on(towards_other, 0)[Band::kNear850], photons * 10 / 200 * through, photons * 10 / 200 * 1e-3);
  EXPECT_NEAR(light.on({0, -1, 0}, 1)[Band::kNear850], photons * 10 / 100, photons * 10 / 100 * 0.01);
}

TEST(WithCameras, ManyPlacesAreLitAsEachAlone) {
  Project project = two_with_infrared();
  project.site.solids = {wall_of("wall", {{4, 4}, {6, 8}}, 2.5)};
  project.site.veils = {mesh_of("mesh", {{-5, 6}, {8, 6}}, 2, 0.6, 0.6)};
  project.site.lamps = {lamp_at({3, 12}, 4, 1000)};
  const Lit lit{project, named(site::NamedLight::kDusk)};
  const Lighting lighting = lit.lighting().with_infrared(stations_of(project));
  std::vector<SurfacePlace> places;
  for (double x = -10; x <= 10; x += 0.5)
    for (const geom::Vec3& normal : {geom::Vec3{0, 0, 1}, geom::Vec3{0, -1, 0}})
      places.push_back({{x, 9, 0.3}, normal});
  for (const int camera : {kNoCamera, 0, 1}) {
    std::vector<SurfaceLight> light = lighting.on_surfaces(places);
    lighting.add_infrared(places, camera, light);
    for (size_t i = 0; i < places.size(); ++i) {
      const SurfaceLight alone = lighting.on_surface(places[i], camera);
      for (const Band band : light::kBands)
        EXPECT_NEAR(light[i].all[band], alone.all[band], 1e-6 * alone.all[band]) << i;
    }
  }
  const std::vector<SurfaceLight> own = lighting.on_surfaces(places);
  std::vector<SurfaceLight> all = own;
  lighting.add_infrared(places, kNoCamera, all);
  EXPECT_GT(all[40].all[Band::kNear850], own[40].all[Band::kNear850]);
  EXPECT_EQ(all[40].all[Band::kVisible], own[40].all[Band::kVisible]);
}

TEST(IsDark, AsTheLightOfTheConditionSays) {
  const Project project = plain_project();
  for (const auto name : {site::NamedLight::kBrightDay, site::NamedLight::kOvercast, site::NamedLight::kDusk,
                          site::NamedLight::kLitNight, site::NamedLight::kDarkNight, site::NamedLight::kFog}) {
    const site::Condition condition = named(name);
    EXPECT_EQ(is_dark(project, condition), (Lit{project, condition}.lighting().dark())) << static_cast<int>(name);
  }
  EXPECT_TRUE(is_dark(project, named(site::NamedLight::kLitNight)));
  EXPECT_FALSE(is_dark(project, named(site::NamedLight::kBrightDay)));
  EXPECT_FALSE(is_dark(project, {}));
}

TEST(WithCameras, NoneBurnsByDayOrWhenSwitchedOff) {
  Project project = two_with_infrared();
  const geom::SitePoint place{0, 10, 1.6};
  const auto near_infrared = [&](site::NamedLight name) {
    const Lit lit{project, named(name)};
    return with_cameras(lit.lighting(), stations_of(project)).at({&place, 1}).front().on({0, -1, 0})[Band::kNear850];
  };
  const double by_night = near_infrared(site::NamedLight::kDarkNight);
  const double by_day = near_infrared(site::NamedLight::kBrightDay);
  for (camera::Camera& camera : project.cameras) camera.infrared = camera::InfraredUse::kOff;
  EXPECT_LT(near_infrared(site::NamedLight::kDarkNight), 1e-3 * by_night) << "starlight is left";
  EXPECT_EQ(near_infrared(site::NamedLight::kBrightDay), by_day);
}

TEST(WithCameras, AnothersLampInTheLensIsStrayLight) {
  Project project = two_with_infrared();
  project.site.mounts.back().at = {0, 20};
  project.cameras.back().heading = 180 * deg;
  const Lit lit{project, named(site::NamedLight::kDarkNight)};
  const auto stations = stations_of(project);
  const Station station = in_condition(stations.front(), with_cameras(lit.lighting(), stations));
  ASSERT_EQ(station.glare.size(), 1U);
  EXPECT_NEAR(station.glare.front().towards.y, 1, 1e-9);
}

}  // namespace
}  // namespace sightfall::need
