// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/cast.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace sightfall::walk {
namespace {

using geom::Vec3;

/// Rays a pixel each way: as many as keep a large subject's piece within bounds.
int rays_each_way(double pixels) {
  constexpr double kMost = 5e6;
  for (const int rays : {5, 3})
    if (pixels * rays * rays <= kMost) return rays;
  return 1;
}

}  // namespace

PictureBox box_of(const SubjectMesh& mesh, const need::Station& station, int margin) {
  const camera::Projector& p = station.lens.projector;
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Vec3& vertex : mesh.mesh.vertices) {
    const auto at = camera::image_point(p, station.pose.camera_from_site * (vertex - station.pose.eye_site));
    if (!at) continue;
    left = std::min(left, at->u), right = std::max(right, at->u);
    top = std::min(top, at->v), bottom = std::max(bottom, at->v);
  }
  if (right < 0 || bottom < 0 || left > p.columns - 1 || top > p.rows - 1) return {};
  const auto within = [](double value, int count) {
    return static_cast<int>(std::clamp(value, 0.0, static_cast<double>(count) - 1));
  };
  return {within(std::floor(left) - margin, p.columns), within(std::floor(top) - margin, p.rows),
          within(std::ceil(right) + margin, p.columns), within(std::ceil(bottom) + margin, p.rows)};
}

Background cast_background(const Stage& stage, const need::Station& station, double power, const Progress& progress) {
  return StillCast{stage, station, progress}.background(power);
}

Cutout cast_subject(const Stage& stage, const need::Station& station, double power, int margin) {
  const PictureBox box = box_of(stage.visitor().mesh, station, margin);
  Cutout cut;
  if (box.empty()) return cut;
  cut.left = box.left, cut.top = box.top;
  cut.columns = box.right - box.left + 1, cut.rows = box.bottom - box.top + 1;
  cut.finer = rays_each_way(static_cast<double>(cut.columns) * cut.rows);
  const Raster raster{cut.left, cut.top, cut.columns * cut.finer, cut.rows * cut.finer, cut.finer};
  const Rays rays{station};
  const Caster caster{stage, station, rays, raster, site::Meets::kVisitor};
  Layers layers{raster.columns, raster.rows, station.flicker > 0};
  tbb::parallel_for(0, caster.tile_count(), [&](int index) { caster.tile(index, layers); });
  cut.cover = Plane{raster.columns, raster.rows};
  const float share = station.infrared_on ? static_cast<float>(power) : 0;
  const auto sky = static_cast<float>(need::kFarthest.si());
  for (size_t i = 0; i < layers.others.at.size(); ++i) {
    layers.others.at[i] += share * layers.own.at[i];
    cut.cover.at[i] = layers.depth.at[i] < sky ? 1 : 0;
    if (cut.cover.at[i] == 0) layers.hue[i] = 0;
  }
  cut.rate = std::move(layers.others);
  cut.hue = std::move(layers.hue);
  cut.swinging = std::move(layers.swinging);
  return cut;
}

}  // namespace sightfall::walk
