// SPDX-License-Identifier: GPL-3.0-or-later
// What each mount carries, beside what holds it: weight and wind on the cameras, the moment at the bracket, the pull on
// its upper fixings; of a pole its bending, and what that does to the picture.
//   Model    docs/models.md section 9: wind force = gust pressure x force coefficient x area. On a wall weight and wind
//            turn the bracket about the arm, and one of the upper half of the fixings pulls moment over spread and its
//            share of the wind; under a ceiling each pulls its share of weight and wind, and the wind alone turns the
//            bracket. Where neither is said the larger pull counts. kMargin of our own on all of it
//   Limits   it advises and certifies nothing: local codes and licensed trades decide. The force across a fixing is
//            told and not judged. Ice, birds, a hand that holds on, edges and spacing of fixings, a camera that hangs
//            beside its bracket's middle, and what the bracket itself carries are not reckoned with. What is in a
//            building's outline and below its top has no wind
//   Checked  mounting_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/bearing.h"
#include "loads/cabling.h"
#include "need/project.h"

namespace sightfall::loads {

/// What is held back of a fixing's allowable load, for workmanship and old walls: our own choice.
inline constexpr double kMargin = 1.5;
struct PoleBend {
  Length shift;              ///< of the camera, in the strongest gust, nominally
  Bearing<Pressure> stress;  ///< at the foot, in that gust
  Angle sway;                ///< of the camera's axis: the steady bend in a fresh breeze (need/sway.h)
  Pixels in_picture;         ///< that sway, of the camera with the longest lens
  Frequency own;             ///< how often it sways
};

struct HeldMount {
  std::string mount;
  std::vector<std::string> cameras;
  Length height;
  Ranged<Mass> mass;
  Ranged<Force> wind;
  std::optional<site::HeldBy> held_by;  ///< unset: not known, the larger pull counts
  Ranged<Moment> moment;                ///< at the bracket
  Bearing<Force> pull;                  ///< on one fixing; its capacity in the softest wood that is likely
  Ranged<Force> across;  ///< on one fixing, kMargin included; nothing is known that it could be held against
  std::optional<PoleBend> pole;
  std::vector<std::string> access;  ///< how it is reached, and cautions
  Held held = Held::kUnknown;       ///< the worse of fixing and pole
};

/// A camera outdoors whose sheet states too low a grade against water (loads/ingress.h).
struct Exposed {
  std::string camera, ingress;
  std::string remedy;
};

struct Mounting {
  Ranged<Speed> wind;             ///< fundamental basic velocity
  std::vector<HeldMount> mounts;  ///< those that carry cameras, in the document's order
  std::vector<Exposed> exposed;   ///< cameras in the document's order
  std::vector<Caution> cautions;
  Held held = Held::kMet;
};

/// Of a valid project.
Mounting mounting(const need::Project& project);

}  // namespace sightfall::loads
