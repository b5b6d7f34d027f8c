// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/rays.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace sightfall::walk {
namespace {

using geom::ImagePoint;
using geom::Vec3;

constexpr int kCell = 8;  // px between nodes

// As in texture.cpp.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define SIGHTFALL_WIDE_VECTORS __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define SIGHTFALL_WIDE_VECTORS
#endif

/// Unit vectors along left + share over, for shares that rise by steps.
SIGHTFALL_WIDE_VECTORS void run(const Vec3 left, const Vec3 over, double share, double step, int count, float* x,
                                float* y, float* z) {
  for (int k = 0; k < count; ++k) {
    const double at = share + k * step;
    const double wx = left.x + at * over.x, wy = left.y + at * over.y, wz = left.z + at * over.z;
    const double scale = 1 / std::sqrt(wx * wx + wy * wy + wz * wz);
    x[k] = static_cast<float>(scale * wx), y[k] = static_cast<float>(scale * wy), z[k] = static_cast<float>(scale * wz);
  }
}

}  // namespace

Rays::Rays(const need::Station& station) : station_{station} {
  const camera::Projector& p = station.lens.projector;
  across_ = (p.columns + kCell - 1) / kCell + 1;  // half a pixel lies before the first node
  down_ = (p.rows + kCell - 1) / kCell + 1;
  nodes_.resize(static_cast<size_t>(across_ + 1) * static_cast<size_t>(down_ + 1));
  tbb::parallel_for(0, down_ + 1, [&](int row) {
    for (int column = 0; column <= across_; ++column)
      nodes_[static_cast<size_t>(row) * static_cast<size_t>(across_ + 1) + static_cast<size_t>(column)] =
          node_at(column, row);
  });
}

Rays::Node Rays::node_at(int column, int row) const {
  const camera::Projector& p = station_.lens.projector;
  const ImagePoint at{column * static_cast<double>(kCell) - 1, row * static_cast<double>(kCell) - 1};
  const auto ray = camera::ray_camera(p, at);
  if (!ray) return {};
  const bool flat = p.mapping != camera::Mapping::kFisheye;
  const Vec3 way = flat ? (1 / ray->z) * *ray : *ray;
  return {geom::transposed(station_.pose.camera_from_site) * way, true};
}

std::optional<Vec3> Rays::exactly(ImagePoint at) const {
  const auto ray = camera::ray_camera(station_.lens.projector, at);
  if (!ray) return std::nullopt;
  return geom::transposed(station_.pose.camera_from_site) * *ray;
}

const Rays::Node* Rays::cell(int column, int row) const {
  return &nodes_[static_cast<size_t>(row) * static_cast<size_t>(across_ + 1) + static_cast<size_t>(column)];
}

bool Rays::lit(const Node* upper) const {
  const Node* lower = upper + across_ + 1;
  return upper[0].lit && upper[1].lit && lower[0].lit && lower[1].lit;
}

std::optional<Vec3> Rays::through(ImagePoint at) const {
  const double x = (at.u + 1) / kCell, y = (at.v + 1) / kCell;
  const int column = std::clamp(static_cast<int>(x), 0, across_ - 1);
  const int row = std::clamp(static_cast<int>(y), 0, down_ - 1);
  const Node *upper = cell(column, row), *lower = upper + across_ + 1;
  if (!lit(upper)) return exactly(at);
  const double right = x - column, down = y - row;
  const Vec3 way = (1 - down) * ((1 - right) * upper[0].way + right * upper[1].way) +
                   down * ((1 - right) * lower[0].way + right * lower[1].way);
  return geom::unit(way);
}

bool Rays::row(const Raster& raster, int column, int row, int count, float* x, float* y, float* z) const {
  const ImagePoint first = raster.at(column, row);
  const double in_down = (first.v + 1) / kCell, step = 1.0 / (kCell * raster.finer);
  const int cell_row = std::clamp(static_cast<int>(in_down), 0, down_ - 1);
  const double down = in_down - cell_row;
  for (int i = 0; i < count;) {
    const double across = (first.u + 1) / kCell + i * step;
    const int cell_column = std::clamp(static_cast<int>(across), 0, across_ - 1);
    const Node *upper = cell(cell_column, cell_row), *lower = upper + across_ + 1;
    if (!lit(upper)) return false;
    const Vec3 left = (1 - down) * upper[0].way + down * lower[0].way;
    const Vec3 over = (1 - down) * upper[1].way + down * lower[1].way - left;
    const auto points =
        cell_column == across_ - 1 ? count : static_cast<int>(std::ceil((cell_column + 1 - across) / step));
    const int upto = std::min(count, i + std::max(1, points));
    run(left, over, across - cell_column, step, upto - i, x + i, y + i, z + i);
    i = upto;
  }
  return true;
}

}  // namespace sightfall::walk
