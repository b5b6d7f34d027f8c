// SPDX-License-Identifier: GPL-3.0-or-later
// What must be made out: subject, place, level, conditions and share: an operational requirement that can be computed.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "unit/quantity.h"

namespace sightfall::need {

enum class Subject { kFace, kPerson, kPlate, kVehicle, kObject };

/// Which way the subject faces: towards the camera, the way it travels, or a fixed heading.
enum class Facing { kCamera, kTravel, kHeading };

struct Need {
  std::string name;
  Subject subject = Subject::kFace;
  std::string place;
  std::string level;                    ///< a level of the document's table
  std::vector<std::string> conditions;  ///< empty: every condition of the document
  double share = 0.95;                  ///< of samples (of passages, when once_a_passage is set)
  std::optional<int> once_a_passage;    ///< least frames at the level each time something passes along the route
  Facing facing = Facing::kCamera;
  Angle facing_heading;                   ///< for Facing::kHeading
  std::optional<Length> height;           ///< of the subject's middle above ground; unset: the subject's own
  std::optional<Speed> speed;             ///< unset: the route's, else the subject's own
  std::optional<Time> shutter;            ///< the longest exposure; unset: the camera's
  std::optional<Pixels> detector_height;  ///< least height of the subject in the picture, for a detector
  bool colour = false;
};

}  // namespace sightfall::need
