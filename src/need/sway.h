// SPDX-License-Identifier: GPL-3.0-or-later
// How a mount sways in wind: as the document states, or else as its pole bends in a fresh breeze.
//   Model    the steady bend of the pole (site/pole.h) under the wind on itself and on every camera that hangs on it by
//            whichever bracket, at its own frequency; the bend is taken as an amplitude
//   Limits   gusts bend it more, damping less; a stiff foot; in a building's outline and below its top is no wind
//   Checked  sway_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/ranged.h"
#include "need/project.h"
#include "unit/mechanics.h"

namespace sightfall::need {

/// In which pictures are still wanted: the upper end of Beaufort 5, a fresh breeze (WMO).
inline constexpr Speed kBreeze{10.7};
/// Of a round pole, subcritical, which is the most that it has: EN 1991-1-4 and textbooks, from memory.
inline constexpr double kPoleDrag = 1.2;

/// What hangs on a mount.
struct Hanging {
  std::vector<std::string> cameras;
  Ranged<Mass> mass;
  Ranged<double> area;  ///< that the wind meets, m2
};
Hanging hanging_on(const Project& project, const site::Mount& mount);

/// Mounts on the pole of one that has a pole, itself among them: poles of one diameter at one place.
std::vector<const site::Mount*> on_same_pole(const site::Site& site, const site::Mount& mount);

/// On level ground: what is in a building's outline and below its top.
bool out_of_wind(const site::Site& site, const site::Mount& mount);

struct Sway {
  Angle amplitude;
  Frequency frequency;
  bool of_pole = false;  ///< whether either is the pole's, for the document states none
};

/// Of a mount that has a pole, at a height on it.
Sway pole_sway(const Project& project, const site::Mount& mount, Length height);

/// What the verdicts count with; of a mount that may be raised.
Sway sway_of(const Project& project, const site::Mount& mount, Length raised = Length{0});

}  // namespace sightfall::need
