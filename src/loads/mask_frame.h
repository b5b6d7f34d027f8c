// SPDX-License-Identifier: GPL-3.0-or-later
// The smallest rectangle of a picture over what shall not show, and the mask a little larger.
//   Checked  overlook_test.cpp
#pragma once
#include <algorithm>
#include <string>
#include <utility>

#include "camera/camera.h"
#include "camera/projection.h"

namespace sightfall::loads {

/// What a mask covers beyond what it is for, as a share of the picture's width and height: aim and lens are not exact.
inline constexpr double kMaskBeyond = 0.01;

/// A rectangle of the picture that grows. The projector must outlive it.
class MaskFrame {
 public:
  explicit MaskFrame(const camera::Projector& projector) : projector_{projector} {}

  void include(geom::ImagePoint at, double margin_px = 0) {
    const double u = at.u + 0.5, v = at.v + 0.5;
    left_ = std::min(left_, (u - margin_px) / projector_.columns);
    right_ = std::max(right_, (u + margin_px) / projector_.columns);
    top_ = std::min(top_, (v - margin_px) / projector_.rows);
    bottom_ = std::max(bottom_, (v + margin_px) / projector_.rows);
  }

  camera::Mask mask(std::string name) const {
    const auto share = [](double value) { return std::clamp(value, 0.0, 1.0); };
    return {std::move(name), share(left_ - kMaskBeyond), share(top_ - kMaskBeyond), share(right_ + kMaskBeyond),
            share(bottom_ + kMaskBeyond)};
  }

 private:
  const camera::Projector& projector_;
  double left_ = 1, right_ = 0, top_ = 1, bottom_ = 0;
};

}  // namespace sightfall::loads
