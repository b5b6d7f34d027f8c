// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/cast.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <mutex>

#include "need/illumination.h"

namespace sightfall::walk {
namespace {

using geom::Vec3;

double rate_of(const need::Patch& patch, const need::Station& station, double power) {
  double light = dot(station.response, patch.others);
  if (station.infrared_on) light += power * station.response[station.infrared->band] * patch.own;
  return patch.falls * light;
}

/// Rays a pixel each way: as many as keep a large subject's piece within bounds.
int rays_each_way(double pixels) {
  constexpr double kMost = 2e7;
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
  const camera::Projector& p = station.lens.projector;
  Background background{{p.columns, p.rows},
                        {p.columns, p.rows},
                        {p.columns, p.rows, static_cast<float>(need::kFarthest.si())},
                        std::vector<uint8_t>(static_cast<size_t>(p.columns) * static_cast<size_t>(p.rows), kSkyHue)};
  const detail::Typical& typical = stage.lighting().project().settings.typical;
  const Vec3 axis{0, 0, 1};
  const bool flat = p.mapping != camera::Mapping::kFisheye;
  std::atomic<int> done{0};
  std::mutex telling;
  tbb::parallel_for(0, p.rows, [&](int row) {
    if (progress.stopped()) return;
    for (int column = 0; column < p.columns; ++column) {
      const auto ray = camera::ray_camera(p, {static_cast<double>(column), static_cast<double>(row)});
      if (!ray) continue;  // outside a fisheye's circle
      const std::optional<Met> met = stage.behind(*ray);
      const size_t at = background.rate.index(column, row);
      background.rate.at[at] = static_cast<float>(rate_of(stage.light(*ray, met), station, power));
      if (!station.glare.empty()) {
        const Vec3 direction = geom::transposed(station.pose.camera_from_site) * *ray;
        background.stray.at[at] =
            static_cast<float>(dot(station.response, need::stray_light(station, typical, direction)));
      }
      if (!met) continue;
      background.depth.at[at] = static_cast<float>(met->surface.distance * (flat ? geom::dot(*ray, axis) : 1));
      background.hue[at] = met->hue;
    }
    const std::lock_guard lock{telling};
    progress.tell(static_cast<double>(++done) / p.rows, "casting rays");
  });
  return background;
}

Cutout cast_subject(const Stage& stage, const need::Station& station, double power, int margin) {
  const PictureBox box = box_of(stage.visitor().mesh, station, margin);
  Cutout cut;
  if (box.empty()) return cut;
  cut.left = box.left, cut.top = box.top;
  cut.columns = box.right - box.left + 1, cut.rows = box.bottom - box.top + 1;
  cut.finer = rays_each_way(static_cast<double>(cut.columns) * cut.rows);
  cut.rate = cut.cover = Plane{cut.columns * cut.finer, cut.rows * cut.finer};
  cut.hue.assign(cut.rate.at.size(), 0);
  const auto place = [&](int from, int index) { return from + (index + 0.5) / cut.finer - 0.5; };
  tbb::parallel_for(0, cut.rate.rows, [&](int row) {
    for (int column = 0; column < cut.rate.columns; ++column) {
      const auto ray = camera::ray_camera(station.lens.projector, {place(cut.left, column), place(cut.top, row)});
      if (!ray) continue;
      const std::optional<Met> met = stage.first(*ray);
      if (!met || !met->visitor) continue;
      const size_t at = cut.rate.index(column, row);
      cut.rate.at[at] = static_cast<float>(rate_of(stage.light(*ray, met), station, power));
      cut.cover.at[at] = 1;
      cut.hue[at] = met->hue;
    }
  });
  return cut;
}

}  // namespace sightfall::walk
