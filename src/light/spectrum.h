// SPDX-License-Identifier: GPL-3.0-or-later
// What light is made of: photons of each band per lux or per watt.
//   Source   spectrum.cpp, beside each number; photons per watt: lambda / (h c)
//   Checked  spectrum_test.cpp; tests/outside/light_units_test.cpp (published photons per lux and per watt)
#pragma once
#include "light/band.h"
#include "unit/quantity.h"

namespace sightfall::light {

enum class Spectrum { kDaylight, kLed, kHalogen, kSodium, kInfrared850, kInfrared940 };

/// Photons/(s m2) on a surface for each lux on it. Infrared spectra carry no lux: zero in every band.
PerBand photons_per_lux(Spectrum spectrum);

/// Photons/(s m2) for each W/m2 of an infrared spectrum; for visible spectra zero in every band.
PerBand photons_per_watt(Spectrum spectrum);

/// Photons per second of a watt at one wavelength: lambda / (h c).
double photons_per_watt(Length wavelength);

/// The wavelength that stands for a band in diffraction and in the air: 550, 850, 940 nm.
Length wavelength_of(Band band);

}  // namespace sightfall::light
