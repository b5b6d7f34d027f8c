// SPDX-License-Identifier: GPL-3.0-or-later
// A camera, its light and a subject square to it, as the kernel of delivered detail and the picture are both handed
// them.
//   Model    a good camera by day with ample light: nominal values of a standard lens; one cause at a time is made
//   worse Units    rates in electrons a second and pixel
#pragma once
#include <array>

#include "detail/delivered.h"
#include "geom/vec.h"
#include "walk/shoot.h"

namespace sightfall::reading {

/// What decides what is least made out: data/typical.json's contrast_threshold and noise_threshold.
struct Thresholds {
  double contrast = 0.20, noise = 6;
};

struct Setting {
  detail::CameraConstants camera;
  detail::Seen seen;
  std::array<double, detail::kInputCount> inputs{};
  geom::Vec2 along{1, 0};  ///< movement in the picture

  explicit Setting(double density);
  void set(detail::Input input, double value) { inputs[static_cast<size_t>(input)] = value; }
  double get(detail::Input input) const { return inputs[static_cast<size_t>(input)]; }
};

/// The camera with a frame that is lit as the subject is.
detail::CameraConstants camera_in_light(const Setting& setting);

/// Delivered detail of it, px/m.
double delivered(const Setting& setting, const Thresholds& thresholds);

}  // namespace sightfall::reading
