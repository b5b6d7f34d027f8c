// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sky.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sightfall::light {
namespace {

using namespace units;

/// log10 of the illuminance in lux as a cubic of altitude / 90 degrees, from an altitude on.
struct Cubic {
  double from_deg;
  std::array<double, 4> l;
};

// Horizontal illuminance, clear sky. Explanatory Supplement to the Astronomical Almanac; good to 5 % above -5 degrees.
constexpr std::array<Cubic, 6> kSun{{{20, {3.74, 3.97, -4.07, 1.47}},
                                     {5, {3.05, 13.28, -45.98, 64.33}},
                                     {-0.8, {2.88, 22.26, -207.64, 1034.30}},
                                     {-5, {2.88, 21.81, -258.11, -858.36}},
                                     {-12, {2.70, 12.17, -431.69, -1899.83}},
                                     {-18, {13.84, 262.72, 1447.42, 2797.93}}}};
constexpr std::array<Cubic, 3> kMoon{
    {{20, {-1.95, 4.06, -4.24, 1.56}}, {5, {-2.58, 12.58, -42.58, 59.06}}, {-0.8, {-2.79, 24.27, -252.95, 1321.29}}}};
constexpr double kStars = 0.002;  // lx: stars and airglow; never less, so the sun's own last light is lost in it

template <size_t N>
double lux_of(const std::array<Cubic, N>& table, double altitude_deg) {
  for (const Cubic& cubic : table)
    if (altitude_deg >= cubic.from_deg) {
      const double x = altitude_deg / 90;
      return std::pow(10.0, cubic.l[0] + x * (cubic.l[1] + x * (cubic.l[2] + x * cubic.l[3])));
    }
  return 0;
}

/// What clouds leave of the light of a clear sky, by the sun's altitude: overcast 0.1 at the horizon (40 lx of 400) to
/// 0.2 high up (10 000 to 25 000 lx at noon); the darkest storm 1/700 (less than 200 lx at noon and 1 lx at sunset).
/// From published orders of magnitude of illuminance.
double left_by(Clouds clouds, double sun_altitude_deg) {
  if (clouds == Clouds::kNone) return 1;
  if (clouds == Clouds::kStorm) return 1.0 / 700;
  constexpr double kLow = 0.1, kHigh = 0.2, kHighUp = 30, kNight = 0.05;
  if (sun_altitude_deg < -12) return kNight;
  return kLow + (kHigh - kLow) * std::clamp(sun_altitude_deg / kHighUp, 0.0, 1.0);
}

/// The disc's part of a light of which this is on the horizontal: as much of it as of the sun's.
Illuminance disc_share(Angle altitude, Illuminance global) {
  const Illuminance sun = sunlight(without_refraction(altitude));
  const double direct = direct_sun(altitude) * std::sin(altitude.si()) / sun;
  return global * std::clamp(direct, 0.0, 1.0) / std::max(std::sin(altitude.si()), 1e-3);
}

}  // namespace

Illuminance sunlight(Angle altitude) { return std::max(lux_of(kSun, altitude.in(deg)), kStars) * lx; }

Illuminance moonlight(Angle altitude, Angle phase) {
  const double f = std::abs(phase.in(deg));
  const double full = lux_of(kMoon, altitude.in(deg));
  return full * std::pow(10.0, -0.00868 * f - 2.2e-9 * f * f * f * f) * lx;
}

double air_mass(Angle altitude) {
  // F. Kasten and A. T. Young, Revised optical air mass tables, Applied Optics 28 (1989).
  const double h = std::max(altitude.in(deg), 0.0);
  return 1 / (std::sin(h * deg.si()) + 0.50572 * std::pow(h + 6.07995, -1.6364));
}

Illuminance direct_sun(Angle altitude) {
  if (altitude.si() <= 0) return Illuminance{0};
  constexpr double kOutside = 127500, kAttenuation = 0.21;  // lx; from memory
  return kOutside * std::exp(-kAttenuation * air_mass(altitude)) * lx;
}

SkyLight sky_light(const SkyPosition& sun, const MoonPosition& moon, Clouds clouds) {
  SkyLight sky;
  const Angle sun_stands = without_refraction(sun.altitude);
  const Illuminance by_sun = sunlight(sun_stands),
                    by_moon = moonlight(without_refraction(moon.at.altitude), moon.phase);
  const double left = left_by(clouds, sun_stands.in(deg));
  sky.sun_stands = sun;
  sky.dark = sun.altitude < kLampsOn;
  if (clouds != Clouds::kNone) {
    sky.diffuse = left * (by_sun + by_moon);
    return sky;
  }
  sky.diffuse = by_sun + by_moon;
  if (sun.altitude.si() > 0) {
    sky.sun = Disc{sun, std::min(direct_sun(sun.altitude), by_sun / std::sin(sun.altitude.si()))};
    sky.diffuse = sky.diffuse - sky.sun->normal * std::sin(sun.altitude.si());
  }
  if (moon.at.altitude.si() > 0) {
    sky.moon = Disc{moon.at, disc_share(moon.at.altitude, by_moon)};
    sky.diffuse = sky.diffuse - sky.moon->normal * std::sin(moon.at.altitude.si());
  }
  sky.diffuse = std::max(sky.diffuse, Illuminance{0});
  return sky;
}

SkyLight named_sky(NamedSky name) {
  SkyLight sky;
  switch (name) {
    case NamedSky::kBrightDay:
      sky.diffuse = 50000 * lx;
      break;
    case NamedSky::kOvercast:
      sky.diffuse = 10000 * lx;
      break;
    case NamedSky::kDusk:
      sky.diffuse = 10 * lx;
      sky.dark = true;
      break;
    case NamedSky::kLitNight:
      sky.diffuse = kStars * lx;
      sky.dark = true;
      break;
    case NamedSky::kDarkNight:
      sky.diffuse = 0.001 * lx;
      break;
    case NamedSky::kFog:
      sky.diffuse = 5000 * lx;
      break;
  }
  return sky;
}

std::string_view in_words(NamedSky name) {
  switch (name) {
    case NamedSky::kBrightDay:
      return "bright day: 50 000 lx from the whole sky, no sun that casts shadows";
    case NamedSky::kOvercast:
      return "overcast: 10 000 lx from the whole sky";
    case NamedSky::kDusk:
      return "dusk: 10 lx from the whole sky, lamps lit";
    case NamedSky::kLitNight:
      return "lit night: 0.002 lx from the sky, lamps lit";
    case NamedSky::kDarkNight:
      return "dark night: 0.001 lx from the sky, lamps that burn after dark are out";
    case NamedSky::kFog:
      break;
  }
  return "fog: a day of 5 000 lx from the whole sky, with fog in the air";
}

}  // namespace sightfall::light
