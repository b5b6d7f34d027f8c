// SPDX-License-Identifier: GPL-3.0-or-later
// So much light, and so deep a well, that noise and clipping play no part: for tests of what else counts.
#pragma once
#include <array>

#include "detail/delivered.h"

namespace sightfall::detail {

inline constexpr double kAmpleRate = 1e12;  ///< electrons a second from the subject

inline void set_ample_light(std::array<double, kInputCount>& values) {
  const auto set = [&](Input input, double value) { values[static_cast<size_t>(input)] = value; };
  for (const Input factor : {Input::kSensitivity, Input::kReflectance, Input::kInfrared, Input::kScatter, Input::kFlare,
                             Input::kGlass, Input::kGain})
    set(factor, 1);
  set(Input::kNoiseThreshold, 4);
  set(Input::kReadNoise, 2);
  set(Input::kFullWell, kAmpleRate);
  set(Input::kTarget, 0.2);
}

}  // namespace sightfall::detail
