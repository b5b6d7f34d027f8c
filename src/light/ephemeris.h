// SPDX-License-Identifier: GPL-3.0-or-later
// Where the sun and the moon stand.
//   Model    topocentric, apparent (refraction of ordinary air at 10 degrees Celsius and 1010 hPa)
//   In/Out   universal time as a Julian day, WGS84 position -> azimuth from true north, clockwise; altitude
//   Error    kSunError, kMoonError for the years 1950 to 2100; within a degree of the horizon the weather alone changes
//            refraction by more
//   Library  libnova, only in ephemeris.cpp
//   Checked  ephemeris_test.cpp; tests/outside/astronomy_test.cpp (NREL, Meeus, a reference library at 100 random
//            places and times)
#pragma once
#include <vector>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::light {

inline constexpr Angle kSunError{0.01 * 0.017453292519943295}, kMoonError{0.03 * 0.017453292519943295};

struct Observer {
  Angle latitude, longitude;  ///< east positive
  Length height;
};

struct SkyPosition {
  Angle azimuth;   ///< from true north, clockwise, [0, 2 pi)
  Angle altitude;  ///< above the horizon, with refraction
};

struct MoonPosition {
  SkyPosition at;
  Angle phase;     ///< sun - moon - earth: 0 at full moon
  double lit = 0;  ///< share of the disc
};

/// Julian day, universal time, of a date of the Gregorian calendar and a time of day.
double julian_day(int year, int month, int day, double hours);

/// Altitude with refraction from the geometric one, and back; below -6 degrees, where nothing is seen, they are the
/// same.
Angle with_refraction(Angle geometric);
Angle without_refraction(Angle apparent);

SkyPosition sun_at(double julian_day, const Observer& observer);
/// The sun over many days: from the earth it is worked out once a day and between them lies on a straight line, which
/// is wrong by no more than kTrackError; instants of the days alone.
class SunTrack {
 public:
  SunTrack(double first_julian_day, int days);
  SkyPosition at(double julian_day, const Observer& observer) const;

 private:
  struct Knot {
    geom::Vec3 from_earth;  ///< km
    Angle sidereal;
  };
  double first_;
  std::vector<Knot> knots_;
};
inline constexpr Angle kTrackError{0.002 * 0.017453292519943295};

MoonPosition moon_at(double julian_day, const Observer& observer);

}  // namespace sightfall::light
