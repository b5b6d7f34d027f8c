// SPDX-License-Identifier: GPL-3.0-or-later
// Hours of sun in the picture: where the sun goes in a year, by pencil; walls, veils and a turned site.
#include "need/sun_hours.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <iterator>
#include <numbers>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

using namespace units;
using testing::HasSubstr;

constexpr double kHourSeconds = 3600;

site::Anchor anchor_at(double latitude, double longitude = 0, double turn = 0) {
  site::Anchor anchor;
  anchor.latitude = latitude * deg;
  anchor.longitude = longitude * deg;
  anchor.turn = turn * deg;
  return anchor;
}

/// The sun of a year at 52 degrees north as a textbook has it: a declination like a sine, noon always at twelve. It is
/// within 4.5 degrees of the true one, 4.1 of them by the equation of time.
std::vector<SunStand> textbook_sun() {
  constexpr std::array<int, 12> kBefore{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  const double latitude = 52 * deg.si();
  std::vector<SunStand> stands;
  for (int step = 0; step < 365 * 144; ++step) {
    const int day = step / 144;
    const double declination = -23.44 * deg.si() * std::cos(2 * std::numbers::pi * (day + 10) / 365);
    const double hour_angle = (step % 144 - 72) / 6.0 * 15 * deg.si();
    const double pole = std::sin(declination), equator = std::cos(declination) * std::cos(hour_angle);
    const geom::Vec3 towards{-std::cos(declination) * std::sin(hour_angle),
                             std::cos(latitude) * pole - std::sin(latitude) * equator,
                             std::sin(latitude) * pole + std::cos(latitude) * equator};
    const auto month = std::upper_bound(kBefore.begin(), kBefore.end(), day) - kBefore.begin();
    if (towards.z > 0) stands.push_back({static_cast<int>(month), (step % 144) * kSunStep, towards});
  }
  return stands;
}

const std::vector<SunStand>& northern_sun() {
  static const std::vector<SunStand> kSun = textbook_sun();
  return kSun;
}

/// Half a picture: 26.6 degrees to the sides, 20.6 up and down.
Station looking(double heading, double tilt = 0) {
  return station_at(plain_sheet(), camera_on("eye", "post", heading, tilt), {0, 0, 3}, plain_typical());
}

SunHours hours_of(const Station& station, const site::Site& site = {},
                  const std::vector<SunStand>& sun = northern_sun()) {
  return sun_hours(sun, {station}, site::Scene{site, site::Leaves::kOn}).front();
}

double hours(const SunSpell& spell) { return spell.total.si() / kHourSeconds; }

// Up half of the year, and more by refraction: the sun's middle is up 34 minutes of arc longer at both ends of the day.
// Highest in the south at noon in June. Everywhere as the textbook has it, on a site whose true north lies to its east.
TEST(SunOfAYear, IsThatOfTheTextbookTurnedWithTheSite) {
  const std::vector<SunStand> sun = sun_of_a_year(anchor_at(52, 0, 90));
  const double up = static_cast<double>(sun.size()) * kSunStep.si() / kHourSeconds;
  EXPECT_GT(up, 4380 + 20);
  EXPECT_LT(up, 4380 + 80);
  const auto highest = std::max_element(sun.begin(), sun.end(),
                                        [](const SunStand& a, const SunStand& b) { return a.towards.z < b.towards.z; });
  EXPECT_NEAR(std::asin(highest->towards.z) / deg.si(), 90 - 52 + 23.44, 0.1);
  EXPECT_EQ(highest->month, 6);
  EXPECT_NEAR(highest->of_day.si() / kHourSeconds, 12, 0.2);
  EXPECT_LT(highest->towards.x, -0.4);
  // At noon the two years have each of their 365 days.
  const auto noons = [](const std::vector<SunStand>& all) {
    std::vector<SunStand> some;
    std::copy_if(all.begin(), all.end(), std::back_inserter(some),
                 [](const SunStand& s) { return s.of_day.si() == 12 * kHourSeconds; });
    return some;
  };
  const std::vector<SunStand> told = noons(sun), taught = noons(northern_sun());
  ASSERT_EQ(told.size(), 365U);
  for (size_t day = 0; day < told.size(); ++day) {
    const geom::Vec3 turned{taught[day].towards.y, -taught[day].towards.x, taught[day].towards.z};
    EXPECT_EQ(told[day].month, taught[day].month);
    EXPECT_LT(geom::norm(told[day].towards - turned) / deg.si(), 4.5) << day;
  }
}

TEST(SunHours, NoneForACameraThatLooksNorth) {
  const SunHours north = hours_of(looking(0));
  EXPECT_EQ(hours(north.in_picture), 0);
  EXPECT_EQ(north.in_picture.first_month, 0);
}

TEST(SunHours, NeverWhenItLooksDownTheNorthSide) {
  const SunHours down = hours_of(looking(0, 60));
  EXPECT_EQ(hours(down.in_picture) + hours(down.near_edge), 0);
  EXPECT_THAT(down.words, HasSubstr("never"));
}

// Level to the south the picture ends 20.6 degrees up: by pencil the noon sun is below that from early November (its
// declination under -17.4 degrees) to early February.
TEST(SunHours, ToTheSouthInWinter) {
  const SunHours south = hours_of(looking(180));
  EXPECT_GE(south.in_picture.first_month, 10);
  EXPECT_LE(south.in_picture.last_month, 3);
  EXPECT_NEAR((south.in_picture.from + south.in_picture.upto).si() / kHourSeconds / 2, 12, 0.5);
  EXPECT_GT(hours(south.in_picture), 100);
  EXPECT_GT(hours(south.near_edge), 100);
  EXPECT_THAT(south.words, HasSubstr(" h a year, "));
}

// The textbook's day is the same before noon and after.
TEST(SunHours, OfTheMorningAreThoseOfTheEvening) {
  const SunHours east = hours_of(looking(90)), west = hours_of(looking(270));
  EXPECT_NEAR(hours(east.in_picture) / hours(west.in_picture), 1, 0.02);
  EXPECT_LT(east.in_picture.upto.si(), 12 * kHourSeconds);
  EXPECT_GT(west.in_picture.from.si(), 12 * kHourSeconds);
}

// Six level pictures of 53.1 degrees, 60 apart, have no hour of the sun twice, and most of those it is low.
TEST(SunHours, OfCamerasSideBySideAddUp) {
  double sum = 0;
  for (double heading = 0; heading < 360; heading += 60) sum += hours(hours_of(looking(heading)).in_picture);
  const auto low = static_cast<double>(std::count_if(northern_sun().begin(), northern_sun().end(), [](const auto& s) {
    return std::asin(s.towards.z) < 20.6 * deg.si();
  }));
  EXPECT_LT(sum, low * kSunStep.si() / kHourSeconds);
  EXPECT_GT(sum, 0.6 * low * kSunStep.si() / kHourSeconds);
}

// At noon the sun is straight above the middle of the upper border, which is atan(0.375) up: within ten degrees of it
// as often as it is less than ten degrees higher.
TEST(SunHours, NearTheEdgeAreThoseTenDegreesBeyondIt) {
  std::vector<SunStand> noons;
  int within = 0, beyond = 0;
  for (const SunStand& stand : northern_sun()) {
    if (stand.of_day.si() != 12 * kHourSeconds) continue;
    noons.push_back(stand);
    const double above = std::asin(stand.towards.z) - std::atan(0.375);
    within += above < 0 ? 1 : 0;
    beyond += above >= 0 && above < 10 * deg.si() ? 1 : 0;
  }
  const SunHours south = hours_of(looking(180), {}, noons);
  EXPECT_NEAR(south.in_picture.total.in(kSunStep), within, 1);
  EXPECT_NEAR(south.near_edge.total.in(kSunStep), beyond, 1);
}

TEST(SunHours, AreHiddenByAWall) {
  site::Site site;
  site.solids = {wall_of("south", {{-100, -10}, {100, -10}}, 30)};
  const SunHours south = hours_of(looking(180), site);
  EXPECT_EQ(hours(south.in_picture), 0);
}

TEST(SunHours, PassAThinVeilAndNotADenseOne) {
  site::Site thin, dense;
  thin.veils = {mesh_of("fence", {{-100, -10}, {100, -10}}, 30, 0.3, 0.3)};
  dense.veils = {mesh_of("fence", {{-100, -10}, {100, -10}}, 30, 0.1, 0.1)};
  EXPECT_EQ(hours(hours_of(looking(180), thin).in_picture), hours(hours_of(looking(180)).in_picture));
  EXPECT_EQ(hours(hours_of(looking(180), dense).in_picture), 0);
}

TEST(SunHours, EndWhenTheyAreStopped) {
  const std::atomic<bool> stop{true};
  Progress progress;
  progress.stop = &stop;
  EXPECT_TRUE(sun_hours(northern_sun(), {looking(180)}, site::Scene{{}, site::Leaves::kOn}, progress).empty());
}

}  // namespace
}  // namespace sightfall::need
