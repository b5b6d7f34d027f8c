// SPDX-License-Identifier: GPL-3.0-or-later
// How a camera sends its pictures.
#pragma once
#include <optional>

#include "unit/quantity.h"

namespace sightfall::camera {

/// ITU-T H.264 and H.265.
enum class Codec { kH264, kH265 };

/// What is held: a rate, a quality as long as a ceiling allows it, or a quality.
enum class RateControl { kConstant, kCapped, kFree };

struct Stream {
  Codec codec = Codec::kH264;
  RateControl control = RateControl::kConstant;
  std::optional<DataRate> rate;   ///< constant, or the ceiling; unset where a quality alone is held
  std::optional<double> quality;  ///< constant rate factor, 1 (finest) to 51; unset: typical
};

}  // namespace sightfall::camera
