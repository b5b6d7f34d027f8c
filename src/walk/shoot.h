// SPDX-License-Identifier: GPL-3.0-or-later
// From rates to a picture: blur, exposure, bands, noise reduction, mosaic, noise, clipping, tone curve.
//   Model    the exposure that the verdict comes to for the subject (detail::exposed); the verdict's blurs, laid over
//            what stands still by its own depth and over the subject by its depth and movement; glare; the swing of
//            mains lamps row by row (walk/rolling.h); what noise reduction takes (walk/smear.h); in colour the sensor's
//            mosaic (walk/mosaic.h); EMVA 1288's noise, with Poisson light; full scale over gain; of wide dynamic range
//            the short exposure where the long one clips; the tone curve (walk/tone.h) in 255 steps
//   Random   a counter-based generator keyed by seed, frame and pixel: the same for any number of threads
//   Limits   before compression; one depth of the subject; both exposures of wide dynamic range smear movers over the
//            long one, as the verdict has it; frames that noise reduction averages have each its own noise, so that of
//            neighbouring frames of a clip is not alike; stray light does not swing
//   Checked  shoot_test.cpp; marks_test.cpp; tests/outside/picture_test.cpp
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
  double begin = 0;    ///< s: when the frame's first row is exposed
  double readout = 0;  ///< s, of all rows
  bool mosaic = true;  ///< whether a colour camera's pixels see one colour each; those of a preview stand for several
};

/// Mean electrons of one frame, pixel by pixel, blurred, before noise and clipping.
struct Exposure {
  Plane mean;      ///< of the long exposure; through the mosaic where there is one
  Plane averaged;  ///< frames that noise reduction averages there
  std::vector<uint8_t> hue;
  detail::Exposed exposed;
  double full_scale = 0;     ///< electrons
  double dynamic_ratio = 1;  ///< of the long to the short exposure; 1: there is one
  double brightest = 1;      ///< at which the tone curve ends, over full scale
  bool mosaic = false;
};

Exposure expose_picture(const Background& background, const Cutout& subject, const Shot& shot);

/// Electrons of one frame with its noise, cut at full scale; where the long exposure is cut, the short one's times the
/// ratio of the two.
Plane electrons(const Exposure& exposure, const Shot& shot);

/// The picture of electrons: luminance by the tone curve, hues unless the camera is in monochrome.
Picture developed(const Plane& electrons, const Exposure& exposure, bool monochrome);

/// Blackens what the masks cover.
void black_out(const std::vector<camera::Mask>& masks, Picture& picture);

/// All of it, over what stands still, which shares with the stage what stands.
Picture shoot(const StillCast& still, const Stage& stage, const Shot& shot);

}  // namespace sightfall::walk
