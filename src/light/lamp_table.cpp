// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamp_table.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace sightfall::light {
namespace {

constexpr double kSamePlane = 1e-9;  // degrees

/// A plane of a new table and the one of the old table that it shows.
struct Shown {
  double angle = 0;
  size_t plane = 0;
};

void add_plane(AngleTable& to, double angle, const AngleTable& from, size_t plane) {
  const auto first = from.values.begin() + static_cast<std::ptrdiff_t>(plane * from.gammas.size());
  to.planes.push_back(angle);
  to.values.insert(to.values.end(), first, first + static_cast<std::ptrdiff_t>(from.gammas.size()));
}

AngleTable in_order(const AngleTable& table, std::vector<Shown> shown) {
  std::stable_sort(shown.begin(), shown.end(), [](const Shown& a, const Shown& b) { return a.angle < b.angle; });
  AngleTable result{table.gammas, {}, {}};
  result.values.reserve((shown.size() + 2) * table.gammas.size());
  for (const Shown& one : shown)
    if (result.planes.empty() || one.angle - result.planes.back() > kSamePlane)
      add_plane(result, one.angle, table, one.plane);
  return result;
}

}  // namespace

AngleTable transposed(const AngleTable& table) {
  AngleTable result{table.planes, table.gammas, {}};
  result.values.reserve(table.values.size());
  for (size_t g = 0; g < table.gammas.size(); ++g)
    for (size_t p = 0; p < table.planes.size(); ++p) result.values.push_back(table.values[p * table.gammas.size() + g]);
  return result;
}

AngleTable mirrored(const AngleTable& table, double about) {
  std::vector<Shown> shown;
  for (size_t p = 0; p < table.planes.size(); ++p) {
    shown.push_back({table.planes[p], p});
    shown.push_back({2 * about - table.planes[p], p});
  }
  return in_order(table, std::move(shown));
}

AngleTable all_round(const AngleTable& table) {
  std::vector<Shown> shown;
  for (size_t p = 0; p < table.planes.size(); ++p) {
    const double angle = std::fmod(table.planes[p] + 720, 360);
    shown.push_back({angle, p});
  }
  AngleTable ring = in_order(table, std::move(shown));
  const size_t gammas = ring.gammas.size();
  if (ring.planes.front() > kSamePlane) {  // between the last plane and the first, which go on into each other
    const double before = ring.planes.back() - 360, share = -before / (ring.planes.front() - before);
    const size_t last = ring.values.size() - gammas;
    std::vector<double> zero(gammas);
    for (size_t g = 0; g < gammas; ++g) zero[g] = (1 - share) * ring.values[last + g] + share * ring.values[g];
    ring.planes.insert(ring.planes.begin(), 0);
    ring.values.insert(ring.values.begin(), zero.begin(), zero.end());
  }
  ring.planes.front() = 0;
  if (360 - ring.planes.back() > kSamePlane) {
    const AngleTable zero{
        ring.gammas, {0}, {ring.values.begin(), ring.values.begin() + static_cast<std::ptrdiff_t>(gammas)}};
    add_plane(ring, 360, zero, 0);
  }
  return ring;
}

Candela in_candela(AngleTable table, double factor, Goniometer angles) {
  const auto radians = [](std::vector<double> degrees, double most) {
    for (double& angle : degrees) angle = std::min(angle * units::deg.si(), most);
    return degrees;
  };
  for (double& value : table.values) value *= factor;
  return {radians(std::move(table.gammas), std::numbers::pi), radians(std::move(table.planes), 2 * std::numbers::pi),
          std::move(table.values), angles};
}

}  // namespace sightfall::light
