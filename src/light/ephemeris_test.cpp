// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/ephemeris.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::light {
namespace {

using namespace units;

constexpr Angle kAnHourEast = 15.0 * deg;

TEST(JulianDay, CountsDaysAndHours) {
  EXPECT_DOUBLE_EQ(julian_day(2024, 3, 1, 0) - julian_day(2024, 2, 28, 0), 2);
  EXPECT_DOUBLE_EQ(julian_day(2100, 3, 1, 0) - julian_day(2100, 2, 28, 0), 1);
  EXPECT_DOUBLE_EQ(julian_day(2025, 1, 1, 6) - julian_day(2024, 12, 31, 18), 0.5);
  EXPECT_DOUBLE_EQ(julian_day(2025, 1, 1, 30), julian_day(2025, 1, 2, 6));
}

// As the textbooks draw it: refraction is largest at the horizon, about 34 minutes, and none overhead.
TEST(Refraction, LiftsTheHorizonByHalfADegree) {
  EXPECT_NEAR((with_refraction(-34.0 / 60 * deg)).in(deg), 0, 0.02);
  EXPECT_NEAR((with_refraction(45.0 * deg) - 45.0 * deg).in(deg)*60, 1, 0.05);
  EXPECT_NEAR(with_refraction(90.0 * deg).in(deg), 90, 1e-9);
}

TEST(Refraction, RisesWithAltitudeAndIsUndone) {
  double before = -91;
  for (double h = -90; h <= 90; h += 0.25) {
    const Angle apparent = with_refraction(h * deg);
    EXPECT_GT(apparent.in(deg), before) << h;
    EXPECT_GT(apparent.in(deg), h - 1e-9);
    EXPECT_NEAR(without_refraction(apparent).in(deg), h, 1e-6);
    before = apparent.in(deg);
  }
}

TEST(Refraction, IsNoneWhereNothingIsSeen) { EXPECT_EQ(with_refraction(-12.0 * deg), -12.0 * deg); }

TEST(SunAt, StandsInTheSouthAtNoonInTheNorthAndInTheNorthInTheSouth) {
  // 15 April: the equation of time is near zero, so that the sun is in the meridian at noon.
  const double noon = julian_day(2026, 4, 15, 12);
  EXPECT_NEAR(sun_at(noon, {52.0 * deg}).azimuth.in(deg), 180, 0.2);
  const Angle south = sun_at(noon, {-52.0 * deg}).azimuth;
  EXPECT_NEAR(std::remainder(south.in(deg), 360), 0, 0.2);
}

TEST(SunTrack, IsTheSunOfEveryInstantWithinItsError) {
  const double first = julian_day(2027, 1, 1, -3);
  const SunTrack track{first, 366};
  for (const Observer& observer : {Observer{53.5 * deg, 2.5 * deg}, Observer{-33.0 * deg, 151.0 * deg, Length{800}}})
    for (double day = 0.003; day < 366; day += 0.371) {
      const SkyPosition near = track.at(first + day, observer), sun = sun_at(first + day, observer);
      EXPECT_NEAR((near.altitude - sun.altitude).in(deg), 0, kTrackError.in(deg)) << day;
      EXPECT_NEAR(std::remainder((near.azimuth - sun.azimuth).in(deg), 360) * std::cos(sun.altitude.si()), 0,
                  kTrackError.in(deg))
          << day;
    }
}

TEST(SunAt, RisesInTheEastAndSetsInTheWest) {
  const Observer observer{52.0 * deg};
  EXPECT_NEAR(sun_at(julian_day(2026, 3, 20, 6.2), observer).azimuth.in(deg), 90, 3);
  EXPECT_NEAR(sun_at(julian_day(2026, 3, 20, 18.1), observer).azimuth.in(deg), 270, 3);
}

TEST(SunAt, AnHourIsFifteenDegreesEast) {
  // The same sun an hour earlier stands there where it is one hour farther east, but for its own way in that hour.
  const double noon = julian_day(2026, 6, 21, 12);
  const SkyPosition here = sun_at(noon, {40.0 * deg}), there = sun_at(noon - 1 / 24.0, {40.0 * deg, kAnHourEast});
  EXPECT_NEAR(here.altitude.in(deg), there.altitude.in(deg), 0.02);
  EXPECT_NEAR(here.azimuth.in(deg), there.azimuth.in(deg), 0.1);
}

TEST(SunAt, ClimbsToTheTropicAtTheSolstice) {
  // Obliquity in 2026: 23.436 degrees.
  EXPECT_NEAR(sun_at(julian_day(2026, 6, 21, 12.03), {23.436 * deg}).altitude.in(deg), 90, 0.1);
  EXPECT_NEAR(sun_at(julian_day(2026, 12, 21, 12), {90.0 * deg}).altitude.in(deg), -23.436, 0.01);
}

TEST(MoonAt, StandsLowerThanFromTheEarthsMiddle) {
  // From the middle its altitudes over the two poles are opposite. Each pole has it lower by the parallax of the
  // horizon, 0.90 to 1.02 degrees, times the cosine of the declination, at most 28.6 degrees.
  for (int day = 0; day < 28; day += 4) {
    const double when = julian_day(2026, 1, 1 + day, 0);
    const Angle north = without_refraction(moon_at(when, {90.0 * deg}).at.altitude);
    const Angle south = without_refraction(moon_at(when, {-90.0 * deg}).at.altitude);
    const double lower = -(north + south).in(deg) / 2 / std::cos(((north - south) / 2).si());
    EXPECT_GT(lower, 0.89);
    EXPECT_LT(lower, 1.03);
  }
}

TEST(MoonAt, IsLitByItsPhase) {
  for (int day = 0; day < 30; day += 3) {
    const MoonPosition moon = moon_at(julian_day(2026, 1, 1 + day, 0), {52.0 * deg});
    EXPECT_NEAR(moon.lit, (1 + std::cos(moon.phase.si())) / 2, 1e-12);
  }
  EXPECT_GT(moon_at(julian_day(2026, 1, 3, 10), {}).lit, 0.99);   // full moon of that day, from memory
  EXPECT_LT(moon_at(julian_day(2026, 1, 18, 20), {}).lit, 0.01);  // new moon of that day, from memory
}

}  // namespace
}  // namespace sightfall::light
