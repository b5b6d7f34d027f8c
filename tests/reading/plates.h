// SPDX-License-Identifier: GPL-3.0-or-later
// Plates with random characters, photographed and read.
#pragma once
#include "crop.h"
#include "experiment.h"

namespace sightfall::reading {

/// The readers of plates, in the order of Look::right.
inline constexpr std::array kPlateReaders{"Tesseract", "matcher"};

Look read_plate(const Level& level, uint64_t seed);

/// The plate, to be looked at.
Grey shown_plate(const Level& level, uint64_t seed);

}  // namespace sightfall::reading
