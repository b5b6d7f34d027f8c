// SPDX-License-Identifier: GPL-3.0-or-later
// A pole that is held at its foot, as wind bends it.
//   Model    Euler-Bernoulli cantilever: a force at a height F L^3 / 3EI, F L^2 / 2EI; an even load w L^4 / 8EI,
//            w L^3 / 6EI; own frequency (1 / 2 pi) sqrt(3EI / (L^3 (m + 0.24 m_pole))), Rayleigh
//   Limits   a stiff foot: soil and base plate give too, and are not reckoned with; damping and vortices neither
//   Source   any text on the strength of materials, such as Timoshenko; E and densities of materials from memory
//   Checked  pole_test.cpp
#pragma once
#include "site/carriers.h"

namespace sightfall::loads {

struct PoleStuff {
  Pressure modulus;    ///< Young's
  Pressure allowable;  ///< bending stress
  Quantity<Dim{.m = -3, .kg = 1}> density;
};
PoleStuff stuff_of(site::PoleMaterial material);

/// Of a tube's cross section.
SecondMoment second_moment(Length outer, Length wall);

struct Bend {
  Length shift;  ///< at the height of the force, or at the top
  Angle slope;
};
Bend bent_by_force(const site::Pole& pole, Force force, Length height);
/// An even load over the whole height; at the top.
Bend bent_by_wind(const site::Pole& pole, LineLoad load);

/// How far what is seen moves in the picture when the camera is turned by a slope; the focal length in pixels.
Pixels moved_in_picture(double focal_px, Angle slope);

/// Bending stress at the foot.
Pressure stress_at_foot(const site::Pole& pole, Moment moment);

/// Its first own frequency with a mass at a height.
Frequency own_frequency(const site::Pole& pole, Mass mass, Length height);

}  // namespace sightfall::loads
