// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/tones.h"

#include <algorithm>
#include <cmath>

namespace sightfall::detail {

double contrast_of_tones(double mean, double swing, double full_scale) {
  if (mean + swing <= full_scale) return mean > 0 ? swing / mean : 0;
  const double kept = full_scale - (mean - swing);  // of the range of tones, 2 * swing
  if (kept <= 0 || full_scale <= 0) return 0;
  // How far the tones lie below full scale, and the square of it, on average: integrals of the density.
  const double s = kept / swing;
  const double below = swing * s * s * s * (4 - s) / 16;
  const double square = swing * swing * s * s * s * s * (5 - s) / 40;
  constexpr double kScale = 5;  // one over the variance of the density on [-1, 1]
  return std::sqrt(kScale * std::max(0.0, square - below * below)) / (full_scale - below);
}

}  // namespace sightfall::detail
