// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/meter.h"

#include <tbb/parallel_for.h>

#include <cmath>
#include <optional>

namespace sightfall::need {
namespace {

double weight_at(camera::Metering metering, double x, double y) {
  constexpr double kCentre = 4;  // times the weight of the edge, in the middle third (from memory)
  const bool central = std::abs(x - 0.5) < 1.0 / 6 && std::abs(y - 0.5) < 1.0 / 6;
  return metering == camera::Metering::kCentre && central ? kCentre : 1;
}

}  // namespace

Meter::Meter(const Station& station, const Lighting& lighting) {
  const camera::Projector& p = station.lens.projector;
  const Look look{station, lighting};
  for (int row = 0; row < kMeterRows; ++row)
    for (int column = 0; column < kMeterColumns; ++column) {
      const double x = (column + 0.5) / kMeterColumns, y = (row + 0.5) / kMeterRows;
      const auto ray = camera::ray_camera(p, {x * p.columns - 0.5, y * p.rows - 0.5});
      if (!ray) continue;  // outside a fisheye's circle
      MeterRay one{*ray, look.strike(*ray), weight_at(station.metering, x, y)};
      if (one.struck.surface) one.surface = add_place(look.place_of(*ray, *one.struck.surface));
      if (one.struck.veil) one.veil = add_place(look.place_of(*ray, *one.struck.veil));
      rays_.push_back(one);
    }
  light_ = lighting.on_surfaces(places_);
  double sum = 0;
  int count = 0;
  for (const MeterRay& ray : rays_)
    if (ray.surface != kNone) {
      sum += as_lux(light_[static_cast<size_t>(ray.surface)].all);
      ++count;
    }
  scene_lux_ = count > 0 ? sum / count : as_lux(lighting.sky());
}

int Meter::add_place(const SurfacePlace& place) {
  places_.push_back(place);
  return static_cast<int>(places_.size()) - 1;
}

std::vector<MeteredPatch> Meter::patches(const Station& station, const Lighting& joined) const {
  std::vector<SurfaceLight> light = light_;
  joined.add_infrared(places_, station.number, light);
  const Look look{station, joined};
  const auto on = [&](int place) { return place == kNone ? SurfaceLight{} : light[static_cast<size_t>(place)]; };
  std::vector<MeteredPatch> patches;
  patches.reserve(rays_.size());
  for (const MeterRay& ray : rays_)
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
