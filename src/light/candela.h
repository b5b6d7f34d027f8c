// SPDX-License-Identifier: GPL-3.0-or-later
// How a lamp's light is spread: luminous intensity by direction, from a photometric file or in closed form.
//   Frame    gamma from the lamp's axis (0 along it, pi behind it), C about the axis from its 0 plane; types A and B
//            are turned into this frame when they are read
//   Model    bilinear between the angles of the file; zero outside them
//   Error    the flux of the interpolated table is exact to kFluxError of what the file's angles say
//   Checked  candela_test.cpp; tests/outside/lamp_flux_test.cpp (closed-form lumens of both formats, each symmetry)
#pragma once
#include <string>
#include <vector>

#include "unit/quantity.h"

namespace sightfall::light {

inline constexpr double kFluxError = 1e-3;

/// Intensities over a grid of angles; candela of the whole lamp.
class Candela {
 public:
  /// gamma rising in [0, pi], planes rising in [0, 2 pi]; values[plane * gammas + gamma], cd. One plane: the same all
  /// round. CHECKs these.
  Candela(std::vector<double> gammas, std::vector<double> planes, std::vector<double> values);

  Intensity at(Angle gamma, Angle plane) const;
  LuminousFlux flux() const;
  Intensity largest() const;

 private:
  std::vector<double> gammas_, planes_, values_;
};

/// A plain lamp: cos^n about its axis with that flux; no beam: a matt surface (n = 1).
Candela plain_lamp(LuminousFlux flux, Angle beam_full_width);
Candela matt_lamp(LuminousFlux flux);

}  // namespace sightfall::light
