// SPDX-License-Identifier: GPL-3.0-or-later
// What surfaces give back: matt reflectance by band, and plate sheeting, which sends light back where it came from.
//   Model    Lambertian reflectance rho: L = rho E / pi. Sheeting: L = R_A(alpha) E_perp / cos(nu) + rho E / pi, alpha
//            the angle between lamp and lens seen from the plate
//   Source   data/materials.json and plate_retro in data/typical.json, beside each number
//   Checked  surfaces_test.cpp; the table's values in file/standards_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/ranged.h"
#include "light/band.h"
#include "unit/quantity.h"

namespace sightfall::light {

struct Material {
  std::string name;
  PerBand reflectance;  ///< nominal
  std::string source;
};

/// The table with what is usual where a site is silent.
struct Materials {
  std::vector<Material> all;
  std::string ground, building, wall, box, roof, vehicle, foliage, mesh;  ///< names of the usual ones

  const Material* find(const std::string& name) const;
  /// The reflectance of the material of that name, or a grey where the table has none (a table without entries).
  PerBand reflectance(const std::string& name, double grey) const;
};

/// Coefficient of retroreflection at an observation angle, 1/sr (cd/lx/m2): largest / (1 + (alpha / half)^2).
double retroreflection(double largest, Angle half, Angle alpha);

}  // namespace sightfall::light
