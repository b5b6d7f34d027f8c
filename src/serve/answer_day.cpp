// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "file/answer_values.h"
#include "file/clock.h"
#include "light/ephemeris.h"
#include "light/sky.h"
#include "serve/answers.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

using namespace units;
using file::List;
using file::Object;
using file::rounded;
using file::Value;

struct DayRequest {
  std::string date;
};

void describe(file::Form& form, DayRequest& request) {
  form.date({"date", file::kRequired, "such as 2026-12-15"}, file::kFirstYear, file::kLastYear, request.date);
}

/// On the horizontal from sun, moon and sky.
Illuminance global(const light::SkyLight& sky) {
  Illuminance all = sky.diffuse;
  for (const auto& disc : {sky.sun, sky.moon})
    if (disc) all = all + std::max(0.0, std::sin(disc->at.altitude.si())) * disc->normal;
  return all;
}

Value row(const site::Anchor& anchor, const site::ClockTime& when, double julian_day) {
  const light::Observer observer{anchor.latitude, anchor.longitude, anchor.height};
  const light::SkyPosition sun = light::sun_at(julian_day, observer);
  const light::MoonPosition moon = light::moon_at(julian_day, observer);
  const double turned = std::fmod((sun.azimuth + anchor.turn).in(deg) + 360, 360);
  const double lux = global(light::sky_light(sun, moon, light::Clouds::kNone)).in(lx);
  constexpr double kFine = 1e5;  // starlight is a fraction of a millilux
  return Object{{"time", fmt::format("{:02}:{:02}", when.hour, when.minute)},
                {"sun_altitude_deg", rounded(sun.altitude.in(deg), 100)},
                {"sun_heading_deg", rounded(turned, 100)},
                {"moon_altitude_deg", rounded(moon.at.altitude.in(deg), 100)},
                {"moon_lit", rounded(moon.lit, 100)},
                {"lux", rounded(lux, lux < 1 ? kFine : 10)}};
}

/// Conditions of the day asked for stand at their time, those of another day at the same time of day.
List flags_of(const need::Project& project) {
  List flags;
  for (const site::Condition& condition : project.conditions)
    if (condition.when)
      flags.emplace_back(Object{
          {"condition", condition.name},
          {"date", fmt::format("{:04}-{:02}-{:02}", condition.when->year, condition.when->month, condition.when->day)},
          {"time", fmt::format("{:02}:{:02}", condition.when->hour, condition.when->minute)}});
  return flags;
}

site::ClockTime day_of(const std::string& date) {
  site::ClockTime day;
  day.year = std::stoi(date.substr(0, 4)), day.month = std::stoi(date.substr(5, 2));
  day.day = std::stoi(date.substr(8, 2));
  return day;
}

}  // namespace

Checked<Value> day_answer(const need::Project& project, const std::string& date) {
  const auto asks = read_request<DayRequest>(Value{Object{{"date", date}}});
  if (!asks) return tl::make_unexpected(asks.error());
  site::ClockTime when = day_of(asks->date);
  if (!file::day_exists(when)) return refused(ErrorKind::kField, "date", "found a day that the calendar does not have");
  if (!project.site.anchor)
    return refused(ErrorKind::kRequest, "site.anchor",
                   "missing; a day's light follows from the site's latitude, longitude and time zone");
  const site::Anchor& anchor = *project.site.anchor;
  if (auto zone = file::find_zone(anchor.time_zone.empty() ? "UTC" : anchor.time_zone); !zone)
    return tl::make_unexpected(Errors{zone.error()});
  const std::string zone = anchor.time_zone.empty() ? "UTC" : anchor.time_zone;
  List hours;
  constexpr int kStep = 10;
  for (int minute = 0; minute < 24 * 60; minute += kStep) {
    when.hour = minute / 60, when.minute = minute % 60;
    // Times that the clocks skip or show twice have no one row.
    if (const Result<double> day = file::julian_day(when, zone)) hours.push_back(row(anchor, when, *day));
  }
  return Value{Object{{"date", asks->date}, {"time_zone", zone}, {"hours", hours}, {"flags", flags_of(project)}}};
}

}  // namespace sightfall::serve
