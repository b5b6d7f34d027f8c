// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/hazard.h"

#include <algorithm>
#include <array>

#include "base/small_letters.h"
#include "draw/shape.h"
#include "geom/polygon.h"

namespace sightfall::papers {
namespace {

/// From a point to a solid on the plan: 0 inside it.
double away_from(const site::Solid& solid, geom::PlanPoint at) {
  if (!solid.line.empty()) return draw::distance_to_line(solid.line, at);
  if (solid.outline.outer.empty()) return geom::norm(solid.at - at);
  if (geom::contains(solid.outline, at)) return 0;
  geom::Ring round = solid.outline.outer;
  round.push_back(round.front());
  return draw::distance_to_line(round, at);
}

}  // namespace

bool tells_of_sparks(const std::string& words) {
  constexpr std::array kTelling{"spark",   "fuel",    "petrol", "diesel",    "propane",  "butane",    "lpg",
                                "solvent", "explosi", "flamma", "gas store", "gas tank", "gas bottle"};
  const std::string low = in_small_letters(words);
  return std::any_of(kTelling.begin(), kTelling.end(),
                     [&](const char* one) { return low.find(one) != std::string::npos; });
}

bool may_burst(const site::Site& site, geom::PlanPoint at, const site::Mount* mount) {
  if (mount != nullptr && tells_of_sparks(mount->name + " " + mount->surface + " " + mount->access)) return true;
  return std::any_of(site.solids.begin(), site.solids.end(), [&](const site::Solid& solid) {
    return tells_of_sparks(solid.name) && away_from(solid, at) <= kHazardNear.si();
  });
}

}  // namespace sightfall::papers
