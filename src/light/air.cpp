// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/air.h"

#include <algorithm>
#include <cmath>

#include "light/spectrum.h"

namespace sightfall::light {
namespace {

constexpr double kFivePercent = 2.995732273553991;  // -ln 0.05: the reported range's contrast
constexpr double kTwoPercent = 3.912023005428146;   // -ln 0.02: Koschmieder's

/// Exponent of the wavelength (Kim, McArthur, Korevaar 2001, Proc. SPIE 4214, the table from memory); visibility in km.
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

/// Exponential integral E2(x) = exp(-x) - x E1(x), x > 0. Below kFew by that, beyond by its continued fraction, where
/// the difference would lose all digits (Abramowitz and Stegun, 5.1.14 and 5.1.22).
double e2(double x) {
  constexpr double kFew = 1;
  constexpr int kTerms = 24;  // 6.1e-8 of the value too small at kFew, less beyond
  if (x < kFew) return std::exp(-x) + x * std::expint(-x);
  double fraction = x + 2 + 2 * kTerms;
  for (int i = kTerms; i > 0; --i) fraction = x + 2 * i - i * (i + 1) / fraction;
  return std::exp(-x) / fraction;
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

// By parts: exp(-k r) / r - k E1(k r) at both ends, which is E2(k r) / r.
double round_trip_integral(double extinction, Length from, Length upto) {
  const double a = from.si(), b = upto.si();
  if (b <= a || a <= 0) return 0;
  const double k = 2 * extinction;
  if (k <= 0) return 1 / a - 1 / b;
  return std::max(0.0, e2(k * a) / a - e2(k * b) / b);
}

double backscatter(double extinction, double solid_angle_sr, Length overlap, Length upto) {
  return extinction / solid_angle_sr * round_trip_integral(extinction, overlap, upto);
}

Length overlap_begins(Length offset, Angle beam_half, Angle view_half) {
  constexpr double kWidest = 1.4;    // rad (80 degrees): a wider cone begins to overlap no nearer
  constexpr double kNever = 1e9;     // m: two rays side by side
  constexpr double kNearest = 1e-3;  // m: keeps the integral finite for a lamp in the lens
  const auto tangent = [&](Angle half) { return std::tan(std::clamp(half.si(), 0.0, kWidest)); };
  const double slopes = tangent(beam_half) + tangent(view_half);
  return Length{slopes > 0 ? std::max(kNearest, offset.si() / slopes) : kNever};
}

}  // namespace sightfall::light
