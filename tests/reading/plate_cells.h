// SPDX-License-Identifier: GPL-3.0-or-later
// A plate's characters side by side, enlarged so that each is 40 points high whatever the picture's scale.
//   Model    where the plate is and how many characters it has is known: finding it is not what is asked here
#pragma once
#include <string_view>

#include "crop.h"
#include "walk/glyphs.h"

namespace sightfall::reading {

inline constexpr int kCharacterRows = 40;

/// One row of cells of equal size, a character in the middle of each.
struct Cells {
  Grey picture;
  int count = 0;
  int columns = 0;  ///< of one
};

Cells cells_of(const Photograph& plate, int count);

/// The characters that plates have at a place: figures and letters take turns (walk::random_plate).
inline std::string_view characters_at(int place) { return place % 2 == 0 ? walk::kFigures : walk::kLetters; }

/// Where a point of a cell lies in its character's box, metres right of and below the box's upper left corner.
geom::Vec2 in_box(int column, int row);

}  // namespace sightfall::reading
