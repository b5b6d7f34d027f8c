// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/meter.h"

#include <tbb/parallel_for.h>

#include <cmath>
#include <optional>
#include <utility>

namespace sightfall::need {
namespace {

double weight_at(camera::Metering metering, double x, double y) {
  constexpr double kCentre = 4;  // times the weight of the edge, in the middle third (from memory)
  const bool central = std::abs(x - 0.5) < 1.0 / 6 && std::abs(y - 0.5) < 1.0 / 6;
  return metering == camera::Metering::kCentre && central ? kCentre : 1;
}

}  // namespace

MeterFrame::MeterFrame(const Station& station, const Lighting& lighting) {
  const camera::Projector& p = station.lens.projector;
  const Look look{station, lighting};
  const auto add = [&](const SurfacePlace& place) {
    places.push_back(place);
    return static_cast<int>(places.size()) - 1;
  };
  for (int row = 0; row < kMeterRows; ++row)
    for (int column = 0; column < kMeterColumns; ++column) {
      const double x = (column + 0.5) / kMeterColumns, y = (row + 0.5) / kMeterRows;
      const auto ray = camera::ray_camera(p, {x * p.columns - 0.5, y * p.rows - 0.5});
      if (!ray) continue;  // outside a fisheye's circle
      Ray one{*ray, look.strike(*ray), weight_at(station.metering, x, y)};
      if (one.struck.surface) one.surface = add(look.place_of(*ray, *one.struck.surface));
      if (one.struck.veil) one.veil = add(look.place_of(*ray, *one.struck.veil));
      rays.push_back(one);
    }
}

Meter::Meter(const Station& station, const Lighting& lighting)
    : Meter{std::make_shared<const MeterFrame>(station, lighting), lighting} {}

Meter::Meter(std::shared_ptr<const MeterFrame> frame, const Lighting& lighting)
    : frame_{std::move(frame)}, light_{lighting.on_surfaces(frame_->places)} {
  double sum = 0;
  int count = 0;
  for (const MeterFrame::Ray& ray : frame_->rays)
    if (ray.surface != MeterFrame::kNone) {
      sum += as_lux(light_[static_cast<size_t>(ray.surface)].all);
      ++count;
    }
  scene_lux_ = count > 0 ? sum / count : as_lux(lighting.sky());
}

std::vector<MeteredPatch> Meter::patches(const Station& station, const Lighting& joined) const {
  std::vector<SurfaceLight> light = light_;
  joined.add_infrared(frame_->places, station.number, light);
  const Look look{station, joined};
  const auto on = [&](int place) {
    return place == MeterFrame::kNone ? SurfaceLight{} : light[static_cast<size_t>(place)];
  };
  std::vector<MeteredPatch> patches;
  patches.reserve(frame_->rays.size());
  for (const MeterFrame::Ray& ray : frame_->rays)
    patches.push_back({look.light(ray.in_camera, ray.struck, on(ray.surface), on(ray.veil)), ray.weight});
  return patches;
}

std::vector<Meter> meters_of(const std::vector<Station>& stations, const Lighting& lighting) {
  std::vector<std::optional<Meter>> each(stations.size());
  tbb::parallel_for(size_t{0}, stations.size(), [&](size_t i) { each[i].emplace(stations[i], lighting); });
  std::vector<Meter> meters;
  meters.reserve(each.size());
  for (std::optional<Meter>& one : each) meters.push_back(std::move(*one));
  return meters;
}

}  // namespace sightfall::need
