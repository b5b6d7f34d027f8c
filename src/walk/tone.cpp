// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/tone.h"

namespace sightfall::walk {

// sqrt(x) up to x = k, then sqrt(k) + c ln(x / k), which is 1 at the brightest; of one slope at k: c = sqrt(k) / 2.
ToneCurve::ToneCurve(double most) : most_{static_cast<float>(most)} {
  if (most <= 1) return;
  double low = 0, high = 1;  // of sqrt(k): at its right value the curve ends at 1, at larger ones above
  constexpr int kHalvings = 50;
  for (int i = 0; i < kHalvings; ++i) {
    const double root = (low + high) / 2;
    (root + root / 2 * std::log(most / (root * root)) > 1 ? high : low) = root;
  }
  knee_ = static_cast<float>(low * low);
  at_knee_ = static_cast<float>(low);
  slope_ = static_cast<float>(low / 2);
}

}  // namespace sightfall::walk
