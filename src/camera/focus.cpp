// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera/focus.h"

#include <cmath>
#include <limits>

namespace sightfall::camera {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace

Length blur_circle(const ThinLens& lens, Length focus, Length distance) {
  const double f = lens.focal.si(), n = lens.f_number, s = focus.si(), d = distance.si();
  // |d - s| / (d (s - f)) = |1/s - 1/d| / (1 - f/s), which also holds for a focus at infinity.
  const double away = std::abs(1 / s - 1 / d) / (1 - f / s);
  return Length{f * f / n * away};
}

Length hyperfocal(const ThinLens& lens, Length circle) {
  return lens.focal * (lens.focal / circle) / lens.f_number + lens.focal;
}

DepthOfField depth_of_field(const ThinLens& lens, Length focus, Length circle) {
  const double f = lens.focal.si(), s = focus.si(), h = hyperfocal(lens, circle).si();
  if (std::isinf(s)) return {Length{h - f}, Length{kInfinity}};
  const double near = s * (h - f) / (h + s - 2 * f);
  return {Length{near}, Length{s < h ? s * (h - f) / (h - s) : kInfinity}};
}

}  // namespace sightfall::camera
