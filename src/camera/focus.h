// SPDX-License-Identifier: GPL-3.0-or-later
// Sharpness by distance: the blur circle, the hyperfocal distance and the depth of field of a thin lens.
//   Model    c(d) = f^2 |d - s| / (N d (s - f)); H = f^2 / (N c) + f
//   In/Out   distances from the lens; infinity is allowed for the focus and comes back for the far end
//   Source   any optics text, for instance S. F. Ray, Applied Photographic Optics, 3rd ed. (2002), depth of field
//   Checked  focus_test.cpp: textbook rows; the blur at the ends of the field equals the circle asked for
#pragma once
#include "unit/quantity.h"

namespace sightfall::camera {

struct ThinLens {
  Length focal;
  double f_number = 1;
};

/// Diameter on the sensor of the blur circle of a point at `distance` when the lens is focused at `focus`.
Length blur_circle(const ThinLens& lens, Length focus, Length distance);

/// The focus distance from which everything from half of it to infinity blurs by at most `circle`.
Length hyperfocal(const ThinLens& lens, Length circle);

/// The nearest and the farthest distance that blur by at most `circle`; the far end may be infinite.
struct DepthOfField {
  Length near, far;
};
DepthOfField depth_of_field(const ThinLens& lens, Length focus, Length circle);

}  // namespace sightfall::camera
