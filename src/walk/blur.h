// SPDX-License-Identifier: GPL-3.0-or-later
// The blur of the kernel (detail/delivered.h) laid over a picture.
//   Model    the product of the same transfer functions, with their signs, at a frequency's own direction: motion along
//            the movement, shake up and down (a pole nods), the pixel across and down
//   Checked  blur_test.cpp; tests/outside/picture_test.cpp
#pragma once
#include "detail/delivered.h"
#include "geom/vec.h"
#include "walk/fourier.h"

namespace sightfall::walk {

/// Transfer of a blur for a plane that has `finer` points a pixel each way; `along` is the movement's direction in the
/// picture (unit). With `pixel` the width of a pixel is in it.
Transfer transfer_of(const detail::Blur& blur, geom::Vec2 along, int finer, bool pixel);

/// What stands still, blurred by its own depth (m along the axis, point by point): blurred at a few discs of defocus
/// between the least and the largest, at most kMostDiscs, and each pixel taken from between its neighbours.
inline constexpr int kMostDiscs = 4;
Plane blurred(const Plane& rate, const Plane& depth, const detail::CameraConstants& camera,
              const detail::Values& values, const detail::Exposed& exposed);

/// Points of such a plane that the blur may carry light over.
int reach_of(const detail::Blur& blur, int finer);

}  // namespace sightfall::walk
