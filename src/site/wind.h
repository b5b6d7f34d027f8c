// SPDX-License-Identifier: GPL-3.0-or-later
// The pressure of a gust at a height.
//   Model    v_m = v_b k_r ln(z / z0), I_v = 1 / ln(z / z0), q_p = (1 + 7 I_v) rho v_m^2 / 2, not below z_min; k_r =
//            0.19 (z0 / 0.05)^0.07
//   Limits   flat open ground, no gaps between houses; direction, season and orography factors are 1
//   Source   EN 1991-1-4:2005, 4.3 to 4.5 and table 4.1 (z0 and z_min from memory)
//   Checked  wind_test.cpp
#pragma once
#include "site/carriers.h"

namespace sightfall::site {

/// rho of EN 1991-1-4, 4.5.
inline constexpr FluidDensity kAir{1.25};

/// Roughness length, and the height below which the wind is taken as at that height.
struct Roughness {
  Length length, lowest;
};
Roughness roughness(TerrainCategory category);

/// Of a steady wind, rho v^2 / 2.
Pressure steady_pressure(Speed speed);

/// Peak velocity pressure at a height above ground.
Pressure gust_pressure(Speed basic, TerrainCategory category, Length height);

}  // namespace sightfall::site
