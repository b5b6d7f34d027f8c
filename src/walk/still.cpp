// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/still.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <mutex>
#include <utility>

namespace sightfall::walk {
namespace {

using geom::SitePoint;
using geom::Vec3;

struct Ball {
  SitePoint middle;
  double radius = 0;
};

/// Balls that hold a mesh: slices of its height, as high as it is wide or less.
std::vector<Ball> balls_of(const geom::Mesh& mesh) {
  constexpr int kSlices = 6;
  const auto [low, high] = std::minmax_element(mesh.vertices.begin(), mesh.vertices.end(),
                                               [](const Vec3& a, const Vec3& b) { return a.z < b.z; });
  const double bottom = low->z, height = std::max(high->z - low->z, 1e-6) / kSlices;
  constexpr double kNone = 1e300;
  std::array<Vec3, kSlices> least, most;
  least.fill({kNone, kNone, kNone}), most.fill({-kNone, -kNone, -kNone});
  for (const auto& triangle : mesh.triangles) {
    std::array<Vec3, 3> corner;
    for (size_t i = 0; i < 3; ++i) corner[i] = mesh.vertices[triangle[i]];
    const auto slice = [&](double z) { return std::clamp(static_cast<int>((z - bottom) / height), 0, kSlices - 1); };
    const auto [lowest, highest] = std::minmax({corner[0].z, corner[1].z, corner[2].z});
    for (int k = slice(lowest); k <= slice(highest); ++k)  // a triangle belongs whole, but for its height, to each
      for (const Vec3& v : corner) {
        const double z = std::clamp(v.z, bottom + k * height, bottom + (k + 1) * height);
        Vec3 &l = least.at(static_cast<size_t>(k)), &m = most.at(static_cast<size_t>(k));
        l = {std::min(l.x, v.x), std::min(l.y, v.y), std::min(l.z, z)};
        m = {std::max(m.x, v.x), std::max(m.y, v.y), std::max(m.z, z)};
      }
  }
  std::vector<Ball> balls;
  for (size_t k = 0; k < kSlices; ++k)
    if (least.at(k).x <= most.at(k).x)
      balls.push_back({0.5 * (least.at(k) + most.at(k)), 0.5 * geom::norm(most.at(k) - least.at(k))});
  return balls;
}

/// Whether a ball may stand between anything in another and the sky above it, whatever way that faces: the way there is
/// nowhere less steep than this (Lighting::sky_above).
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
      layers_{station.lens.projector.columns, station.lens.projector.rows, station.flicker > 0},
      stray_{station.lens.projector.columns, station.lens.projector.rows} {
  const Raster raster = whole(station);
  const Caster caster{stage, station, rays_, raster, site::Meets::kStanding};
  pieces_.resize(static_cast<size_t>(caster.tile_count()));
  std::atomic<int> done{0};
  std::mutex telling;
  tbb::parallel_for(0, caster.tile_count(), [&](int index) {
    if (progress.stopped()) return;
    pieces_[static_cast<size_t>(index)] = caster.tile(index, layers_);
    if (!station.glare.empty()) caster.stray(index, stray_);
    const std::lock_guard lock{telling};
    progress.tell(static_cast<double>(++done) / caster.tile_count(), "casting rays");
  });
}

Background StillCast::background(double power) const& {
  Background result{layers_.others, stray_, layers_.depth, layers_.hue, layers_.swinging};
  add_own(power, result.rate);
  return result;
}

Background StillCast::background(double power) && {
  add_own(power, layers_.others);
  return {std::move(layers_.others), std::move(stray_), std::move(layers_.depth), std::move(layers_.hue),
          std::move(layers_.swinging)};
}

void StillCast::add_own(double power, Plane& rate) const {
  if (!station_.infrared_on) return;
  const auto share = static_cast<float>(power);
  tbb::parallel_for(0, rate.rows, [&](int row) {
    for (size_t i = rate.index(0, row); i < rate.index(0, row + 1); ++i) rate.at[i] += share * layers_.own.at[i];
  });
}

std::vector<int> StillCast::shaded(const Caster& caster, const Stage& visited) const {
  std::vector<int> tiles;
  if (visited.visitor().mesh.mesh.triangles.empty()) return tiles;
  const std::vector<Ball> visitor = balls_of(visited.visitor().mesh.mesh);
  const auto shades = [&](const Piece& piece, size_t source) {
    const auto from = caster.shade().sets_out(source, piece.middle, piece.normal.value_or(Vec3{0, 0, 1}));
    if (!from) return false;  // comes from everywhere
    const Ball shown{piece.middle, piece.radius};
    return std::any_of(visitor.begin(), visitor.end(), [&](const Ball& hider) {
      return source == 0 && !piece.normal ? hides_sky(hider, shown) : stands_between(hider, shown, *from);
    });
  };
  for (int index = 0; index < tile_count(); ++index) {
    const std::vector<Piece>& pieces = pieces_[static_cast<size_t>(index)];
    if (std::any_of(pieces.begin(), pieces.end(), [&](const Piece& piece) {
          return std::any_of(piece.sources.begin(), piece.sources.end(),
                             [&](size_t source) { return shades(piece, source); });
        }))
      tiles.push_back(index);
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
    thread_local Layers layers{kTile, kTile, true};
    const int left = caster.left_of(tiles[i]), top = caster.top_of(tiles[i]);
    for (Plane* plane : {&layers.others, &layers.own, &layers.swinging})  // where no ray falls, nothing is written
      std::fill(plane->at.begin(), plane->at.end(), 0.0F);
    caster.tile(tiles[i], layers, left, top);
    for (int row = 0; row < std::min(kTile, result.rate.rows - top); ++row)
      for (int column = 0; column < std::min(kTile, result.rate.columns - left); ++column) {
        const size_t from = layers.others.index(column, row), to = result.rate.index(left + column, top + row);
        result.rate.at[to] = layers.others.at[from] + share * layers.own.at[from];
        if (!result.swinging.at.empty()) result.swinging.at[to] = layers.swinging.at[from];
      }
  });
  return result;
}

}  // namespace sightfall::walk
