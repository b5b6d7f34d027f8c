// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/clock.h"

#include <gtest/gtest.h>

#include "file/clock_rule.h"

namespace sightfall::file {
namespace {

/// Hours that the zone's clocks are ahead of universal time when they show this.
double hours_ahead(const site::ClockTime& when, const std::string& zone) {
  const Result<double> here = julian_day(when, zone), universal = julian_day(when, "Etc/UTC");
  EXPECT_TRUE(here.has_value()) << zone << ": " << here.error().text;
  return here ? (*universal - *here) * 24 : 0;
}

constexpr double kSlack = 1e-6;  // hours; a Julian day holds 4e-5 s

std::string error_of(const site::ClockTime& when, const std::string& zone) {
  const Result<double> day = julian_day(when, zone);
  return day ? "none" : day.error().text;
}

// Meeus, Astronomical Algorithms, 2nd ed., chapter 7.
TEST(JulianDay, IsThatOfTheBook) {
  EXPECT_EQ(julian_day({2000, 1, 1, 12, 0}, "Etc/UTC"), 2451545.0);
  EXPECT_EQ(julian_day({1999, 1, 1, 0, 0}, "Etc/UTC"), 2451179.5);
  EXPECT_EQ(julian_day({1987, 6, 19, 12, 0}, "Etc/UTC"), 2446966.0);
  EXPECT_EQ(julian_day({1988, 1, 27, 0, 0}, "Etc/UTC"), 2447187.5);
}

// python3 zoneinfo on the same tzdata for this and the next two.
TEST(JulianDay, FollowsTheClocksOfAZone) {
  EXPECT_NEAR(hours_ahead({2026, 7, 1, 12, 0}, "Europe/Paris"), 2, kSlack);
  EXPECT_NEAR(hours_ahead({2026, 1, 1, 12, 0}, "Europe/Paris"), 1, kSlack);
  EXPECT_NEAR(hours_ahead({1950, 7, 1, 12, 0}, "America/New_York"), -4, kSlack);
  EXPECT_NEAR(hours_ahead({2026, 1, 1, 12, 0}, "Asia/Kathmandu"), 5.75, kSlack);
  EXPECT_NEAR(hours_ahead({2026, 3, 29, 1, 59}, "Europe/Paris"), 1, kSlack);
  EXPECT_NEAR(hours_ahead({2026, 3, 29, 3, 0}, "Europe/Paris"), 2, kSlack);
}

TEST(JulianDay, FollowsThemPastTheLastListedChange) {
  EXPECT_NEAR(hours_ahead({2050, 7, 1, 12, 0}, "Europe/Paris"), 2, kSlack);
  EXPECT_NEAR(hours_ahead({2100, 12, 31, 23, 59}, "Europe/Paris"), 1, kSlack);
  EXPECT_NEAR(hours_ahead({2050, 1, 15, 12, 0}, "Australia/Sydney"), 11, kSlack);
  EXPECT_NEAR(hours_ahead({2050, 7, 15, 12, 0}, "Australia/Sydney"), 10, kSlack);
  EXPECT_NEAR(hours_ahead({2050, 7, 15, 12, 0}, "Europe/Dublin"), 1, kSlack);
  EXPECT_NEAR(hours_ahead({2050, 1, 15, 12, 0}, "Europe/Dublin"), 0, kSlack);
  EXPECT_NEAR(hours_ahead({2050, 7, 15, 12, 0}, "Asia/Kathmandu"), 5.75, kSlack);
}

TEST(JulianDay, TimesThatClocksSkipOrRepeatAreToldApart) {
  const std::string skipped = error_of({2026, 3, 29, 2, 30}, "Europe/Paris");
  EXPECT_NE(skipped.find("skip"), std::string::npos) << skipped;
  EXPECT_NE(error_of({2050, 3, 27, 2, 30}, "Europe/Paris").find("skip"), std::string::npos);
  EXPECT_NE(error_of({2011, 12, 30, 12, 0}, "Pacific/Apia").find("skip"), std::string::npos);
  for (const site::ClockTime& when : {site::ClockTime{2026, 10, 25, 2, 30}, site::ClockTime{2050, 10, 30, 2, 30}}) {
    const std::string repeated = error_of(when, "Europe/Paris");
    EXPECT_NE(repeated.find("twice that day, at 00:30 and at 01:30 universal time"), std::string::npos) << repeated;
  }
  EXPECT_EQ(error_of({2026, 10, 25, 1, 59}, "Europe/Paris"), "none");
  EXPECT_EQ(error_of({2026, 10, 25, 3, 0}, "Europe/Paris"), "none");
}

TEST(Calendar, KnowsItsDays) {
  EXPECT_TRUE(day_exists({2024, 2, 29, 0, 0}));
  for (const site::ClockTime& when : {site::ClockTime{2026, 2, 29, 0, 0}, site::ClockTime{2100, 2, 29, 0, 0},
                                      site::ClockTime{2026, 2, 30, 0, 0}, site::ClockTime{2026, 4, 31, 0, 0}})
    EXPECT_FALSE(day_exists(when)) << when.year << "-" << when.month << "-" << when.day;
}

TEST(Zone, OnlyNamesOfTheSystemAreFound) {
  for (const char* name : {"Europe/Paris", "Etc/UTC", "America/Argentina/Buenos_Aires"})
    EXPECT_TRUE(find_zone(name).has_value()) << name;
  for (const char* name :
       {"", "Europe", "europe/paris", "Nowhere/Town", "../../etc/passwd", "/etc/localtime", "localtime", "zone.tab"})
    EXPECT_FALSE(find_zone(name).has_value()) << name;
}

TEST(ClockRule, ReadsHoursPastADay) {
  const auto rule = parse_clock_rule("<+02>-2<+03>-1:30,M3.4.4/50,M10.4.4/-50:30");
  ASSERT_TRUE(rule.has_value());
  EXPECT_EQ(rule->standard, 7200);
  EXPECT_EQ(rule->summer, 5400);
  EXPECT_EQ(rule->begin.seconds, 50 * 3600);
  EXPECT_EQ(rule->end.seconds, -(50 * 3600 + 1800));
}

TEST(ClockRule, RefusesWhatItDoesNotUnderstand) {
  for (const char* text : {"", "CET", "CET-1CEST", "CET-1CEST,M3.5.0", "CET-1CEST,M3.5.0,M10.5.0/3x",
                           "CET-1CEST,J60,J300", "CET-1CEST,M13.5.0,M10.5.0", "CET-1CEST,M3.6.0,M10.5.0",
                           "CET-1CEST,M3.5.7,M10.5.0", "CET-200", "<CET-1", "CET--1"})
    EXPECT_FALSE(parse_clock_rule(text).has_value()) << text;
}

}  // namespace
}  // namespace sightfall::file
