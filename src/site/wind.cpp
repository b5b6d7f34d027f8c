// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/wind.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sightfall::site {

using namespace units;

Roughness roughness(TerrainCategory category) {
  constexpr std::array<Roughness, 5> kTable{{{Length{0.003}, Length{1}},
                                             {Length{0.01}, Length{1}},
                                             {Length{0.05}, Length{2}},
                                             {Length{0.3}, Length{5}},
                                             {Length{1}, Length{10}}}};
  return kTable.at(static_cast<size_t>(category));
}

Pressure steady_pressure(Speed speed) { return 0.5 * kAir * speed * speed; }

Pressure gust_pressure(Speed basic, TerrainCategory category, Length height) {
  const Roughness rough = roughness(category);
  const Roughness open = roughness(TerrainCategory::kII);
  const double factor = 0.19 * std::pow(rough.length / open.length, 0.07);
  const double logarithm = std::log(std::max(height, rough.lowest) / rough.length);
  return (1 + 7 / logarithm) * steady_pressure(basic * (factor * logarithm));
}

}  // namespace sightfall::site
