// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/sensor.h"

#include <algorithm>
#include <cmath>

namespace sightfall::detail {

double signal_variance(double mean, const SensorNoise& noise) {
  constexpr double kUniform = 1.0 / 12;  // variance of a uniform step
  return mean + noise.read * noise.read + noise.dark + noise.step * noise.step * kUniform;
}

double signal_to_noise(double mean, const SensorNoise& noise) {
  const double variance = signal_variance(mean, noise);
  return variance > 0 ? mean / std::sqrt(variance) : 0;
}

double output_step(double mean, double full_scale) {
  constexpr double kSteps = 255;
  if (full_scale <= 0) return 0;
  const double output = std::sqrt(std::clamp(mean / full_scale, 0.0, 1.0));
  // The curve is steep without end at black; there one step of output is the first step's own width.
  return full_scale * std::max(2 * output / kSteps, 1 / (kSteps * kSteps));
}

double grey_level(double electrons, double full_scale) {
  constexpr double kSteps = 255;
  return full_scale > 0 ? kSteps * std::sqrt(std::max(0.0, electrons) / full_scale) : 0;
}

double image_share(double f_number) { return 1 / (4 * f_number * f_number); }

Characterised characterise(double gain, double responsivity, double dark_deviation, double saturation_photons) {
  Characterised result;
  result.efficiency = responsivity / gain;
  result.read_noise = std::sqrt(std::max(0.0, dark_deviation * dark_deviation - 1.0 / 12)) / gain;
  result.least_photons = (dark_deviation / gain + 0.5) / result.efficiency;
  result.full_well = result.efficiency * saturation_photons;
  result.largest_ratio = std::sqrt(result.full_well);
  result.dynamic_range = saturation_photons / result.least_photons;
  return result;
}

double rolling_lean(double speed, double readout, int rows) { return speed * readout / rows; }

double decibels(double ratio) { return 20 * std::log10(ratio); }
double ratio_of_decibels(double decibels) { return std::pow(10.0, decibels / 20); }

}  // namespace sightfall::detail
