// SPDX-License-Identifier: GPL-3.0-or-later
// Where sun and moon stand, against published worked examples and against a reference library, asked here and now by
// reference/sky.mjs.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

#include "light/ephemeris.h"

namespace sightfall::light {
namespace {

using namespace units;

double turn_between(Angle a, double b_deg) { return std::remainder(a.in(deg)-b_deg, 360); }

// Greenwich mean sidereal time, degrees: J. Meeus, Astronomical Algorithms, 2nd ed., 12.4, its cubic terms left out.
double sidereal(double julian_day) { return 280.46061837 + 360.98564736629 * (julian_day - 2451545); }

// Of the place on the globe that has a direction given by right ascension and declination overhead.
Observer under(double right_ascension, double declination, double julian_day) {
  return {declination * deg, std::remainder(right_ascension - sidereal(julian_day), 360) * deg};
}

// Meeus 7.a (from memory), the epoch J2000 and that of Unix.
TEST(JulianDay, OfThePublishedInstants) {
  EXPECT_NEAR(julian_day(1957, 10, 4, 0.81 * 24), 2436116.31, 1e-6);
  EXPECT_DOUBLE_EQ(julian_day(2000, 1, 1, 12), 2451545.0);
  EXPECT_DOUBLE_EQ(julian_day(1970, 1, 1, 0), 2440587.5);
}

// I. Reda and A. Andreas, Solar Position Algorithm, NREL/TP-560-34302, table A5.1. Their air is thinner (820 hPa), so
// the altitude is held without it.
TEST(SolarPositionAlgorithm, ItsWorkedExample) {
  const double when = julian_day(2003, 10, 17, 12 + 30 / 60.0 + 30 / 3600.0 + 7);
  EXPECT_NEAR(when, 2452930.312847, 1e-6);
  const SkyPosition sun = sun_at(when, {39.742476 * deg, -105.1786 * deg, 1830.14 * m});
  EXPECT_NEAR(sun.azimuth.in(deg), 194.340241, kSunError.in(deg));
  EXPECT_NEAR(without_refraction(sun.altitude).in(deg), 39.872046, kSunError.in(deg));
  // With refraction by the ratio of the densities of the two airs.
  const double thinner = 820 / 1010.0 * 283 / (273 + 11);
  EXPECT_NEAR((sun.altitude - without_refraction(sun.altitude)).in(deg)*thinner, 0.016332, 1e-4);
}

// Meeus 12.a holds the formula that the examples below lean on.
TEST(Meeus, SiderealTimeOfTheTestItself) {
  EXPECT_NEAR(std::remainder(sidereal(2446895.5) - 197.693195, 360), 0, 1e-5);
}

// Meeus 25.a, 1992 October 13.0 dynamical time, 59 s ahead of universal time: right ascension 198.38083 degrees,
// declination -7.78507. Whoever has that direction overhead has the sun overhead.
TEST(Meeus, TheSunOfHisExample) {
  const double when = 2448908.5 - 59 / 86400.0;
  EXPECT_GT(sun_at(when, under(198.38083, -7.78507, when)).altitude.in(deg), 90 - kSunError.in(deg));
}

// Meeus 28.a, the same instant: the equation of time is 3.427351 degrees, by which the true sun is ahead of the mean
// one of the clock.
TEST(Meeus, TheEquationOfTimeOfHisExample) {
  const double when = 2448908.5 - 59 / 86400.0;
  const double meridian = 180 - (when - 2448908.5) * 360 - 3.427351;
  EXPECT_GT(sun_at(when, {-7.78507 * deg, meridian * deg}).altitude.in(deg), 90 - kSunError.in(deg));
}

// Meeus 47.a, 1992 April 12.0 dynamical time: right ascension 134.688470 degrees, declination 13.768368. The observer
// stands on the ellipsoid, 0.09 degrees off the line to the earth's middle: a sixtieth of that in the sky.
TEST(Meeus, TheMoonOfHisExample) {
  const double when = 2448724.5 - 59 / 86400.0;
  const MoonPosition moon = moon_at(when, under(134.688470, 13.768368, when));
  EXPECT_GT(moon.at.altitude.in(deg), 90 - kMoonError.in(deg));
  // Meeus 48.a.
  EXPECT_NEAR(moon.phase.in(deg), 69.08, kMoonError.in(deg));
  EXPECT_NEAR(moon.lit, 0.6786, 3e-4);
}

struct Row {
  std::array<double, 14> n;

  double when() const {
    return julian_day(static_cast<int>(n[0]), static_cast<int>(n[1]), static_cast<int>(n[2]), n[3]);
  }
  Observer observer() const { return {n[4] * deg, n[5] * deg, n[6] * m}; }
};

/// What the script printed, and whether it ran to its end.
struct Reference {
  std::string about;
  std::vector<Row> rows;
  int status = -1;
};

Row read_row(std::string line) {
  std::replace(line.begin(), line.end(), ',', ' ');
  std::istringstream words{line};
  Row row{};
  for (double& number : row.n) words >> number;
  return row;
}

Reference ask_reference() {
  Reference reference;
  const std::string command = "node '" + std::string{SIGHTFALL_SOURCE_DIR} + "/tests/outside/reference/sky.mjs'";
  std::FILE* pipe = ::popen(command.c_str(), "r");  // NOLINT(cert-env33-c): the command is ours, word for word
  if (pipe == nullptr) return reference;
  std::string text;
  std::array<char, 4096> part{};
  while (const size_t size = std::fread(part.data(), 1, part.size(), pipe)) text.append(part.data(), size);
  reference.status = ::pclose(pipe);
  std::istringstream lines{text};
  for (std::string line; std::getline(lines, line);)
    if (!line.empty() && line.front() == '#')
      reference.about += line;
    else
      reference.rows.push_back(read_row(line));
  return reference;
}

// Azimuths as arcs on the sky; altitudes with refraction where something is seen, else without.
void expect_there(const SkyPosition& at, const double* azimuth_and_altitudes, double error) {
  const auto [azimuth, bare, refracted] =
      std::array{azimuth_and_altitudes[0], azimuth_and_altitudes[1], azimuth_and_altitudes[2]};
  EXPECT_NEAR(turn_between(at.azimuth, azimuth) * std::cos(bare * deg.si()), 0, error);
  if (bare > -1) {
    EXPECT_NEAR(at.altitude.in(deg), refracted, error);
  }
  EXPECT_NEAR(without_refraction(at.altitude).in(deg), bare, error);
}

TEST(SkyReference, SunAndMoonAreWhereTheReferenceHasThem) {
  const Reference reference = ask_reference();
  ASSERT_EQ(reference.status, 0) << "needs node and the library of tests/outside/reference: tools/install test";
  EXPECT_NE(reference.about.find("astronomy-engine 2."), std::string::npos);
  ASSERT_EQ(reference.rows.size(), 100U);
  for (const Row& row : reference.rows) {
    SCOPED_TRACE(row.when());
    const MoonPosition moon = moon_at(row.when(), row.observer());
    expect_there(sun_at(row.when(), row.observer()), &row.n[7], kSunError.in(deg));
    expect_there(moon.at, &row.n[10], kMoonError.in(deg));
    EXPECT_NEAR(moon.phase.in(deg), row.n[13], kMoonError.in(deg));
  }
}

}  // namespace
}  // namespace sightfall::light
