// SPDX-License-Identifier: GPL-3.0-or-later
// The picture before exposure: electrons a second that each pixel of the sensor would collect.
//   Model    one ray a pixel for what stands still; the subject, cut out with what it covers, by several rays a pixel,
//            so that its pattern is averaged as the pixel averages it (walk/shoot.h). The same surfaces and lights that
//            the exposure meter sees (need/look.h), tile by tile (walk/tile.h)
//   Limits   one ray a pixel leaves steps at the edges of what stands still
//   Checked  marks_test.cpp; tests/outside/picture_test.cpp
#pragma once
#include <vector>

#include "base/progress.h"
#include "walk/stage.h"
#include "walk/still.h"

namespace sightfall::walk {

/// The subject: a piece of the picture with `finer` points a pixel each way, odd, so that one lies at each pixel's
/// middle.
struct Cutout {
  int left = 0, top = 0;  ///< of its first pixel in the picture
  int columns = 0, rows = 0, finer = 1;
  Plane rate, cover;  ///< rate is 0 where it covers nothing
  std::vector<uint8_t> hue;
  Plane swinging;  ///< the part of the rate that swings with the mains; empty where nothing does
  bool empty() const { return columns == 0; }
};

/// Columns and rows of a picture, the last ones included.
struct PictureBox {
  int left = 0, top = 0, right = -1, bottom = -1;
  bool empty() const { return right < left || bottom < top; }
};

/// The box that a mesh's corners fall into, with a margin, cut at the picture's edges; empty when none does.
PictureBox box_of(const SubjectMesh& mesh, const need::Station& station, int margin);

/// What stands still, with the visitor's shadow; frame after frame, StillCast has it faster.
Background cast_background(const Stage& stage, const need::Station& station, double power, const Progress& progress);

/// `margin` pixels more than the subject takes, for its blur.
Cutout cast_subject(const Stage& stage, const need::Station& station, double power, int margin);

}  // namespace sightfall::walk
