// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/field.h"

#include <cmath>
#include <limits>

namespace sightfall::file {

/// Dividing and multiplying by a unit does not always give the same number back, so that 23 degrees would be written as
/// 23.000000000000004. The numbers next to the quotient are tried.
double number_in(double si, double unit) {
  const double quotient = si / unit;
  if (!std::isfinite(quotient)) return quotient;
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  double best = quotient;
  size_t fewest = std::numeric_limits<size_t>::max();
  double candidate = std::nextafter(std::nextafter(quotient, -kInfinity), -kInfinity);
  for (int i = 0; i < 5; ++i) {
    const size_t digits = print_number(candidate).size();
    if (candidate * unit == si && digits < fewest) {
      fewest = digits;
      best = candidate;
    }
    candidate = std::nextafter(candidate, kInfinity);
  }
  return best;
}

}  // namespace sightfall::file
