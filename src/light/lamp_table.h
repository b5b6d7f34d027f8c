// SPDX-License-Identifier: GPL-3.0-or-later
// The table of intensities of a photometric file, and what the lamp's symmetry adds to it.
#pragma once
#include <cmath>
#include <vector>

#include "light/candela.h"

namespace sightfall::light {

/// Intensities by the angles of the file, degrees; values[plane * gammas + gamma].
struct AngleTable {
  std::vector<double> gammas, planes, values;
};

/// That an angle is so near a whole quarter turn that it stands for it; degrees.
inline bool stands_for(double angle, double quarter) { return std::abs(angle - quarter) < 1e-3; }

/// Planes and gammas changed with one another.
AngleTable transposed(const AngleTable& table);

/// The table with what its planes show beyond a plane that they begin or end with.
AngleTable mirrored(const AngleTable& table, double about);

/// Planes from 0 to 360 degrees, from planes anywhere that together go all round.
AngleTable all_round(const AngleTable& table);

/// Intensities times the factor.
Candela in_candela(AngleTable table, double factor, Goniometer angles);

}  // namespace sightfall::light
