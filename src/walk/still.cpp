// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/still.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <mutex>
#include <numeric>

namespace sightfall::walk {
namespace {

using geom::SitePoint;
using geom::Vec3;

struct Ball {
  SitePoint middle;
  double radius = 0;
};

Ball ball_of(const geom::Mesh& mesh) {
  Vec3 low = mesh.vertices.front(), high = low;
  for (const Vec3& v : mesh.vertices) {
    low = {std::min(low.x, v.x), std::min(low.y, v.y), std::min(low.z, v.z)};
    high = {std::max(high.x, v.x), std::max(high.y, v.y), std::max(high.z, v.z)};
  }
  return {0.5 * (low + high), 0.5 * geom::norm(high - low)};
}

/// Whether a ball may stand between anything in another and the sky above it, which lies less steeply than kSteepness
/// nowhere (Lighting::sky_above).
bool hides_sky(const Ball& hider, const Ball& from) {
  constexpr double kLeastSteepness = 0.458;
  const double climb = std::max(0.0, hider.middle.z + hider.radius - (from.middle.z - from.radius));
  const Vec3 off = hider.middle - from.middle;
  return std::hypot(off.x, off.y) <= hider.radius + from.radius + climb / kLeastSteepness;
}

/// Whether it may stand in the way to a place: in what the ball sweeps while it shrinks to that place.
bool stands_between(const Ball& hider, const Ball& from, SitePoint source) {
  const Vec3 way = source - from.middle, off = hider.middle - from.middle;
  const double length2 = geom::dot(way, way);
  const double share = length2 > 0 ? std::clamp(geom::dot(off, way) / length2, 0.0, 1.0) : 0;
  return geom::norm(off - share * way) <= hider.radius + from.radius;
}

Raster whole(const need::Station& station) {
  return {0, 0, station.lens.projector.columns, station.lens.projector.rows, 1};
}

}  // namespace

StillCast::StillCast(const Stage& stage, const need::Station& station, const Progress& progress)
    : station_{station},
      rays_{station},
      layers_{station.lens.projector.columns, station.lens.projector.rows},
      stray_{station.lens.projector.columns, station.lens.projector.rows} {
  const Raster raster = whole(station);
  const Caster caster{stage, station, rays_, raster, site::Meets::kStanding};
  spans_.resize(static_cast<size_t>(caster.tile_count()));
  std::atomic<int> done{0};
  std::mutex telling;
  tbb::parallel_for(0, caster.tile_count(), [&](int index) {
    if (progress.stopped()) return;
    spans_[static_cast<size_t>(index)] = caster.tile(index, layers_);
    if (!station.glare.empty()) caster.stray(index, stray_);
    const std::lock_guard lock{telling};
    progress.tell(static_cast<double>(++done) / caster.tile_count(), "casting rays");
  });
}

Background StillCast::background(double power) const {
  Background result{layers_.others, stray_, layers_.depth, layers_.hue};
  if (!station_.infrared_on) return result;
  const auto share = static_cast<float>(power);
  tbb::parallel_for(0, result.rate.rows, [&](int row) {
    for (size_t i = result.rate.index(0, row); i < result.rate.index(0, row + 1); ++i)
      result.rate.at[i] += share * layers_.own.at[i];
  });
  return result;
}

std::vector<int> StillCast::shaded(const Caster& caster, const Stage& visited) const {
  std::vector<int> tiles;
  if (visited.visitor().mesh.mesh.vertices.empty()) return tiles;
  const Ball visitor = ball_of(visited.visitor().mesh.mesh);
  for (int index = 0; index < tile_count(); ++index) {
    const TileSpan& span = spans_[static_cast<size_t>(index)];
    if (span.radius < 0) continue;
    const Ball shown{span.middle, span.radius};
    const auto shades = [&](size_t source) {
      if (!caster.shade().sets_out(source, shown.middle, {0, 0, 1})) return false;  // comes from everywhere
      if (source == 0) return hides_sky(visitor, shown);
      return stands_between(visitor, shown, *caster.shade().sets_out(source, shown.middle, {0, 0, 1}));
    };
    if (std::any_of(span.sources.begin(), span.sources.end(), shades)) tiles.push_back(index);
  }
  return tiles;
}

int StillCast::tiles_shaded(const Stage& visited) const {
  const Caster caster{visited, station_, rays_, whole(station_), site::Meets::kStanding};
  return static_cast<int>(shaded(caster, visited).size());
}

Background StillCast::background(const Stage& visited, double power) const {
  Background result = background(power);
  const Caster caster{visited, station_, rays_, whole(station_), site::Meets::kStanding};
  const std::vector<int> tiles = shaded(caster, visited);
  const float share = station_.infrared_on ? static_cast<float>(power) : 0;
  tbb::parallel_for(size_t{0}, tiles.size(), [&](size_t i) {
    thread_local Layers layers{kTile, kTile};
    const int left = caster.left_of(tiles[i]), top = caster.top_of(tiles[i]);
    caster.tile(tiles[i], layers, left, top);
    for (int row = 0; row < std::min(kTile, result.rate.rows - top); ++row)
      for (int column = 0; column < std::min(kTile, result.rate.columns - left); ++column) {
        const size_t from = layers.others.index(column, row);
        result.rate.at[result.rate.index(left + column, top + row)] =
            layers.others.at[from] + share * layers.own.at[from];
      }
  });
  return result;
}

}  // namespace sightfall::walk
