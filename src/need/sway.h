// SPDX-License-Identifier: GPL-3.0-or-later
// How a mount sways in wind: as the document states, or else as its pole bends in a fresh breeze.
//   Model    the steady bend of the pole (site/pole.h) under the wind on itself and on every camera that hangs on it by
//            whichever bracket, at its own frequency; the bend is taken as an amplitude, within the range of pole_sway
//            (gusts, damping, less wind). Where only the amplitude is stated, the frequency is the pole's within that
//            of pole_frequency, or off a pole that of sway_frequency (data/typical.json)
//   Limits   a stiff foot; in a building's outline and below its top is no wind
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

/// What of a mount's sway is assumed, for the document does not state it.
enum class SwayAssumed {
  kNothing,         ///< stated, or still
  kBendOfPole,      ///< how far it sways
  kPolesFrequency,  ///< how often alone
  kUsualFrequency,  ///< the same, off a pole
};

/// The table's entry behind it; what is not assumed has none, and gets that of a pole's sway.
const detail::TypicalValue& entry_of(SwayAssumed assumed, const detail::Typical& typical);

struct Sway {
  Angle amplitude;
  Frequency frequency;
  SwayAssumed assumed = SwayAssumed::kNothing;
  Ranged<double> factor = Ranged<double>::exact(1);  ///< on what is assumed
};

/// As a mount's pole bends in a fresh breeze, at a height on it.
struct PoleSway {
  Angle amplitude;
  Frequency frequency;
};
PoleSway pole_sway(const Project& project, const site::Mount& mount, Length height);

/// What the verdicts count with; of a mount that may be raised.
Sway sway_of(const Project& project, const site::Mount& mount, Length raised = Length{0});

}  // namespace sightfall::need
