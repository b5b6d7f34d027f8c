// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/sweep_points.h"

#include <algorithm>
#include <numeric>

namespace sightfall::need {
namespace {

using geom::SitePoint;
using geom::Vec3;

uint64_t spread_bits(uint32_t value) {
  uint64_t v = value & 0x1fffff;
  v = (v | v << 32) & 0x1f00000000ffffULL;
  v = (v | v << 16) & 0x1f0000ff0000ffULL;
  v = (v | v << 8) & 0x100f00f00f00f00fULL;
  v = (v | v << 4) & 0x10c30c30c30c30c3ULL;
  return (v | v << 2) & 0x1249249249249249ULL;
}

/// Positions along a Z-shaped curve through the points' box.
std::vector<uint64_t> z_order(const std::vector<SitePoint>& points) {
  Vec3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (const SitePoint& p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
  // One scale for all axes keeps the curve's cells cubes.
  const double span = std::max({high.x - low.x, high.y - low.y, high.z - low.z, 1e-9});
  const auto cell = [&](double from_low) { return static_cast<uint32_t>(from_low / span * 0x1fffff); };
  std::vector<uint64_t> codes;
  codes.reserve(points.size());
  for (const SitePoint& p : points)
    codes.push_back(spread_bits(cell(p.x - low.x)) | spread_bits(cell(p.y - low.y)) << 1 |
                    spread_bits(cell(p.z - low.z)) << 2);
  return codes;
}

/// The smallest sphere around spheres' centres that holds them all, near enough.
template <class Items>
SweepPoints::Tile bounding(const Items& items, size_t first, size_t count) {
  SweepPoints::Tile sphere{static_cast<uint32_t>(first), static_cast<uint32_t>(count), {}, 0};
  for (size_t i = first; i < first + count; ++i)
    sphere.centre = sphere.centre + (1.0 / static_cast<double>(count)) * items(i).centre;
  for (size_t i = first; i < first + count; ++i)
    sphere.radius = std::max(sphere.radius, norm(items(i).centre - sphere.centre) + items(i).radius);
  return sphere;
}

/// Runs of `size` items, each within its sphere.
template <class Items>
std::vector<SweepPoints::Tile> in_runs(const Items& items, size_t total, size_t size) {
  std::vector<SweepPoints::Tile> runs;
  for (size_t first = 0; first < total; first += size)
    runs.push_back(bounding(items, first, std::min(size, total - first)));
  return runs;
}

}  // namespace

SweepPoints::SweepPoints(const std::vector<SitePoint>& points_site) : original(points_site.size()) {
  const std::vector<uint64_t> codes = z_order(points_site);
  std::iota(original.begin(), original.end(), 0U);
  std::stable_sort(original.begin(), original.end(), [&](uint32_t a, uint32_t b) { return codes[a] < codes[b]; });
  for (const uint32_t i : original) {
    x.push_back(static_cast<float>(points_site[i].x));
    y.push_back(static_cast<float>(points_site[i].y));
    z.push_back(static_cast<float>(points_site[i].z));
  }
  tiles = in_runs([&](size_t i) { return Tile{0, 1, points_site[original[i]], 0}; }, points_site.size(), kTile);
  groups = in_runs([&](size_t i) { return tiles[i]; }, tiles.size(), kGroup);
  // The last tile is computed whole like any other: its missing points repeat the last one.
  const size_t padded = tiles.size() * kTile;
  for (std::vector<float>* axis : {&x, &y, &z})
    if (!axis->empty()) axis->resize(padded, axis->back());
}

}  // namespace sightfall::need
