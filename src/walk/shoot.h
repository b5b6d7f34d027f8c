// SPDX-License-Identifier: GPL-3.0-or-later
// From rates to a picture: blur, exposure, noise, clipping, tone curve.
//   Model    the exposure that the verdict comes to for the subject (detail::exposed); the verdict's blurs, laid over
//            what stands still by its own depth and over the subject by its depth and movement; glare; EMVA 1288's
//            noise, with Poisson light; full scale over gain; a square-root tone curve in 255 steps
//   Random   a counter-based generator keyed by seed, frame and pixel: the same for any number of threads
//   Limits   before compression; colour is luminance with the hue of the surface, without the sensor's mosaic; of noise
//            reduction only the averaging of frames is drawn; wide dynamic range is not drawn; one depth of the subject
//   Checked  marks_test.cpp; tests/outside/picture_test.cpp
#pragma once
#include <cstdint>

#include "detail/delivered.h"
#include "walk/cast.h"
#include "walk/picture.h"

namespace sightfall::walk {

/// What decides how rates become a picture.
struct Shot {
  const need::Station* station = nullptr;  ///< in its condition
  detail::Values values;                   ///< nominal, of the subject
  detail::Seen seen;                       ///< of the subject
  geom::Vec2 along{1, 0};                  ///< its movement in the picture
  uint64_t seed = 0, frame = 0;
};

/// Mean electrons of one frame, pixel by pixel, blurred, before noise and clipping.
struct Exposure {
  Plane mean;
  Plane averaged;  ///< frames that noise reduction averages there
  std::vector<uint8_t> hue;
  detail::Exposed exposed;
  double full_scale = 0;  ///< electrons
};

Exposure expose_picture(const Background& background, const Cutout& subject, const Shot& shot);

/// Electrons of one frame with its noise, cut at full scale.
Plane electrons(const Exposure& exposure, const Shot& shot);

/// The picture of electrons: luminance by the tone curve, hues unless the camera is in monochrome.
Picture developed(const Plane& electrons, const Exposure& exposure, bool monochrome);

/// All of it, over what stands still, which shares with the stage what stands.
Picture shoot(const StillCast& still, const Stage& stage, const Shot& shot);

}  // namespace sightfall::walk
