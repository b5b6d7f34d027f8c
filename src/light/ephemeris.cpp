// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/ephemeris.h"

#include <libnova/libnova.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geom/vec.h"

namespace sightfall::light {
namespace {

using namespace units;
using geom::Vec3;

constexpr double kAstronomicalUnit = 149597870.7;                       // km
constexpr double kEquator = 6378.137, kFlattening = 1 / 298.257223563;  // km, WGS84
constexpr double kSecondsADay = 86400;

/// Dynamical time of an instant of universal time, both as Julian days.
double dynamical(double universal) { return universal + ln_get_dynamical_time_diff(universal) / kSecondsADay; }

Vec3 unit_vector(double longitude, double latitude) {
  return {std::cos(latitude) * std::cos(longitude), std::cos(latitude) * std::sin(longitude), std::sin(latitude)};
}

/// Turns about the x axis, which points to the equinox.
Vec3 turned(Vec3 at, double angle) {
  return {at.x, std::cos(angle) * at.y - std::sin(angle) * at.z, std::sin(angle) * at.y + std::cos(angle) * at.z};
}

/// From the ecliptic of J2000, in which the library tells places, to the true equator and equinox of date.
Vec3 of_date(Vec3 ecliptic_2000, double time) {
  constexpr double kObliquity2000 = 23.43929111, kItsChange = -0.0130042;  // degrees, degrees a century
  const double distance = geom::norm(ecliptic_2000);
  const Vec3 equatorial = turned(ecliptic_2000, kObliquity2000 * deg.si());
  ln_equ_posn then{std::atan2(equatorial.y, equatorial.x) / deg.si(), std::asin(equatorial.z / distance) / deg.si()};
  ln_equ_posn now{};
  ln_get_equ_prec(&then, time, &now);
  ln_nutation nutation{};
  ln_get_nutation(time, &nutation);
  const double mean = (kObliquity2000 + kItsChange * (time - 2451545) / 36525) * deg.si();
  const Vec3 ecliptic = turned(unit_vector(now.ra * deg.si(), now.dec * deg.si()), -mean);
  const double shift = nutation.longitude * deg.si();
  const Vec3 shifted{std::cos(shift) * ecliptic.x - std::sin(shift) * ecliptic.y,
                     std::sin(shift) * ecliptic.x + std::cos(shift) * ecliptic.y, ecliptic.z};
  return distance * turned(shifted, mean + nutation.obliquity * deg.si());
}

/// From the middle of the earth, km, true equator and equinox of date.
Vec3 sun_from_earth(double universal) {
  constexpr double kAberration = -20.4898 / 3600;  // degrees at one astronomical unit
  const double time = dynamical(universal);
  ln_helio_posn sun{};
  ln_get_solar_geom_coords(time, &sun);
  const Vec3 towards = unit_vector((sun.L + kAberration / sun.R) * deg.si(), sun.B * deg.si());
  return of_date(sun.R * kAstronomicalUnit * towards, time);
}

Vec3 moon_from_earth(double universal) {
  const double time = dynamical(universal);
  ln_rect_posn moon{};
  ln_get_lunar_geo_posn(time, &moon, 0);
  return of_date({moon.X, moon.Y, moon.Z}, time);
}

/// Turns the equatorial frame about its pole, so that x lies in the observer's meridian.
Vec3 in_meridian(Vec3 at, double turn) {
  return {std::cos(turn) * at.x + std::sin(turn) * at.y, -std::sin(turn) * at.x + std::cos(turn) * at.y, at.z};
}

/// The observer in the meridian's frame, km.
Vec3 observer_in_meridian(const Observer& observer) {
  const double sine = std::sin(observer.latitude.si()), cosine = std::cos(observer.latitude.si());
  const double squared = kFlattening * (2 - kFlattening);
  const double normal = kEquator / std::sqrt(1 - squared * sine * sine), height = observer.height.in(km);
  return {(normal + height) * cosine, 0, (normal * (1 - squared) + height) * sine};
}

/// Refraction of ordinary air: G. G. Bennett's formula turned round by T. Saemundsson (Meeus, Astronomical Algorithms,
/// 16.4), fading out below the horizon, where nothing is seen.
Angle refraction(Angle altitude) {
  const double h = std::max(altitude.in(deg), -1.0);
  const double minutes = std::max(1.02 / std::tan((h + 10.3 / (h + 5.11)) * deg.si()), 0.0);
  const double fades = std::clamp((altitude.in(deg) + 6) / 5, 0.0, 1.0);
  return fades * minutes / 60 * deg;
}

Angle sidereal_at(double universal) { return ln_get_apparent_sidereal_time(universal) * 15 * deg; }

/// `sidereal_there`: of Greenwich.
SkyPosition seen_from(Vec3 from_earth, Angle sidereal_there, const Observer& observer) {
  const double sidereal = (sidereal_there + observer.longitude).si();
  const Vec3 way = in_meridian(from_earth, sidereal) - observer_in_meridian(observer);
  const double sine = std::sin(observer.latitude.si()), cosine = std::cos(observer.latitude.si());
  const double up = cosine * way.x + sine * way.z, north = -sine * way.x + cosine * way.z, east = way.y;
  const double azimuth = std::atan2(east, north);
  const Angle altitude{std::atan2(up, std::hypot(north, east))};
  return {Angle{azimuth < 0 ? azimuth + 2 * std::numbers::pi : azimuth}, with_refraction(altitude)};
}

}  // namespace

double julian_day(int year, int month, int day, double hours) {
  ln_date date{year, month, day, 0, 0, 0};
  return ln_get_julian_day(&date) + hours / 24;
}

Angle with_refraction(Angle geometric) { return geometric + refraction(geometric); }

Angle without_refraction(Angle apparent) {
  constexpr int kSteps = 20;  // each leaves less than a third of what was wrong
  Angle geometric = apparent;
  for (int i = 0; i < kSteps; ++i) geometric = apparent - refraction(geometric);
  return geometric;
}

SkyPosition sun_at(double julian_day, const Observer& observer) {
  return seen_from(sun_from_earth(julian_day), sidereal_at(julian_day), observer);
}

SunTrack::SunTrack(double first_julian_day, int days) : first_{first_julian_day} {
  for (int day = 0; day <= days; ++day) knots_.push_back({sun_from_earth(first_ + day), sidereal_at(first_ + day)});
}

SkyPosition SunTrack::at(double julian_day, const Observer& observer) const {
  constexpr double kTurnADay = 360.98564736629;  // degrees of sidereal time: Meeus, Astronomical Algorithms, 12.4
  const double last = static_cast<double>(knots_.size()) - 2;
  const double day = std::clamp(std::floor(julian_day - first_), 0.0, std::max(last, 0.0));
  const double share = julian_day - first_ - day;
  const Knot& before = knots_[static_cast<size_t>(day)];
  const Knot& after = knots_[std::min(static_cast<size_t>(day) + 1, knots_.size() - 1)];
  return seen_from(before.from_earth + share * (after.from_earth - before.from_earth),
                   before.sidereal + share * kTurnADay * deg, observer);
}

MoonPosition moon_at(double julian_day, const Observer& observer) {
  const Vec3 moon = moon_from_earth(julian_day), to_sun = sun_from_earth(julian_day) - moon;
  const double cosine = geom::dot(geom::unit(to_sun), geom::unit(-1.0 * moon));
  const Angle phase{std::acos(std::clamp(cosine, -1.0, 1.0))};
  return {seen_from(moon, sidereal_at(julian_day), observer), phase, (1 + cosine) / 2};
}

}  // namespace sightfall::light
