// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/ramp.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sightfall::draw {
namespace {

/// Rows 0, 32, 64 ... 224 and 255 of the table.
constexpr std::array<Colour, 9> kCividis{{{0.000000, 0.135112, 0.304751},
                                          {0.103401, 0.220406, 0.435790},
                                          {0.263738, 0.307831, 0.422789},
                                          {0.380830, 0.395164, 0.435653},
                                          {0.488697, 0.485318, 0.471008},
                                          {0.609105, 0.579816, 0.463638},
                                          {0.736488, 0.680629, 0.424028},
                                          {0.870717, 0.789572, 0.343333},
                                          {0.995737, 0.909344, 0.217772}}};
constexpr double kRowsBetween = 32, kLastRow = 255;

/// How much of the pigment is laid on the paper at either end: little detail is nearly bare.
constexpr double kPigmentLow = 0.30, kPigmentHigh = 0.48;

}  // namespace

double ramp_share(PixelDensity density) {
  const double share = std::log(density / kRampLow) / std::log(kRampHigh / kRampLow);
  return std::clamp(share, 0.0, 1.0);
}

Colour ramp_tone(double share) {
  const double detail = std::clamp(share, 0.0, 1.0);
  const double row = (1 - detail) * kLastRow;
  const size_t below = std::min(static_cast<size_t>(row / kRowsBetween), kCividis.size() - 2);
  const double first = kRowsBetween * static_cast<double>(below);
  const double span = std::min(first + kRowsBetween, kLastRow) - first;
  return mixed(kPaper, mixed(kCividis[below], kCividis[below + 1], (row - first) / span),
               kPigmentLow + detail * (kPigmentHigh - kPigmentLow));
}

}  // namespace sightfall::draw
