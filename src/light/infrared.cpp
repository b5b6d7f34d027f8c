// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/infrared.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace sightfall::light {
namespace {

using std::numbers::pi;
constexpr Irradiance kLongLimit{100};   // W/m2 beyond kLongExposure (from memory)
constexpr Time kLongExposure{1000};     // s
constexpr double kShortLimit = 18'000;  // W/m2 after one second
constexpr Length kLongestGlow{0.9e-6};  // between 850 nm, which glows, and 940 nm, which does not (from memory)
constexpr double kNarrowest = 1e-6;     // rad of half-angle; nearer to nothing the exponent has no meaning

}  // namespace

double beam_exponent(Angle full_width) {
  CHECK_LT(0, full_width.si());
  CHECK_LT(full_width.si(), pi);
  // ln cos h written as ln(1 - sin^2 h) / 2, which keeps its digits for a narrow beam.
  const double sine = std::sin(std::max(full_width.si() / 2, kNarrowest));
  return -2 * std::numbers::ln2 / std::log1p(-sine * sine);
}

double relative_intensity(double exponent, double cosine) {
  CHECK_LE(0, exponent);
  return cosine > 0 ? std::pow(std::min(cosine, 1.0), exponent) : 0;
}

RadiantIntensity on_axis(Power radiant, double exponent) {
  CHECK_LE(0, exponent);
  return RadiantIntensity{radiant.si() * (exponent + 1) / (2 * pi)};
}

Power radiated(RadiantIntensity intensity, double exponent) {
  CHECK_LE(0, exponent);
  return Power{intensity.si() * 2 * pi / (exponent + 1)};
}

Irradiance eye_limit(Time exposure) {
  CHECK_LT(0, exposure.si());
  return exposure <= kLongExposure ? Irradiance{kShortLimit * std::pow(exposure.si(), -0.75)} : kLongLimit;
}

Length eye_distance(RadiantIntensity intensity, Time exposure) {
  CHECK_LE(0, intensity.si());
  return Length{std::sqrt(intensity.si() / eye_limit(exposure).si())};
}

bool glows(Length wavelength) { return wavelength < kLongestGlow; }

}  // namespace sightfall::light
