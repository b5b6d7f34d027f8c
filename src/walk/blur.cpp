// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/blur.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "detail/transfer.h"

namespace sightfall::walk {

Transfer transfer_of(const detail::Blur& blur, geom::Vec2 along, int finer, bool pixel) {
  return [=](double across, double down) {
    const double x = across * finer, y = down * finer;  // cycles a pixel
    const double any = std::hypot(x, y);
    double product = detail::gaussian_transfer(blur.lens, any) * detail::diffraction_transfer(blur.diffraction, any);
    if (blur.defocus > 0) product *= detail::disc_with_sign(blur.defocus, any);
    if (blur.motion > 0) product *= detail::sinc_with_sign(blur.motion, x * along.x + y * along.y);
    if (blur.shake > 0) product *= detail::sinc_with_sign(blur.shake, y);
    if (pixel) product *= detail::sinc_with_sign(1, x) * detail::sinc_with_sign(1, y);
    return product;
  };
}

int reach_of(const detail::Blur& blur, int finer) {
  constexpr double kSigmas = 4, kRings = 6;  // beyond them little light goes
  const double pixels =
      2 + kSigmas * blur.lens + kRings * blur.diffraction + (blur.defocus + blur.motion + blur.shake) / 2;
  return static_cast<int>(std::ceil(pixels * finer));
}

namespace {

/// Blur of what stands still at a depth.
detail::Blur still_blur(const detail::CameraConstants& camera, const detail::Values& values,
                        const detail::Exposed& exposed, double depth) {
  detail::Seen still;
  still.depth = depth;
  return detail::blur_of(camera, still, values, exposed);
}

/// The disc of defocus by depth, from a table over its inverse, in which the disc is all but linear.
class Discs {
 public:
  template <class Disc>
  Discs(double nearest, double farthest, Disc disc)
      : low_{1 / farthest}, step_{(1 / nearest - low_) / kSteps}, discs_(kSteps + 2) {
    for (size_t i = 0; i < discs_.size(); ++i)
      discs_[i] = static_cast<float>(disc(1 / (low_ + static_cast<double>(i) * step_)));
  }
  float at(float depth) const {
    if (step_ <= 0) return discs_.front();
    const double place = std::clamp((1 / static_cast<double>(depth) - low_) / step_, 0.0, static_cast<double>(kSteps));
    const auto first = static_cast<size_t>(place);
    return std::lerp(discs_[first], discs_[first + 1], static_cast<float>(place - static_cast<double>(first)));
  }
  float least() const { return *std::min_element(discs_.begin(), discs_.end() - 1); }
  float most() const { return *std::max_element(discs_.begin(), discs_.end() - 1); }

 private:
  static constexpr int kSteps = 4096;
  double low_, step_;
  std::vector<float> discs_;
};

}  // namespace

Plane blurred(const Plane& rate, const Plane& depth, const detail::CameraConstants& camera,
              const detail::Values& values, const detail::Exposed& exposed) {
  const auto [nearest, farthest] = std::minmax_element(depth.at.begin(), depth.at.end());
  const Discs discs{static_cast<double>(*nearest), static_cast<double>(*farthest),
                    [&](double at) { return still_blur(camera, values, exposed, at).defocus; }};
  constexpr float kStep = 1, kLargest = 40;  // px of disc: between neighbours; more than that is told from nothing
  const float low = std::min(discs.least(), kLargest), high = std::min(discs.most(), kLargest);
  const int count = std::clamp(1 + static_cast<int>(std::ceil((high - low) / kStep)), 1, kMostDiscs);
  std::vector<Transfer> transfers;
  int reach = 0;
  for (int i = 0; i < count; ++i) {
    detail::Blur blur = still_blur(camera, values, exposed, 1);
    blur.defocus = static_cast<double>(
        count == 1 ? low : low + (high - low) * static_cast<float>(i) / static_cast<float>(count - 1));
    transfers.push_back(transfer_of(blur, {1, 0}, 1, false));
    reach = std::max(reach, reach_of(blur, 1));
  }
  if (count == 1) return filtered(rate, transfers, {}, reach);
  Plane place{rate.columns, rate.rows};
  tbb::parallel_for(0, rate.rows, [&](int row) {
    for (size_t i = place.index(0, row); i < place.index(0, row + 1); ++i)
      place.at[i] =
          std::clamp((discs.at(depth.at[i]) - low) / (high - low), 0.0F, 1.0F) * static_cast<float>(count - 1);
  });
  return filtered(rate, transfers, place, reach);
}

}  // namespace sightfall::walk
