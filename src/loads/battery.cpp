// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/battery.h"

#include <cmath>

namespace sightfall::loads {

using namespace units;

Time lasts(Charge rated, Time over, double exponent, Current drawn) {
  return std::pow(rated / (drawn * over), exponent) * over;
}

Charge charge_for(Time wanted, Time over, double exponent, Current drawn) {
  return std::pow(wanted / over, 1 / exponent) * (drawn * over);
}

Time lasts_plain(Charge at_one_ampere, double exponent, Current drawn) {
  return at_one_ampere.in(Ah) / std::pow(drawn.in(A), exponent) * hour;
}

}  // namespace sightfall::loads
