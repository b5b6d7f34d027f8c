// SPDX-License-Identifier: GPL-3.0-or-later
// What noise reduction takes of a picture: faint patterns, which it cannot tell from noise.
//   Model    the verdict's (docs/models.md section 5): of a pattern of amplitude A in noise of deviation s it leaves
//            q^2 / (q^2 + 1), q = A / (smear x s). The picture is parted into octaves (walk/octaves.h); in each the
//            amplitude is that of a sine of the same mean square as its surroundings, joined with those of the
//            neighbour octaves, for a sine lies in two
//   Error    kSmearError: of bars of 0.04 to 0.45 cycles a pixel
//   Limits   patterns of more than kCoarsest pixels a cycle are left whole; beside something strong, up to about two
//            cycles from it, a faint pattern counts as strong. No ghost follows a mover: it is averaged only over
//            frames in which it stays within a pixel (detail::averaged_frames), and that pixel is not drawn
//   Checked  smear_test.cpp: bars of all frequencies against the formula; tests/outside/picture_test.cpp
#pragma once
#include "detail/inputs.h"
#include "walk/fourier.h"

namespace sightfall::walk {

inline constexpr double kCoarsest = 32;       ///< pixels a cycle
inline constexpr double kSmearError = 0.075;  ///< of a pattern's amplitude

/// What decides the noise of a picture's pixels.
struct SmearSetting {
  double smear = 0;  ///< ratio of amplitude to noise at which half of a pattern goes; 0: nothing does
  double read = 0, dark = 0, full_scale = 0;  ///< electrons
  double dynamic_ratio = 1;                   ///< of the exposure to the short one, which counts above full scale
};

/// Takes it from mean electrons; `averaged` is by pixel the frames whose mean is taken.
void smear(Plane& mean, const Plane& averaged, const SmearSetting& setting);

}  // namespace sightfall::walk
