// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/preview.h"

#include <algorithm>
#include <cmath>

namespace sightfall::walk {

need::Station preview_of(const need::Station& station, int columns) {
  need::Station small = station;
  camera::Projector& p = small.lens.projector;
  if (columns >= p.columns) return small;
  const double scale = static_cast<double>(columns) / p.columns;
  p.columns = columns;
  p.rows = std::max(1, static_cast<int>(std::lround(p.rows * scale)));
  p.focal_px *= scale;
  small.constants.pitch /= scale;
  const auto times = [&](detail::Input input, double factor) {
    Ranged<double>& value = small.inputs[static_cast<size_t>(input)];
    value = {factor * value.low, factor * value.nominal, factor * value.high};
  };
  times(detail::Input::kLensBlur, scale);
  const double pixels = 1 / (scale * scale);  // that one stands for
  times(detail::Input::kFullWell, pixels);
  times(detail::Input::kReadNoise, 1 / scale);
  small.constants.dark *= pixels;
  small.response_day = pixels * small.response_day;
  small.response_night = pixels * small.response_night;
  return small;
}

}  // namespace sightfall::walk
