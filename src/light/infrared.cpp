// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/infrared.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sightfall::light {

double beam_exponent(Angle full_width) {
  constexpr double kNarrowest = 0.002, kWidest = 3.1;  // rad: keeps the exponent finite and positive
  return std::log(0.5) / std::log(std::cos(std::clamp(full_width.si(), kNarrowest, kWidest) / 2));
}

double relative_intensity(double exponent, double cosine) { return cosine > 0 ? std::pow(cosine, exponent) : 0; }

RadiantIntensity on_axis(Power radiant, double exponent) {
  return RadiantIntensity{radiant.si() * (exponent + 1) / (2 * std::numbers::pi)};
}

Power radiated(RadiantIntensity intensity, double exponent) {
  return Power{intensity.si() * 2 * std::numbers::pi / (exponent + 1)};
}

Irradiance eye_limit(Time exposure) {
  constexpr double kLong = 1000, kLongLimit = 100;  // s, W/m2
  if (exposure.si() > kLong) return Irradiance{kLongLimit};
  constexpr double kScale = 18000, kPower = -0.75;
  return Irradiance{kScale * std::pow(exposure.si(), kPower)};
}

Length eye_distance(RadiantIntensity intensity, Time exposure) {
  return Length{std::sqrt(intensity.si() / eye_limit(exposure).si())};
}

bool glows(Length wavelength) {
  constexpr double kDim = 900e-9;  // m: beyond it a lamp is not seen to glow
  return wavelength.si() < kDim;
}

}  // namespace sightfall::light
