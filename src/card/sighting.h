// SPDX-License-Identifier: GPL-3.0-or-later
// One observation made ready: what the camera shows of it for any values of the uncertain inputs.
//   Checked  seen_test.cpp
#pragma once
#include "card/seen.h"
#include "detail/inputs.h"

namespace sightfall::card {

struct Sighting {
  detail::CameraConstants constants;
  detail::Seen seen;
  detail::RangedInputs inputs{};
  bool near_infrared = false;                   ///< lit by the camera's own
  bool exposed_by_hand = false;                 ///< shutter and gain are known
  Ranged<double> visible, infrared, own_light;  ///< factors: sensitivities, and the lamp
};

Sighting sighting_of(const CardRequest& request, const Observation& observation);

/// What it shows with these values.
Shown shown_by(const Sighting& sighting, const detail::Values& values);

}  // namespace sightfall::card
