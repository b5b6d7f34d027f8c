// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities in words, in the units that the user asked for.
//   Checked  words_test.cpp
#pragma once
#include <string>

#include "base/ranged.h"
#include "need/project.h"
#include "unit/quantity.h"

namespace sightfall::need {

/// `12.3 m` or `40 ft`.
std::string length_words(Length length, Units units);
/// `3.4 m`, `3.45 m`, `11 ft 4 in` or `7 in`: as exact as is drilled and dug.
std::string measured_words(Length length, Units units);

/// `61` or, in feet, `18.6`.
std::string density_number(PixelDensity density, need::Units units);

/// `61 px/m` or `18.6 px/ft`.
std::string density_words(PixelDensity density, need::Units units);

/// `61 px/m (48 to 75)`.
std::string density_words(const Ranged<PixelDensity>& density, need::Units units);

/// `83 %`.
std::string share_words(double share);

}  // namespace sightfall::need
