// SPDX-License-Identifier: GPL-3.0-or-later
// Whose light a camera sees a subject by: each source's share of what the subject sends to its sensor.
//   Model    the subject's signal (illumination.h) source by source; the camera's own infrared at the power that it
//            comes to. What the air and the glass lay over it is not the subject's and does not count
//   Limits   what the ground gives back counts as light from all round, whoever lit the ground
//   Checked  light_shares_test.cpp
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "need/illumination.h"

namespace sightfall::need {

/// From all round is light of the sky and what the ground gives back; infrared is a camera's, a lamp the site's.
enum class LightFrom { kAllRound, kSunOrMoon, kLamp, kOwnInfrared, kOthersInfrared };

/// `all round`, `sun or moon`, `lamp`, `own infrared` or `other infrared`.
std::string_view in_words(LightFrom from);

struct LightShare {
  LightFrom from = LightFrom::kAllRound;
  std::string name;  ///< of the lamp, or of the camera whose infrared it is; else empty
  double share = 0;  ///< of the subject's signal
};

/// Smaller shares are not told.
inline constexpr double kShareTold = 0.01;

/// Largest first; empty when no light comes. `light` is that of the place; the station is in its condition, and `power`
/// is what its infrared comes to.
std::vector<LightShare> light_shares(const Station& station, const Lighting& lighting, const PlaceLight& light,
                                     const Posed& posed, double power);

}  // namespace sightfall::need
