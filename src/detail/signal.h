// SPDX-License-Identifier: GPL-3.0-or-later
// A sample's signal as the sensor has it: subject, what is laid over it, noise, full scale, at the exposure that the
// camera comes to.
//   Model    docs/models.md sections 4 and 5
//   Checked  delivered_test.cpp
#pragma once
#include "detail/inputs.h"
#include "detail/limit.h"

namespace sightfall::detail {

/// What the camera comes to with the sample's subject in its frame.
Exposed exposed(const CameraConstants& camera, const Seen& seen, const Values& values);

/// Frames that noise reduction averages: of a mover, those in which it stays within a pixel of itself.
double averaged_frames(const CameraConstants& camera, const Seen& seen, const Values& values, double time);

/// A sample's signal as the sensor has it, in electrons of one frame.
struct Signal {
  Exposed exposed;
  double subject = 0;      ///< mean of the subject's pattern
  double behind = 0;       ///< laid over it: veil, air, stray light
  double full_scale = 0;   ///< where it clips
  double deviation = 0;    ///< noise
  double clipped = 0;      ///< 0 or 1: whether the pattern's bright half is cut
  double frame_noise = 0;  ///< of the frame where nothing moves, grey levels of 255; 0 where nothing is compressed
};
/// Signal of the subject over the noise of a pixel; 0 where there is neither.
double noise_ratio(const Signal& signal);

Signal signal_of(const CameraConstants& camera, const Seen& seen, const Values& values);

/// The same with one factor taken away at the exposure as it is: veil (which the exposure follows), stray light or air.
Signal signal_without(Limit factor, const CameraConstants& camera, const Seen& as_it_is, const Values& values);

}  // namespace sightfall::detail
