// SPDX-License-Identifier: GPL-3.0-or-later
#include "sight_profile.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sightfall::outside {
namespace {

using geom::PlanPoint;
using geom::SitePoint;

/// Grid heights in cell units.
struct Grid {
  const site::Terrain& terrain;

  double node(double column, double row) const {
    const int c = std::clamp(static_cast<int>(column), 0, terrain.columns - 1);
    const int r = std::clamp(static_cast<int>(row), 0, terrain.rows - 1);
    return terrain.heights[static_cast<size_t>(r) * static_cast<size_t>(terrain.columns) + static_cast<size_t>(c)];
  }
  PlanPoint cell(SitePoint p) const { return (1 / terrain.step.si()) * (geom::plan(p) - terrain.south_west); }
};

/// Calls at(t) for each t strictly within (0, 1) at which a value that runs from a to b is whole.
template <class At>
void at_whole_values(double a, double b, At at) {
  if (a == b) return;
  for (double whole = std::ceil(std::min(a, b)); whole <= std::max(a, b); ++whole) {
    const double t = (whole - a) / (b - a);
    if (t > 1e-12 && t < 1 - 1e-12) at(t, whole);
  }
}

}  // namespace

double clearance(const site::Terrain& terrain, Surface surface, SitePoint from, SitePoint to) {
  const Grid grid{terrain};
  const PlanPoint a = grid.cell(from), b = grid.cell(to);
  double least = std::numeric_limits<double>::infinity();
  const auto between = [](double low, double high, double share) { return low + share * (high - low); };
  const auto meets = [&](double t, double ground) { least = std::min(least, between(from.z, to.z, t) - ground); };
  at_whole_values(a.x, b.x, [&](double t, double column) {
    const double y = between(a.y, b.y, t), row = std::floor(y);
    meets(t, between(grid.node(column, row), grid.node(column, row + 1), y - row));
  });
  at_whole_values(a.y, b.y, [&](double t, double row) {
    const double x = between(a.x, b.x, t), column = std::floor(x);
    meets(t, between(grid.node(column, row), grid.node(column + 1, row), x - column));
  });
  if (surface == Surface::kGridLines) return least;
  // A diagonal runs where x - y is whole; along it the share of the cell is that of x.
  at_whole_values(a.x - a.y, b.x - b.y, [&](double t, double whole) {
    const double x = between(a.x, b.x, t), column = std::floor(x), row = column - whole;
    meets(t, between(grid.node(column, row), grid.node(column + 1, row + 1), x - column));
  });
  return least;
}

}  // namespace sightfall::outside
