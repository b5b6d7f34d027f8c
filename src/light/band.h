// SPDX-License-Identifier: GPL-3.0-or-later
// Light by band, counted in photons, which is what a sensor counts. Three bands: what the eye sees and a colour picture
// is made of (400-700 nm), and the near infrared about the two wavelengths of infrared lamps (700-900, 900-1000 nm).
#pragma once
#include <array>
#include <cstddef>

namespace sightfall::light {

enum class Band { kVisible, kNear850, kNear940 };
inline constexpr size_t kBandCount = 3;
inline constexpr std::array<Band, kBandCount> kBands{Band::kVisible, Band::kNear850, Band::kNear940};

/// A value for each band: photons/(s m2) that fall on a surface, a reflectance, a sensor's response.
struct PerBand {
  std::array<double, kBandCount> value{};

  double operator[](Band band) const { return value[static_cast<size_t>(band)]; }
  double& operator[](Band band) { return value[static_cast<size_t>(band)]; }
  bool operator==(const PerBand&) const = default;

  PerBand& operator+=(const PerBand& other) {
    for (size_t i = 0; i < kBandCount; ++i) value[i] += other.value[i];
    return *this;
  }
  friend PerBand operator+(PerBand a, const PerBand& b) { return a += b; }
  friend PerBand operator*(double k, PerBand a) {
    for (double& v : a.value) v *= k;
    return a;
  }
  /// Band by band: light times reflectance.
  friend PerBand operator*(PerBand a, const PerBand& b) {
    for (size_t i = 0; i < kBandCount; ++i) a.value[i] *= b.value[i];
    return a;
  }
};

/// Sum over the bands of light times response.
inline double dot(const PerBand& a, const PerBand& b) {
  double sum = 0;
  for (size_t i = 0; i < kBandCount; ++i) sum += a.value[i] * b.value[i];
  return sum;
}

}  // namespace sightfall::light
