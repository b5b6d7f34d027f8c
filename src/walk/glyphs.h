// SPDX-License-Identifier: GPL-3.0-or-later
// The letterform of invented plates: each character as strokes of one width with round ends.
//   Model    strokes are lines and arcs of circles; the distance to the nearest one makes a character sharp at any
//   scale Domain   the figures and capitals without I, O and Q, which are taken for 1 and 0 Source   drawn for this
//   program; sizes of the order of European plates, from memory Checked  pattern_test.cpp: differences between
//   characters, recognition after blur
#pragma once
#include <string_view>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::walk {

inline constexpr Length kCharacterHeight{0.08}, kCharacterWidth{0.044}, kStroke{0.011};
inline constexpr std::string_view kFigures = "0123456789", kLetters = "ABCDEFGHJKLMNPRSTUVWXYZ";

/// Whether plates have this character.
bool has_glyph(char character);

/// Signed distance in metres from a point to the edge of a character's ink, negative in the ink. The point is in metres
/// right of and below the upper left corner of the character's box. CHECK: has_glyph(character).
double ink_distance(char character, geom::Vec2 at);

}  // namespace sightfall::walk
