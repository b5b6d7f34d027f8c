// SPDX-License-Identifier: GPL-3.0-or-later
// A sensor's signal and noise, in electrons: the linear model of EMVA 1288.
//   Model    variance = mean + read^2 + dark + step^2 / 12; clipped at the full well, or at full scale over gain
//   Domain   total for means >= 0
//   Source   EMVA 1288 release 4 linear; docs/models.md section 5
//   Checked  sensor_test.cpp; tests/outside/sensor_test.cpp (the standard's published sample)
#pragma once

namespace sightfall::detail {

/// Noise besides that of the light itself.
struct SensorNoise {
  double read = 0;  ///< standard deviation, electrons
  double dark = 0;  ///< electrons that came without light
  double step = 0;  ///< electrons of one step of the output at this level
};

/// Variance of a mean signal, electrons squared.
double signal_variance(double mean, const SensorNoise& noise);

double signal_to_noise(double mean, const SensorNoise& noise);

/// Electrons of one of 255 output steps at a level, through a square-root tone curve (video's is close to it).
double output_step(double mean, double full_scale);

/// Grey level, 0 to 255 where it does not clip, through the same curve.
double grey_level(double electrons, double full_scale);

/// Share of the light on a matt white surface that reaches the sensor behind a lens without loss: 1 / (4 N^2).
double image_share(double f_number);

/// What a camera's characterisation states, from what was measured (EMVA 1288): gain K in output steps an electron,
/// responsivity R in steps a photon, dark deviation in steps, saturation in photons.
struct Characterised {
  double efficiency = 0;     ///< electrons per photon
  double read_noise = 0;     ///< electrons
  double least_photons = 0;  ///< absolute sensitivity threshold
  double full_well = 0;      ///< electrons
  double largest_ratio = 0;  ///< signal to noise at saturation
  double dynamic_range = 0;  ///< ratio
};
Characterised characterise(double gain, double responsivity, double dark_deviation, double saturation_photons);

/// Slope, columns a row, by which a rolling shutter leans what crosses the picture at a speed (px/s), when `rows` are
/// read one after the other in `readout` seconds.
double rolling_lean(double speed, double readout, int rows);

/// A ratio of amplitudes in decibels: 20 log10.
double decibels(double ratio);
double ratio_of_decibels(double decibels);

}  // namespace sightfall::detail
