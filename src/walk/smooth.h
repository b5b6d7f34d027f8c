// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
#include <algorithm>

namespace sightfall::walk {

/// From 0 to 1 as `t` goes from 0 to 1, level at both ends and beyond them: 3 t^2 - 2 t^3 (Hermite's cubic).
template <class Real>
inline Real smooth(Real t) {
  const Real x = std::min(std::max(t, Real{0}), Real{1});
  return x * x * (3 - 2 * x);
}

}  // namespace sightfall::walk
