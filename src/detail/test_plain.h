// SPDX-License-Identifier: GPL-3.0-or-later
// A plain camera and sample in ample light, for tests that change one thing.
#pragma once
#include <array>

#include "detail/delivered.h"
#include "detail/test_ample.h"

namespace sightfall::detail {

inline std::array<double, kInputCount> plain_values() {
  std::array<double, kInputCount> v{};
  const auto set = [&](Input input, double value) { v[static_cast<size_t>(input)] = value; };
  set(Input::kThreshold, 0.2);
  set(Input::kContrast, 0.75);
  set(Input::kGlare, 0.02);
  set(Input::kVeilLuminance, 0.5);
  set(Input::kLensBlur, 0.55);
  set(Input::kFNumber, 1.6);
  set(Input::kDensityFactor, 1);
  set(Input::kFocus, 20);
  set(Input::kShutter, 0.005);
  set(Input::kSpeed, 1.4);
  set(Input::kQuantiser, 1);
  set(Input::kSway, 1);
  set_ample_light(v);
  return v;
}

inline const CameraConstants kCamera{.focal = 6e-3, .pitch = 2e-6};
inline const Seen kSeen{.density = 150, .depth = 20, .motion_density = 0, .passed = 1, .others = kAmpleRate};

}  // namespace sightfall::detail
