// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/transfer.h"

#include <cmath>
#include <numbers>

namespace sightfall::detail {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kSmall = 1e-6;  // below this argument the series' first term is exact in double

}  // namespace

double sinc_with_sign(double width, double frequency) {
  const double a = kPi * width * frequency;
  return std::abs(a) < kSmall ? 1 : std::sin(a) / a;
}

double sinc_transfer(double width, double frequency) { return std::abs(sinc_with_sign(width, frequency)); }

double gaussian_transfer(double sigma, double frequency) {
  const double a = kPi * sigma * frequency;
  return std::exp(-2 * a * a);
}

double disc_with_sign(double diameter, double frequency) {
  // POSIX j1: the standard general Bessel function is far slower.
  const double a = kPi * diameter * frequency;
  return a < kSmall ? 1 : 2 * ::j1(a) / a;
}

double disc_transfer(double diameter, double frequency) { return std::abs(disc_with_sign(diameter, frequency)); }

double diffraction_transfer(double inverse_cut_off, double frequency) {
  const double v = inverse_cut_off * frequency;
  return v >= 1 ? 0 : (2 / kPi) * (std::acos(v) - v * std::sqrt(1 - v * v));
}

}  // namespace sightfall::detail
