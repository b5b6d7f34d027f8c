// SPDX-License-Identifier: GPL-3.0-or-later
// How a lamp's light is spread: luminous intensity by direction, from a photometric file or in closed form.
//   Frame    the lamp's, as a camera's: x right, y down, z along the axis. gamma from the axis (0 along it, pi behind
//   it);
//            C about the axis, counter-clockwise seen from behind: C 0 to the right, C 90 up. Of a lamp that hangs and
//            shines down, up is forward, as the street side of a road lantern is C 90 of EULUMDAT
//   Model    bilinear between the angles of the table, which keeps those it was measured in; zero outside them
//   Error    the flux of the interpolated table is exact to kFluxError of what the file's angles say
//   Source   of the angles LM-63-2002, key definitions; the side that C 90 looks to, from memory
//   Checked  candela_test.cpp; tests/outside/lamp_flux_test.cpp (closed-form lumens of both formats, each symmetry),
//            lamp_problems_test.cpp
#pragma once
#include <vector>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::light {

inline constexpr double kFluxError = 1e-3;

/// The angles that a table goes by: `polar` from one end of an axis, `azimuth` about it.
enum class Goniometer {
  kCGamma,  ///< gamma, C
  kTypeC,   ///< gamma; horizontal from where C is 90, counter-clockwise as C
  kTypeB,   ///< horizontal + 90 degrees, from the left end of the level axis; vertical + 180 degrees about it
  kTypeA,   ///< vertical + 90 degrees, from straight down; horizontal + 180 degrees, clockwise seen from above
};

/// Intensities over a grid of angles; candela of the whole lamp.
class Candela {
 public:
  /// Polar angles (gammas) rising in [0, pi], azimuths (planes) rising in [0, 2 pi]; values[plane * gammas + gamma],
  /// cd. One plane: the same all round. CHECKs these.
  Candela(std::vector<double> gammas, std::vector<double> planes, std::vector<double> values,
          Goniometer angles = Goniometer::kCGamma);

  Intensity at(Angle gamma, Angle plane) const;
  LuminousFlux flux() const;
  Intensity largest() const;

 private:
  double between(double polar, double azimuth) const;

  std::vector<double> gammas_, planes_, values_;
  Goniometer angles_;
};

/// Intensity towards a direction of the lamp's frame, of any length but zero.
Intensity intensity_towards(const Candela& candela, geom::Vec3 way_lamp);

/// Illuminance at a place in the lamp's frame, metres, on a surface with that unit normal; zero on its other side.
Illuminance illuminance(const Candela& candela, geom::Vec3 place_lamp, geom::Vec3 normal_lamp);

/// A plain lamp: cos^n about its axis with that flux; no beam: a matt surface (n = 1).
Candela plain_lamp(LuminousFlux flux, Angle beam_full_width);
Candela matt_lamp(LuminousFlux flux);

}  // namespace sightfall::light
