// SPDX-License-Identifier: GPL-3.0-or-later
// A flat subject photographed by a setting, through the very functions that `sightfall walk` draws its pictures with.
//   Model    upright and square to the camera, at a place between the pixels that the seed decides, on an even ground
//   Same     the same setting, subject and seed give the same picture
#pragma once
#include <cstdint>
#include <functional>
#include <vector>

#include "setting.h"
#include "unit/quantity.h"

namespace sightfall::reading {

/// A pattern of values in [-1, 1] over a rectangle, u and v from 0 to 1 right and down (walk/pattern.h). The ground it
/// stands on gives off `ground` of the subject's mean.
struct Flat {
  Length width, height;
  std::function<double(double u, double v)> at;
  double ground = 0.4;
};

/// A grey picture as a screen takes it, and where in it the subject is, in pixels from its upper left corner.
struct Photograph {
  int columns = 0, rows = 0;
  std::vector<uint8_t> grey;
  double left = 0, top = 0, density = 0;
};

/// The picture that is looked at, made of frames of what stays where it is, each with noise of its own: compression,
/// say, of a clip.
using Frames = std::function<walk::Picture(uint64_t frame)>;
using Finish = std::function<walk::Picture(const Frames& frames)>;

/// `around`: metres of ground beside the subject at least.
Photograph photograph(const Setting& setting, const Flat& flat, Length around, uint64_t seed,
                      const Finish& finish = {});

}  // namespace sightfall::reading
