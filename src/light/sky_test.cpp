// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sky.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>

namespace sightfall::light {
namespace {

using namespace units;

constexpr MoonPosition kNoMoon{{Angle{0}, -40.0 * deg}, 90.0 * deg, 0.5};

SkyPosition up(double degrees) { return {120.0 * deg, degrees * deg}; }

double on_horizontal(const SkyLight& sky) {
  double lux = sky.diffuse.in(lx);
  for (const auto& disc : {sky.sun, sky.moon})
    if (disc) lux += std::sin(disc->at.altitude.si()) * disc->normal.in(lx);
  return lux;
}

TEST(ClearSky, PartsAddUpToThePublishedWhole) {
  for (double h = 1; h <= 90; h += 1)
    EXPECT_NEAR(on_horizontal(sky_light(up(h), kNoMoon, Clouds::kNone)) / sunlight(without_refraction(h * deg)).in(lx),
                1, 1e-12)
        << h;
}

TEST(ClearSky, MoonlightAddsToTheStars) {
  const MoonPosition full{up(45), Angle{0}, 1};
  const SkyLight sky = sky_light(up(-40), full, Clouds::kNone);
  EXPECT_NEAR(on_horizontal(sky), 0.002 + moonlight(without_refraction(45.0 * deg), Angle{0}).in(lx), 1e-12);
  ASSERT_TRUE(sky.moon);
  EXPECT_FALSE(sky.sun);
}

TEST(ClearSky, PartsMoonlightAsSunlightFromTheSamePlace) {
  const SkyLight day = sky_light(up(45), kNoMoon, Clouds::kNone);
  const SkyLight night = sky_light(up(-40), {up(45), Angle{0}, 1}, Clouds::kNone);
  const double by_moon = on_horizontal(night) - 0.002;
  EXPECT_NEAR(night.moon->normal.in(lx) / by_moon, day.sun->normal.in(lx) / on_horizontal(day), 1e-9);
}

TEST(ClearSky, CastsShadowsOnlyFromAboveTheHorizon) {
  EXPECT_FALSE(sky_light(up(-0.1), kNoMoon, Clouds::kNone).sun);
  EXPECT_TRUE(sky_light(up(0.1), kNoMoon, Clouds::kNone).sun);
  EXPECT_FALSE(sky_light(up(30), kNoMoon, Clouds::kNone).moon);
}

TEST(Clouds, HideTheDiscsAndKeepThePlaceOfTheSun) {
  for (const Clouds clouds : {Clouds::kOvercast, Clouds::kStorm}) {
    const SkyLight sky = sky_light(up(30), {up(20), Angle{0}, 1}, clouds);
    EXPECT_FALSE(sky.sun || sky.moon);
    ASSERT_TRUE(sky.sun_stands);
    EXPECT_EQ(sky.sun_stands->altitude, 30.0 * deg);
  }
}

TEST(Clouds, LeaveLessTheDarkerTheyAre) {
  for (double h = -30; h <= 90; h += 5) {
    const double clear = on_horizontal(sky_light(up(h), kNoMoon, Clouds::kNone));
    const double overcast = on_horizontal(sky_light(up(h), kNoMoon, Clouds::kOvercast));
    EXPECT_LT(overcast, clear);
    EXPECT_LT(on_horizontal(sky_light(up(h), kNoMoon, Clouds::kStorm)), overcast);
  }
}

TEST(SkyLight, IsDarkFromALittleAfterSunset) {
  EXPECT_FALSE(sky_light(up(-1.9), kNoMoon, Clouds::kNone).dark);
  EXPECT_TRUE(sky_light(up(-2.1), kNoMoon, Clouds::kNone).dark);
}

TEST(DirectSun, GrowsWithAltitudeToWhatOneAirMassPasses) {
  Illuminance before{0};
  for (double h = 0.5; h <= 90; h += 0.5) {
    EXPECT_GT(direct_sun(h * deg), before) << h;
    before = direct_sun(h * deg);
  }
  EXPECT_NEAR(before.in(lx), 127.5e3 * std::exp(-0.21), 30);
  EXPECT_EQ(direct_sun(-1.0 * deg), Illuminance{0});
}

TEST(NamedSky, IsDiffuseAndHasNoSun) {
  struct Row {
    NamedSky name;
    double lux;
    bool dark;
  };
  constexpr std::array<Row, 6> kRows{{{NamedSky::kBrightDay, 50000, false},
                                      {NamedSky::kOvercast, 10000, false},
                                      {NamedSky::kDusk, 10, true},
                                      {NamedSky::kLitNight, 0.002, true},
                                      {NamedSky::kDarkNight, 0.001, false},
                                      {NamedSky::kFog, 5000, false}}};
  for (const auto& [name, lux, dark] : kRows) {
    const SkyLight sky = named_sky(name);
    EXPECT_DOUBLE_EQ(sky.diffuse.in(lx), lux);
    EXPECT_EQ(sky.dark, dark);
    EXPECT_FALSE(sky.sun || sky.moon || sky.sun_stands);
  }
}

TEST(NamedSky, SaysInWordsWhatItStandsFor) {
  EXPECT_THAT(std::string{in_words(NamedSky::kDusk)},
              testing::AllOf(testing::HasSubstr("10 lx"), testing::HasSubstr("lamps lit")));
  EXPECT_THAT(std::string{in_words(NamedSky::kDarkNight)}, testing::HasSubstr("0.001 lx"));
}

}  // namespace
}  // namespace sightfall::light
