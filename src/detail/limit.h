// SPDX-License-Identifier: GPL-3.0-or-later
// The limit: the one factor that holds a sample back most, and so the one to change.
#pragma once
#include <string_view>

namespace sightfall::detail {

enum class Limit {
  kNone,    ///< nothing: the sample is seen well enough
  kPixels,  ///< too few pixels on the subject
  kLens,    ///< the lens's own blur and diffraction
  kFocus,
  kMotion,
  kShake,
  kNoise,        ///< too little light
  kClipping,     ///< burnt out
  kGlare,        ///< stray light in the lens
  kContrast,     ///< the subject's own contrast is too low at every fineness
  kAir,          ///< haze, fog, rain
  kVeil,         ///< mesh, railings or foliage in between
  kCompression,  ///< the codec, at the rate it is given
  kAngle,        ///< turned away, or seen from too steep
  kOcclusion,    ///< hidden by a solid
  kColour,       ///< monochrome where colour is asked for
  kOutOfView,    ///< outside every picture
  kMask,         ///< in a part of the picture that is blacked out
};

/// The limit in words, such as `out of view`.
std::string_view in_words(Limit limit);

}  // namespace sightfall::detail
