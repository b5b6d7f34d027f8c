// SPDX-License-Identifier: GPL-3.0-or-later
// Faces of no one, each a little different, photographed and looked for.
//   Model    walk::face_at on a head with hair, neck and shoulders; tilted by up to 8 degrees, narrower or wider by up
//   to
//            8 %, lit from one side by up to 30 % more than from the other
//   Limits   one drawing: what is measured is how its parts fade, not how faces differ
#pragma once
#include "crop.h"
#include "experiment.h"

namespace sightfall::reading {

inline constexpr std::array kFaceReaders{"cascade"};

Look find_face(const Level& level, uint64_t seed);

/// The face and what is about it, to be looked at.
Grey shown_face(const Level& level, uint64_t seed);

}  // namespace sightfall::reading
