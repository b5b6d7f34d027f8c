// SPDX-License-Identifier: GPL-3.0-or-later
// A pole that is held at its foot, as wind bends it.
//   Model    Euler-Bernoulli cantilever: a force F at a height a bends it up to there by F h^2 (3 a - h) / 6EI, F h (2
//   a
//            - h) / 2EI, and straight on above; an even load by w h^2 (6 L^2 - 4 L h + h^2) / 24EI, w h (3 L^2 - 3 L h
//            + h^2) / 6EI (at the top w L^4 / 8EI, w L^3 / 6EI); own frequency (1 / 2 pi) sqrt(3EI / (L^3 (sum p^2 m +
//            0.24 m_pole))), Rayleigh, p = h^2 (3 L - h) / 2 L^3: how far it sways at a mass beside the top
//   Limits   a stiff foot: soil and base plate give too, and are not reckoned with; damping and vortices neither
//   Source   any text on the strength of materials; E and densities of materials from memory
//   Checked  pole_test.cpp
#pragma once
#include <vector>

#include "site/carriers.h"

namespace sightfall::site {

struct PoleStuff {
  Pressure modulus;    ///< Young's
  Pressure allowable;  ///< bending stress
  Quantity<Dim{.m = -3, .kg = 1}> density;
};
PoleStuff stuff_of(PoleMaterial material);

/// Of a tube's cross section.
SecondMoment second_moment(Length outer, Length wall);

struct Bend {
  Length shift;
  Angle slope;
};
/// At a height, by a force at its own.
Bend bent_by_force(const Pole& pole, Force force, Length force_at, Length height);
/// An even load over the whole pole, at a height.
Bend bent_by_wind(const Pole& pole, LineLoad load, Length height);

/// How far what is seen moves in the picture when the camera is turned by a slope; the focal length in pixels.
Pixels moved_in_picture(double focal_px, Angle slope);

/// Bending stress at the foot.
Pressure stress_at_foot(const Pole& pole, Moment moment);

struct MassAt {
  Mass mass;
  Length height;
};
/// Its first own frequency with masses on it.
Frequency own_frequency(const Pole& pole, const std::vector<MassAt>& masses);

}  // namespace sightfall::site
