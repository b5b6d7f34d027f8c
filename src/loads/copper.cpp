// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/copper.h"

#include <cmath>

namespace sightfall::loads {

double warmed(double celsius) {
  constexpr double kPerKelvin = 0.00393;
  return 1 + kPerKelvin * (celsius - 20);
}

Resistance loop(Resistivity of_conductor_at_20, Length length, double celsius, int parallel) {
  return 2 * warmed(celsius) / parallel * (of_conductor_at_20 * length);
}

std::optional<Fed> fed(Potential source, Resistance loop, Power drawn, double power_factor) {
  const double u = source.si(), pr = drawn.si() * loop.si();
  const double middle = u * u - 2 * pr, apart = middle * middle - 4 * std::pow(pr / power_factor, 2);
  if (middle <= 0 || apart < 0) return std::nullopt;
  const Potential at_device{std::sqrt((middle + std::sqrt(apart)) / 2)};
  const Current current = drawn / power_factor / at_device;
  return Fed{at_device, current, current * current * loop};
}

Power left_of(Power given, Potential source, Resistance loop) {
  const Current current = given / source;
  return given - current * current * loop;
}

}  // namespace sightfall::loads
