// SPDX-License-Identifier: GPL-3.0-or-later
// Natural light against what is published of it.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "light/sky.h"

namespace sightfall::light {
namespace {

using namespace units;

constexpr MoonPosition kNoMoon{{Angle{0}, -40.0 * deg}, 90.0 * deg, 0.5};

struct Level {
  double degrees, lux;
};

/// On the horizontal, by altitude without refraction.
double lux_at(double degrees, Clouds clouds, const MoonPosition& moon = kNoMoon) {
  const SkyLight sky = sky_light({Angle{0}, with_refraction(degrees * deg)}, moon, clouds);
  double lux = sky.diffuse.in(lx);
  for (const auto& disc : {sky.sun, sky.moon})
    if (disc) lux += std::sin(disc->at.altitude.si()) * disc->normal.in(lx);
  return lux;
}

MoonPosition moon_up(double degrees, double phase) {
  return {{Angle{0}, with_refraction(degrees * deg)}, phase * deg, (1 + std::cos(phase * deg.si())) / 2};
}

// Values of the polynomials of the Explanatory Supplement to the Astronomical Almanac (their origin from memory, the
// coefficients seen in public code). Its value for -18 degrees, 0.000645 lx, is the sun's without stars: see below.
TEST(Sunlight, OfTheAlmanac) {
  constexpr std::array<Level, 21> kLevels{
      {{90, 128820}, {60, 103120}, {45, 77848},      {30, 46297},  {20, 27376},    {10, 11121},     {5, 4538},
       {3, 2689},    {2, 1921},    {1, 1268},        {0, 758.6},   {-2, 189.4},    {-3, 79.07},     {-4, 29.94},
       {-5, 10.44},  {-6, 3.412},  {-0.8333, 453.5}, {-8, 0.3481}, {-10, 0.04211}, {-12, 0.008057}, {-15, 0.002023}}};
  for (const auto& [degrees, lux] : kLevels) EXPECT_NEAR(sunlight(degrees * deg).in(lx) / lux, 1, 1e-3) << degrees;
}

// The same source: stars and airglow give 0.002 lx. The sun's last light is less than that from -15 degrees on.
TEST(Sunlight, IsNeverLessThanTheStars) {
  for (const double degrees : {-15.5, -18.0, -18.1, -50.0, -90.0})
    EXPECT_NEAR(sunlight(degrees * deg).in(lx), 0.002, 1e-6) << degrees;
}

TEST(Moonlight, OfTheAlmanac) {
  constexpr std::array<Level, 8> kFull{
      {{90, 0.2692}, {60, 0.2160}, {45, 0.1641}, {30, 0.0977}, {20, 0.0575}, {10, 0.0236}, {5, 0.00995}, {0, 0.00162}}};
  for (const auto& [degrees, lux] : kFull)
    EXPECT_NEAR(moonlight(degrees * deg, Angle{0}).in(lx) / lux, 1, 2e-3) << degrees;  // printed to three digits
  constexpr std::array<Level, 5> kByPhase{{{0, 0.1641}, {30, 0.0897}, {60, 0.0463}, {90, 0.0195}, {120, 0.00521}}};
  for (const auto& [phase, lux] : kByPhase)
    EXPECT_NEAR(moonlight(45.0 * deg, phase * deg).in(lx) / lux, 1, 2e-3) << phase;
  EXPECT_EQ(moonlight(-2.0 * deg, Angle{0}), Illuminance{0});
}

// The steps of the polynomials at the edges of their bands are at most 1 %.
TEST(Sunlight, RisesWithAltitudeButForTheSteps) {
  for (double h = -30; h < 90; h += 0.05) {
    EXPECT_GT(sunlight((h + 0.05) * deg), 0.99 * sunlight(h * deg)) << h;
    EXPECT_GE(moonlight((h + 0.05) * deg, Angle{0}), 0.99 * moonlight(h * deg, Angle{0})) << h;
  }
  for (double h = -15; h < 90; h += 1) EXPECT_GT(sunlight((h + 1) * deg), sunlight(h * deg)) << h;
}

// Orders of magnitude (illuminance), an encyclopaedia's table. It gives round numbers of single skies, so a factor of
// one and a half is allowed where it gives no band of its own.
TEST(Levels, OfAClearSky) {
  constexpr double kAbout = 1.5;
  const auto about = [&](double lux, double published) {
    return std::abs(std::log(lux / published)) < std::log(kAbout);
  };
  EXPECT_TRUE(about(lux_at(90, Clouds::kNone), 120000));  // brightest
  EXPECT_TRUE(about(lux_at(60, Clouds::kNone), 110000));  // bright sunlight
  EXPECT_TRUE(about(sky_light({Angle{0}, 60.0 * deg}, kNoMoon, Clouds::kNone).diffuse.in(lx), 20000));  // shade, midday
  EXPECT_TRUE(about(lux_at(-50 / 60.0, Clouds::kNone), 400));                                           // sunset
  EXPECT_TRUE(about(lux_at(-40, Clouds::kNone, moon_up(70, 0)), 0.25));                                 // full moon
  EXPECT_TRUE(about(lux_at(-40, Clouds::kNone), 0.002));                                                // no moon
  // A quarter moon's 0.01 lx says not how high it stands: it is between one at 20 degrees and one at 90.
  EXPECT_LT(lux_at(-40, Clouds::kNone, moon_up(20, 90)), 0.01);
  EXPECT_GT(lux_at(-40, Clouds::kNone, moon_up(90, 90)), 0.01);
}

TEST(Levels, UnderClouds) {
  for (const double noon : {35.0, 45.0, 60.0, 75.0}) {
    EXPECT_GT(lux_at(noon, Clouds::kOvercast), 10000) << noon;
    EXPECT_LT(lux_at(noon, Clouds::kOvercast), 25000) << noon;
  }
  EXPECT_NEAR(lux_at(-50 / 60.0, Clouds::kOvercast), 40, 10);
  EXPECT_NEAR(lux_at(-40, Clouds::kOvercast), 0.0001, 1e-5);
  EXPECT_LT(lux_at(90, Clouds::kStorm), 200);
  EXPECT_LT(lux_at(-50 / 60.0, Clouds::kStorm), 1);
}

// L. M. Biberman, chapter 3 of doi:10.1007/978-1-4684-2928-2: noon 10,000 footcandles; full moon, no moon and
// overcast night 1e-2, 1e-4 and 1e-5. Powers of ten: within a factor of three.
TEST(Levels, InFootcandles) {
  constexpr double kFootcandle = 10.7639;
  const auto near = [](double lux, double footcandles) {
    return std::abs(std::log10(lux / (footcandles * kFootcandle))) < std::log10(3.0);
  };
  EXPECT_TRUE(near(lux_at(60, Clouds::kNone), 1e4));
  EXPECT_TRUE(near(lux_at(-40, Clouds::kNone, moon_up(60, 0)), 1e-2));
  EXPECT_TRUE(near(lux_at(-40, Clouds::kNone), 1e-4));
  EXPECT_TRUE(near(lux_at(-40, Clouds::kOvercast), 1e-5));
  // Above the air 12,500 footcandles: less reaches the ground.
  EXPECT_LT(direct_sun(90.0 * deg).in(lx), 12500 * kFootcandle);
}

// F. Kasten and A. T. Young, Applied Optics 28 (1989), from memory: 38 at the horizon, 1 overhead; 1/sin between.
TEST(AirMass, OfKastenAndYoung) {
  EXPECT_NEAR(air_mass(Angle{0}), 37.92, 0.05);
  EXPECT_NEAR(air_mass(90.0 * deg), 1, 5e-4);
  EXPECT_NEAR(air_mass(30.0 * deg), 1.995, 0.003);
}

}  // namespace
}  // namespace sightfall::light
