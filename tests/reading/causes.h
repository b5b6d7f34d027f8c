// SPDX-License-Identifier: GPL-3.0-or-later
// What takes detail away, one cause at a time, each through settings in which a reader goes from always to never.
//   Model    distance is density alone; every other cause acts at a density at which distance costs nothing
#pragma once
#include <string>
#include <vector>

#include "photograph.h"

namespace sightfall::reading {

struct Level {
  double value = 0;  ///< in the cause's unit
  Setting setting;
  Finish finish = {};  ///< compression, say: the setting then tells the kernel of it
};

struct Cause {
  std::string name, unit;
  std::vector<Level> levels;  ///< from harmless to hopeless
};

/// Distance comes first: the others are held against it.
std::vector<Cause> plate_causes();
std::vector<Cause> face_causes();

/// Mixtures of causes that nothing was fixed on, of one level each: docs/held_out.md.
Cause held_out_plate();
Cause held_out_face();

}  // namespace sightfall::reading
