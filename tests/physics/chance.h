// SPDX-License-Identifier: GPL-3.0-or-later
// Seeded chance for property tests.
#pragma once
#include <cmath>
#include <random>

#include "geom/vec.h"

namespace sightfall::physics {

/// The same seed, the same course of events.
class Chance {
 public:
  explicit Chance(unsigned seed) : random_{seed} {}
  double between(double low, double high) { return std::uniform_real_distribution<double>{low, high}(random_); }
  /// As many small as large: even in the logarithm.
  double scale(double low, double high) { return low * std::pow(high / low, between(0, 1)); }
  bool heads() { return between(0, 1) < 0.5; }
  geom::Vec3 direction() {
    const geom::Vec3 v{between(-1, 1), between(-1, 1), between(-1, 1)};
    return norm(v) > 0.1 && norm(v) <= 1 ? geom::unit(v) : direction();
  }

 private:
  std::mt19937 random_;
};

}  // namespace sightfall::physics
