// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/spectrum.h"

namespace sightfall::light {
namespace {

constexpr double kPlanck = 6.62607015e-34, kLightSpeed = 299792458;  // J s, m/s, exact (SI)

// Photons/(s m2) per lux. Visible: 400-700 nm from CIE D65 and illuminant A with V(lambda), colour-science data. Near
// infrared, 700-1000 nm: Planck's law at 5778 K and 2856 K with V(lambda), split at 900 nm by the same law.
constexpr PerBand kDaylight{{1.088e16, 0.737e16, 0.313e16}};
constexpr PerBand kHalogen{{1.203e16, 2.72e16, 1.87e16}};
// A white LED radiates some 300 lm/W, all of it visible, at a mean wavelength near 570 nm (from memory):
// 1 / 300 W at 2.87e18 photons a joule. Sodium, high pressure: some 380 lm/W of visible light near 590 nm and an eighth
// as many photons at 819 nm (from memory).
constexpr PerBand kLed{{0.96e16, 0, 0}};
constexpr PerBand kSodium{{0.78e16, 0.1e16, 0}};

}  // namespace

PerBand photons_per_lux(Spectrum spectrum) {
  switch (spectrum) {
    case Spectrum::kDaylight:
      return kDaylight;
    case Spectrum::kLed:
      return kLed;
    case Spectrum::kHalogen:
      return kHalogen;
    case Spectrum::kSodium:
      return kSodium;
    case Spectrum::kInfrared850:
    case Spectrum::kInfrared940:
      break;
  }
  return {};
}

PerBand photons_per_watt(Spectrum spectrum) {
  PerBand photons;
  if (spectrum == Spectrum::kInfrared850) photons[Band::kNear850] = photons_per_watt(wavelength_of(Band::kNear850));
  if (spectrum == Spectrum::kInfrared940) photons[Band::kNear940] = photons_per_watt(wavelength_of(Band::kNear940));
  return photons;
}

double photons_per_watt(Length wavelength) { return wavelength.si() / (kPlanck * kLightSpeed); }

Length wavelength_of(Band band) {
  switch (band) {
    case Band::kVisible:
      return Length{550e-9};
    case Band::kNear850:
      return Length{850e-9};
    case Band::kNear940:
      break;
  }
  return Length{940e-9};
}

}  // namespace sightfall::light
