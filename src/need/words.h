// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities in words, in the units that the user asked for.
//   Checked  words_test.cpp
#pragma once
#include <string>
#include <string_view>

#include "base/ranged.h"
#include "need/project.h"
#include "unit/quantity.h"

namespace sightfall::need {

struct PassageFrames;  // need/check.h
struct WorstPlace;

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

/// Frames as they are told everywhere: rounded down, to a tenth below 10, to whole ones from there.
double frames_told(double mean);

/// `1.5 of 3 frames` or `1.5 (0 to 12) of 3 frames`, rounded down: what is less than asked never reads as it.
std::string frames_words(const PassageFrames& frames);

/// `worst place`; of a need that asks for frames `best moment of the worst passage`, or `worst passage` that none sees.
std::string_view worst_name(const WorstPlace& worst);

/// `61 px/m (48 to 75)`, of a passage `251 px/m (8 to 348); 1.5 (0 to 12) of 3 frames`, or `no camera sees it`.
std::string worst_words(const WorstPlace& worst, need::Units units);

}  // namespace sightfall::need
