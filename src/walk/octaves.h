// SPDX-License-Identifier: GPL-3.0-or-later
// Half of a plane's rows and columns, and twice them: the steps of a pyramid of octaves.
//   Model    weights 1 4 6 4 1 each way; beyond the edges a plane is taken as mirrored
//   Source   P. J. Burt, E. H. Adelson, The Laplacian pyramid as a compact image code, IEEE Transactions on
//            Communications 31, 1983
//   Checked  smear_test.cpp
#pragma once
#include <span>

#include "walk/fourier.h"

namespace sightfall::walk {

enum class Of { kValues, kSquares };

/// Every other row and column of a plane's values, or of their squares, smoothed.
Plane halved(const Plane& plane, Of of = Of::kValues);

/// A row of the plane of which a plane is the half.
void doubled_row(const Plane& half, int row, std::span<float> to);

/// The whole of it, which has so many columns and rows.
Plane doubled(const Plane& half, int columns, int rows);

}  // namespace sightfall::walk
