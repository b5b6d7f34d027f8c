// SPDX-License-Identifier: GPL-3.0-or-later
// Photons for each lux and each watt, against what is published and against Planck's law, summed here.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/spectrum.h"

namespace sightfall::light {
namespace {

using namespace units;

constexpr double kLumensAWatt = 683;  // at 555 nm

double visible(Spectrum spectrum) { return photons_per_lux(spectrum)[Band::kVisible]; }
double infrared(Spectrum spectrum) {
  return photons_per_lux(spectrum)[Band::kNear850] + photons_per_lux(spectrum)[Band::kNear940];
}

// E = h c / lambda and 683 lm/W (CIE): closed form.
TEST(Photons, OfOneWavelength) {
  EXPECT_NEAR(photons_per_watt(555.0 * nm) / kLumensAWatt / 4.0907e15, 1, 1e-4);
  EXPECT_NEAR(photons_per_watt(299792458 / 540e12 * m) / kLumensAWatt / 4.0919e15, 1, 1e-4);
  EXPECT_NEAR(photons_per_watt(550.0 * nm) / 2.76876e18, 1, 1e-5);
  EXPECT_NEAR(photons_per_watt(850.0 * nm) / 4.27900e18, 1, 1e-5);
  EXPECT_NEAR(photons_per_watt(940.0 * nm) / 4.73207e18, 1, 1e-5);
  // EMVA 1288 release 3.1: 50.34 photons for each um2, ms, um and uW/cm2 (from memory).
  EXPECT_NEAR(photons_per_watt(1000.0 * nm) * 1e-12 * 1e-3 * 1e-6 / 1e-4, 50.34, 0.01);
}

// CIE D65 and illuminant A with CIE 1924 V(lambda), 400 to 700 nm, from a public set of colour data.
TEST(Photons, OfTheStandardIlluminants) {
  EXPECT_NEAR(visible(Spectrum::kDaylight) / 1.088e16, 1, 0.01);
  EXPECT_NEAR(visible(Spectrum::kHalogen) / 1.203e16, 1, 0.01);
}

// A public picture codec's constant for daylight, 11,260 photons a lux, second and um2.
TEST(Photons, OfAPictureCodec) { EXPECT_NEAR(visible(Spectrum::kDaylight) / 1.126e16, 1, 0.04); }

// The tables of CIE 15:2018 with V(lambda), summed every 5 nm: LED-B3 (4103 K) 8.63e15, high-pressure sodium HP1
// 7.01e15, and between 700 and 780 nm 3.3e14 and 5.5e14. Lamps of these kinds differ by as much as is allowed.
TEST(Photons, OfLampsWithinAnEighthOfTheStandardOnes) {
  EXPECT_NEAR(visible(Spectrum::kLed) / 8.63e15, 1, 0.125);
  EXPECT_NEAR(visible(Spectrum::kSodium) / 7.01e15, 1, 0.125);
  EXPECT_LT(infrared(Spectrum::kLed), 5e14);
  EXPECT_GT(infrared(Spectrum::kSodium), 5.5e14);
}

// Planck's law with V(lambda), 700 to 1000 nm.
TEST(Photons, OfTheNearInfrared) {
  EXPECT_NEAR(infrared(Spectrum::kHalogen) / 4.59e16, 1, 0.01);
  EXPECT_NEAR(infrared(Spectrum::kDaylight) / 1.05e16, 1, 0.01);
}

/// Photons by Planck's law between two wavelengths, nm, in a unit of its own.
double planck(double kelvin, double from, double upto) {
  constexpr double kSecondRadiation = 1.438776877e7;  // nm K
  double sum = 0;
  for (double l = from + 0.5; l < upto; l += 1)
    sum += 1 / (std::pow(l, 4) * std::expm1(kSecondRadiation / (l * kelvin)));
  return sum;
}

TEST(Photons, ArePartedAt900AsPlancksLawHasThem) {
  for (const auto& [spectrum, kelvin] : {std::pair{Spectrum::kDaylight, 5778.0}, {Spectrum::kHalogen, 2856.0}})
    EXPECT_NEAR(photons_per_lux(spectrum)[Band::kNear850] / infrared(spectrum),
                planck(kelvin, 700, 900) / planck(kelvin, 700, 1000), 2e-3);
}

// CIE 1924 V(lambda) ends at 830 nm with 4.5e-7: infrared lamps give no lux.
TEST(Photons, OfInfraredLampsGiveNoLux) {
  EXPECT_EQ(photons_per_lux(Spectrum::kInfrared850), PerBand{});
  EXPECT_EQ(photons_per_lux(Spectrum::kInfrared940), PerBand{});
}

// A matt surface: L = rho E / pi; 1000 lx on 0.18 give 57.296 cd/m2 (textbook). The types carry the units: lux over a
// solid angle is luminance.
TEST(Luminance, OfAMattSurface) {
  constexpr Quantity<Dim{.rad = 2}> kSolidAngle{std::numbers::pi};
  const Luminance luminance = 0.18 * (1000.0 * lx) / kSolidAngle;
  EXPECT_NEAR(luminance.si(), 57.296, 1e-3);
}

}  // namespace
}  // namespace sightfall::light
