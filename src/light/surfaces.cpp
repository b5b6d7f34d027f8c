// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/surfaces.h"

#include <algorithm>

namespace sightfall::light {

const Material* Materials::find(const std::string& name) const {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Material& one) { return one.name == name; });
  return found == all.end() ? nullptr : &*found;
}

PerBand Materials::reflectance(const std::string& name, double grey) const {
  const Material* material = find(name);
  return material != nullptr ? material->reflectance : PerBand{{grey, grey, grey}};
}

double retroreflection(double largest, Angle half, Angle alpha) {
  const double relative = alpha / half;
  return largest / (1 + relative * relative);
}

}  // namespace sightfall::light
