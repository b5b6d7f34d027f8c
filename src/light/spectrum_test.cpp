// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/spectrum.h"

#include <gtest/gtest.h>

#include <array>

namespace sightfall::light {
namespace {

using namespace units;

constexpr std::array<Spectrum, 4> kLit{Spectrum::kDaylight, Spectrum::kLed, Spectrum::kHalogen, Spectrum::kSodium};

TEST(PhotonsPerLux, OfVisibleLightOnly) {
  for (const Spectrum s : kLit) {
    EXPECT_GT(photons_per_lux(s)[Band::kVisible], photons_per_watt(555.0 * nm) / 683);  // 555 nm is brightest a photon
    EXPECT_EQ(photons_per_watt(s), PerBand{});
  }
  EXPECT_EQ(photons_per_lux(Spectrum::kInfrared850), PerBand{});
  EXPECT_EQ(photons_per_lux(Spectrum::kInfrared940), PerBand{});
}

TEST(PhotonsPerLux, HaveInfraredAsTheirLampsDo) {
  const auto infrared = [](Spectrum s) {
    return photons_per_lux(s)[Band::kNear850] + photons_per_lux(s)[Band::kNear940];
  };
  EXPECT_LT(infrared(Spectrum::kLed), infrared(Spectrum::kSodium));
  EXPECT_LT(infrared(Spectrum::kSodium), infrared(Spectrum::kDaylight));
  EXPECT_LT(infrared(Spectrum::kDaylight), infrared(Spectrum::kHalogen));
}

TEST(PhotonsPerWatt, FallInTheBandOfTheLamp) {
  EXPECT_EQ(photons_per_watt(Spectrum::kInfrared850), (PerBand{{0, photons_per_watt(850.0 * nm), 0}}));
  EXPECT_EQ(photons_per_watt(Spectrum::kInfrared940), (PerBand{{0, 0, photons_per_watt(940.0 * nm)}}));
}

TEST(PhotonsPerWatt, GrowWithTheWavelength) {
  EXPECT_DOUBLE_EQ(photons_per_watt(1000.0 * nm), 2 * photons_per_watt(500.0 * nm));
}

TEST(WavelengthOf, StandsInItsBand) {
  EXPECT_DOUBLE_EQ(wavelength_of(Band::kVisible).in(nm), 550.0);
  EXPECT_DOUBLE_EQ(wavelength_of(Band::kNear850).in(nm), 850.0);
  EXPECT_DOUBLE_EQ(wavelength_of(Band::kNear940).in(nm), 940.0);
}

}  // namespace
}  // namespace sightfall::light
