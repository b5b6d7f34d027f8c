// SPDX-License-Identifier: GPL-3.0-or-later
// What is drawn on a subject's flat parts: plates, faces, bars and a target of known size.
//   Model    a value in [-1, 1] over a rectangle, bright 1 and dark -1; a picture's reflectance is
//            mean (1 + contrast value). The mean value over the rectangle is near 0 for the target and for whole cycles
//            of bars, -0.1 +- 0.1 for a face, whose skin is a little
//            brighter than the mean and whose hair much darker, 0.2 to 0.7 for a plate, which is mostly bright sheeting
//   Frame    u 0 to 1 left to right and v 0 to 1 top to bottom, as seen by who looks at it
//   Source   plates and faces are invented; sizes from memory, beside each
//   Checked  pattern_test.cpp
#pragma once
#include <cstdint>
#include <string>

#include "unit/quantity.h"

namespace sightfall::walk {

// --- Plates: sizes of the order of European ones, from memory.

inline constexpr Length kPlateWidth{0.52}, kPlateHeight{0.11}, kPlateBorder{0.004};
inline constexpr int kLongestPlate = 7;  ///< characters

/// An invented plate's characters: figure, letter, figure, letter, figure, letter and for every second one a figure
/// more: a format of our own that is no country's. The same seed gives the same characters on every machine.
std::string random_plate(uint64_t seed);

class PlatePattern {
 public:
  /// CHECK: 1 to kLongestPlate characters, each with a glyph (walk/glyphs.h).
  explicit PlatePattern(std::string characters);

  /// Dark characters and border on bright sheeting.
  double at(double u, double v) const;
  /// Width over height.
  static double aspect() { return kPlateWidth / kPlateHeight; }

 private:
  std::string characters_;
};

// --- Faces: heights of the features from memory, about those of an adult 1.75 m tall.

inline constexpr Length kFaceWidth{0.16}, kFaceHeight{0.23};

/// The value of hair, on the face and on the rest of the head.
inline constexpr double kHairTone = -0.85;

/// A face seen from the front, of no one: hair, brows, eyes, nose, mouth, jaw.
double face_at(double u, double v);

// --- Bars and the target.

/// Square bars, half of each cycle bright: `across` in metres, `frequency` in cycles a metre.
double bars_at(double across, double frequency);

/// Bars that rise and fall as a sine of amplitude 1.
double sine_bars_at(double across, double frequency);

/// A board of known size: a checker of 5 x 5, an edge 5 degrees off the vertical, and five groups of square bars, each
/// twice as fine as the one before, on grey.
class TargetPattern {
 public:
  /// A rectangle of the board, in u and v.
  struct Patch {
    double left = 0, top = 0, width = 0, height = 0;
  };
  static constexpr Length kSide{0.5};
  static constexpr int kCells = 5;   ///< of the checker, a side
  static constexpr int kGroups = 5;  ///< of bars
  static constexpr Angle kSlant{0.08726646259971647};
  static constexpr Patch kChecker{0.04, 0.04, 0.44, 0.44}, kEdge{0.52, 0.04, 0.44, 0.44};

  static Patch bars(int group);
  /// Cycles a metre: 25, 50, 100, 200, 400, the finest that 50 to 800 px/m could carry.
  static double frequency(int group);

  double at(double u, double v) const;
};

}  // namespace sightfall::walk
