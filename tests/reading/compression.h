// SPDX-License-Identifier: GPL-3.0-or-later
// A subject seen through a codec.
//   Model    a clip of frames in which the picture, with new noise in each, moves by a walk's pace over a still ground;
//            the last frame is looked at. The kernel is told the quantiser that the encoder really took for such clips,
//            so that what comes through is tried and not the rate control
//   Library  video (x264)
#pragma once
#include "causes.h"

namespace sightfall::reading {

/// The setting at a constant rate factor; the quantiser is that of clips of a trial subject.
Level compressed(const Setting& setting, double factor, const Flat& trial);

}  // namespace sightfall::reading
