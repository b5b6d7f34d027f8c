// SPDX-License-Identifier: GPL-3.0-or-later
// From light to grey levels: the tone curve.
//   Model    the square root of light over full scale (video's is close to it). Where a short
//            exposure tells more than the long one (wide dynamic range) the square root goes on to where a logarithm
//            that ends at the brightest meets it with the same slope, so that dark tones stay as they are, middle ones
//            nearly, and bright ones share the rest
//   Limits   one curve for the whole picture; what cameras do to it piece by piece is not known
//   Checked  tone_test.cpp
#pragma once
#include <algorithm>
#include <cmath>
#include <cstdint>

namespace sightfall::walk {

class ToneCurve {
 public:
  /// `most` is the brightest that it tells apart, over the long exposure's full scale; at least 1.
  explicit ToneCurve(double most);

  /// 0 to 255 of light over the long exposure's full scale.
  uint8_t level(float light) const {
    constexpr float kHalf = 0.5F;  // rounds
    const float within = std::clamp(light, 0.0F, most_);
    const float level = within <= knee_ ? std::sqrt(within) : at_knee_ + slope_ * std::log(within / knee_);
    return static_cast<uint8_t>(kSteps * level + kHalf);
  }
  double knee() const { return static_cast<double>(knee_); }

 private:
  static constexpr float kSteps = 255;
  float most_ = 1, knee_ = 1, at_knee_ = 1, slope_ = 0;
};

}  // namespace sightfall::walk
