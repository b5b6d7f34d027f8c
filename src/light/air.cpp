// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/air.h"

#include <algorithm>
#include <cmath>

#include "light/spectrum.h"

namespace sightfall::light {
namespace {

constexpr double kFivePercent = 2.995732273553991;  // -ln 0.05: the reported range's contrast
constexpr double kTwoPercent = 3.912023005428146;   // -ln 0.02: Koschmieder's

/// Exponent of the wavelength (Kim et al. 2001, Proc. SPIE 4214); visibility in km.
double kim_exponent(double km) {
  if (km > 50) return 1.6;
  if (km > 6) return 1.3;
  if (km > 1) return 0.16 * km + 0.34;
  if (km > 0.5) return km - 0.5;
  return 0;
}

double extinction_by(double contrast_log, Length visibility, Band band) {
  const double relative = wavelength_of(band) / wavelength_of(Band::kVisible);
  return contrast_log / visibility.si() * std::pow(relative, -kim_exponent(visibility.si() / 1000));
}

/// Exponential integral E1, for x > 0.
double e1(double x) {
  constexpr double kNothing = 700;  // beyond it the result is zero in double
  return x > kNothing ? 0 : -std::expint(-x);
}

}  // namespace

Length visibility_of(AirName air) {
  switch (air) {  // from memory: the middle of what the words mean in weather reports
    case AirName::kClear:
      return Length{20000};
    case AirName::kHaze:
      return Length{4000};
    case AirName::kFog:
      return Length{150};
    case AirName::kRain:
      break;
  }
  return Length{2000};
}

double extinction(Length visibility, Band band) { return extinction_by(kFivePercent, visibility, band); }

double extinction_two_percent(Length visibility, Band band) { return extinction_by(kTwoPercent, visibility, band); }

double transmission(double extinction, Length distance) { return std::exp(-extinction * distance.si()); }

double round_trip_integral(double extinction, Length from, Length upto) {
  const double a = from.si(), b = upto.si();
  if (b <= a || a <= 0) return 0;
  const double k = 2 * extinction;
  if (k <= 0) return 1 / a - 1 / b;
  return std::exp(-k * a) / a - std::exp(-k * b) / b - k * (e1(k * a) - e1(k * b));
}

double backscatter(double extinction, double solid_angle_sr, Length overlap, Length upto) {
  return extinction / solid_angle_sr * std::max(0.0, round_trip_integral(extinction, overlap, upto));
}

Length overlap_begins(Length offset, Angle beam_half, Angle view_half) {
  constexpr double kWidest = 1.4;   // rad: a wider cone begins to overlap no nearer
  constexpr double kNearest = 1e-3;  // m: keeps the integral finite for a lamp in the lens
  const auto tangent = [](Angle half) { return std::tan(std::clamp(half.si(), 0.0, kWidest)); };
  const double slopes = tangent(beam_half) + tangent(view_half);
  return Length{slopes > 0 ? std::max(kNearest, offset.si() / slopes) : 1e9};
}

}  // namespace sightfall::light
