// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/blur.h"

#include <cmath>

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

}  // namespace sightfall::walk
