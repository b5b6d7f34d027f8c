// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/sun_hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "geom/pose.h"
#include "light/ephemeris.h"
#include "need/in_parallel.h"
#include "need/picture_edge.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::Vec3;

constexpr double kHour = 3600;  // s
constexpr int kStepsADay = static_cast<int>(24 * kHour / kSunStep.si());
constexpr std::array<int, 12> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};  // of kSunYear
constexpr std::array<std::string_view, 12> kMonths{"January",   "February", "March",    "April",
                                                   "May",       "June",     "July",     "August",
                                                   "September", "October",  "November", "December"};

/// What the site shows of a place in the sky: true north lies at the heading `turn` of the site.
Vec3 towards_site(const light::SkyPosition& at, Angle turn) {
  const geom::PlanPoint level = geom::heading_vector(at.azimuth + turn);
  const double up = at.altitude.si();
  return {level.x * std::cos(up), level.y * std::cos(up), std::sin(up)};
}

/// Steps at which the sun would be in the picture and near its edge, were nothing in the way.
struct Candidates {
  std::vector<const SunStand*> in, near;
};

Candidates candidates_of(const Station& station, const std::vector<SunStand>& sun) {
  const PictureEdge edge{station};
  Candidates found;
  for (const SunStand& stand : sun)
    if (edge.inside(stand.towards))
      found.in.push_back(&stand);
    else if (edge.near(stand.towards))
      found.near.push_back(&stand);
  return found;
}

std::vector<const SunStand*> unhidden(const std::vector<const SunStand*>& stands, const site::Scene& scene,
                                      geom::SitePoint eye) {
  std::vector<float> x, y, z, passed(stands.size());
  for (const SunStand* stand : stands) {
    const geom::SitePoint far = eye + kSunReach.si() * stand->towards;
    x.push_back(static_cast<float>(far.x));
    y.push_back(static_cast<float>(far.y));
    z.push_back(static_cast<float>(far.z));
  }
  scene.passed_from(eye, {x, y, z}, passed);
  std::vector<const SunStand*> seen;
  for (size_t i = 0; i < stands.size(); ++i)
    if (passed[i] > kVeilHides) seen.push_back(stands[i]);
  return seen;
}

/// First and last of those that happen on a circle of months or hours: what the longest stretch without leaves over.
template <size_t N>
std::pair<int, int> shortest_round(const std::array<bool, N>& happens) {
  int longest = 0, first = 0, gap = 0;
  for (size_t i = 0; i < 2 * N; ++i) {
    if (!happens[i % N]) {
      ++gap;
      continue;
    }
    if (gap > longest) {
      longest = gap;
      first = static_cast<int>(i % N);
    }
    gap = 0;
  }
  const int size = static_cast<int>(N);
  return {first, (first + size - 1 - longest) % size};
}

SunSpell spell_of(const std::vector<const SunStand*>& stands) {
  if (stands.empty()) return {};
  std::array<bool, 12> months{};
  std::array<bool, kStepsADay> steps{};
  for (const SunStand* stand : stands) {
    months[static_cast<size_t>(stand->month - 1)] = true;
    steps[static_cast<size_t>(std::lround(stand->of_day.in(kSunStep)))] = true;
  }
  const auto [first_month, last_month] = shortest_round(months);
  const auto [from, upto] = shortest_round(steps);
  return {static_cast<double>(stands.size()) * kSunStep, first_month + 1, last_month + 1, from * kSunStep,
          upto * kSunStep};
}

std::string clock(Time of_day) {
  const int minutes = static_cast<int>(std::lround(of_day.si() / 60));
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

std::string in_words(const SunSpell& spell) {
  const auto month = [](int number) { return kMonths[static_cast<size_t>(number - 1)]; };
  const std::string months = spell.first_month == spell.last_month
                                 ? std::string{month(spell.first_month)}
                                 : fmt::format("{} to {}", month(spell.first_month), month(spell.last_month));
  return fmt::format("{:.0f} h a year, {}, {} to {} solar time", std::max(1.0, spell.total.si() / kHour), months,
                     clock(spell.from), clock(spell.upto));
}

std::string words_of(const SunSpell& in, const SunSpell& near) {
  const bool ever = in.total.si() > 0, close = near.total.si() > 0;
  if (!ever && !close) return "the sun never stands in the picture or within 10 degrees of its edge";
  const std::string inside = ever ? "in clear weather the sun stands in the picture " + in_words(in)
                                  : std::string{"the sun never stands in the picture"};
  return close ? inside + "; within 10 degrees of its edge " + in_words(near) : inside;
}

}  // namespace

std::vector<SunStand> sun_of_a_year(const site::Anchor& anchor) {
  const light::Observer observer{anchor.latitude, anchor.longitude, anchor.height};
  const double ahead = anchor.longitude.in(15.0 * deg);  // hours of the place's solar time before universal time
  const light::SunTrack track{light::julian_day(kSunYear, 1, 1, -ahead), 365};
  std::vector<SunStand> stands;
  for (int month = 1; month <= 12; ++month)
    for (int step = 0; step < kDays[static_cast<size_t>(month - 1)] * kStepsADay; ++step) {
      const Time since_first = step * kSunStep;
      const double when = light::julian_day(kSunYear, month, 1, since_first.si() / kHour - ahead);
      const light::SkyPosition sun = track.at(when, observer);
      if (sun.altitude.si() > 0)
        stands.push_back({month, (step % kStepsADay) * kSunStep, towards_site(sun, anchor.turn)});
    }
  return stands;
}

std::vector<SunHours> sun_hours(const std::vector<SunStand>& sun, const std::vector<Station>& stations,
                                const site::Scene& scene, const Progress& progress) {
  std::vector<std::optional<SunHours>> each(stations.size());
  in_parallel(stations.size(), progress, "the sun in the picture", [&](size_t i) {
    const Station& station = stations[i];
    const Candidates found = candidates_of(station, sun);
    const SunSpell in = spell_of(unhidden(found.in, scene, station.pose.eye_site));
    const SunSpell near = spell_of(unhidden(found.near, scene, station.pose.eye_site));
    each[i] = SunHours{station.name, in, near, words_of(in, near)};
  });
  std::vector<SunHours> hours;
  for (std::optional<SunHours>& one : each)
    if (one) hours.push_back(std::move(*one));
  return hours;
}

std::vector<SunHours> sun_hours(const site::Anchor& anchor, const std::vector<Station>& stations,
                                const site::Scene& scene, const Progress& progress) {
  return sun_hours(sun_of_a_year(anchor), stations, scene, progress);
}

}  // namespace sightfall::need
