// SPDX-License-Identifier: GPL-3.0-or-later
#include "plate_cells.h"

#include <cmath>

#include "walk/pattern.h"

namespace sightfall::reading {
namespace {

// Metres.
constexpr double kGap = 0.011;         // between characters (walk/pattern.cpp)
constexpr double kAboveBelow = 0.005;  // of a character, well within the plate's border
constexpr double kPitch = walk::kCharacterWidth.si() + kGap;
constexpr double kHigh = walk::kCharacterHeight.si() + 2 * kAboveBelow;
constexpr double kPointsAMetre = kCharacterRows / walk::kCharacterHeight.si();

}  // namespace

Cells cells_of(const Photograph& plate, int count) {
  const auto points = [](double metres) { return static_cast<int>(std::lround(metres * kPointsAMetre)); };
  const double across = count * kPitch, d = plate.density;
  const Piece piece{plate.left + (walk::kPlateWidth.si() - across) / 2 * d,
                    plate.top + (walk::kPlateHeight.si() - kHigh) / 2 * d, across * d, kHigh * d};
  const int columns = points(kPitch);
  return {resized(plate, piece, count * columns, points(kHigh)), count, columns};
}

geom::Vec2 in_box(int column, int row) {
  return {(column + 0.5) * kPitch / std::lround(kPitch * kPointsAMetre) - kGap / 2,
          (row + 0.5) / kPointsAMetre - kAboveBelow};
}

}  // namespace sightfall::reading
