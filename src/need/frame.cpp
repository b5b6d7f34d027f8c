// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/frame.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "light/spectrum.h"
#include "need/look.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Input;
using light::Band;
using light::PerBand;

/// One place of the frame as the meter weighs it.
struct MeteredPatch : Patch {
  double weight = 1;
};

std::vector<MeteredPatch> patches_of(const Station& station, const Lighting& lighting) {
  const camera::Projector& p = station.lens.projector;
  const Look look{station, lighting};
  std::vector<MeteredPatch> patches;
  for (int row = 0; row < kMeterRows; ++row)
    for (int column = 0; column < kMeterColumns; ++column) {
      const double x = (column + 0.5) / kMeterColumns, y = (row + 0.5) / kMeterRows;
      const auto ray = camera::ray_camera(p, {x * p.columns - 0.5, y * p.rows - 0.5});
      if (!ray) continue;  // outside a fisheye's circle
      MeteredPatch patch{look.along(*ray)};
      constexpr double kCentre = 4;  // times the weight of the edge, in the middle third (from memory)
      const bool central = std::abs(x - 0.5) < 1.0 / 6 && std::abs(y - 0.5) < 1.0 / 6;
      patch.weight = station.metering == camera::Metering::kCentre && central ? kCentre : 1;
      patches.push_back(patch);
    }
  return patches;
}

/// Light on what the frame shows; of the sky when it shows nothing else.
double scene_lux(const std::vector<MeteredPatch>& patches, const Lighting& lighting) {
  double sum = 0;
  int count = 0;
  for (const MeteredPatch& patch : patches)
    if (patch.illuminance >= 0) {
      sum += patch.illuminance;
      ++count;
    }
  return count > 0 ? sum / count : as_lux(lighting.sky());
}

bool monochrome(const Station& station, double lux, const Lighting& lighting) {
  if (station.picture != camera::PictureMode::kAutomatic) return station.picture == camera::PictureMode::kMonochrome;
  return lux < lighting.night_switch();
}

bool infrared_on(const Station& station, bool monochrome) {
  const bool by_itself = station.infrared_use == camera::InfraredUse::kAutomatic && monochrome;
  return station.infrared && (by_itself || station.infrared_use == camera::InfraredUse::kOn);
}

/// Which band the frame is mostly lit in.
Band main_band(const std::vector<MeteredPatch>& patches, const Station& station) {
  PerBand sum;
  for (const MeteredPatch& patch : patches) {
    for (const Band band : light::kBands) sum[band] += patch.others[band] * station.response[band];
    if (station.infrared_on) sum[station.infrared->band] += patch.own * station.response[station.infrared->band];
  }
  const double near = sum[Band::kNear850] + sum[Band::kNear940];
  if (sum[Band::kVisible] >= near) return Band::kVisible;
  return sum[Band::kNear850] >= sum[Band::kNear940] ? Band::kNear850 : Band::kNear940;
}

}  // namespace

Station in_condition(const Station& station, const Lighting& lighting) {
  Station result = station;
  const std::vector<MeteredPatch> patches = patches_of(station, lighting);
  result.scene_lux = scene_lux(patches, lighting);
  result.monochrome = monochrome(station, result.scene_lux, lighting);
  const bool filter_out = result.monochrome && station.has_filter;
  result.infrared_on = infrared_on(station, result.monochrome);
  result.response = filter_out ? station.response_night : station.response_day;
  const Band band = main_band(patches, result);
  result.near_infrared = band != Band::kVisible;
  result.constants.wavelength = light::wavelength_of(band).si();
  if (!result.near_infrared) result.constants.focus_shift = 0;
  result.inputs[static_cast<size_t>(Input::kSensitivity)] =
      result.near_infrared ? station.sensitivity_night : station.sensitivity_day;
  if (result.monochrome) result.constants.dynamic_ratio = 1;  // not used with the filter out (from memory)

  std::vector<detail::MeterPixel> pixels;
  pixels.reserve(patches.size());
  double all = 0, swinging = 0;
  for (const MeteredPatch& patch : patches) {
    const double own = result.infrared_on ? patch.own * result.response[station.infrared->band] : 0;
    pixels.push_back({patch.falls * dot(result.response, patch.others), patch.falls * own, patch.weight});
    all += pixels.back().others + pixels.back().own;
    swinging += patch.falls * dot(result.response, patch.swinging);
  }
  result.flicker = all > 0 ? swinging / all : 0;
  result.constants.metering = detail::Metering{pixels};
  result.constants.limits.adaptive = result.infrared_on && station.infrared->adaptive;
  result.glare = lighting.direct_at(station.pose.eye_site);
  std::erase_if(result.glare,
                [&](const Direct& one) { return one.camera != kNoCamera && one.camera == station.number; });
  return result;
}

std::vector<Station> in_condition(const std::vector<Station>& stations, const Lighting& lighting) {
  std::vector<Station> result(stations.size());
  tbb::parallel_for(size_t{0}, stations.size(), [&](size_t i) { result[i] = in_condition(stations[i], lighting); });
  return result;
}

double scene_lux(const Station& station, const Lighting& lighting) {
  return scene_lux(patches_of(station, lighting), lighting);
}

Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations) {
  std::vector<uint8_t> burns(stations.size(), 0);
  tbb::parallel_for(size_t{0}, stations.size(), [&](size_t i) {
    const Station& station = stations[i];
    burns[i] = station.infrared && infrared_on(station, monochrome(station, scene_lux(station, lighting), lighting));
  });
  std::vector<Station> burning;
  for (size_t i = 0; i < stations.size(); ++i)
    if (burns[i] != 0) burning.push_back(stations[i]);
  return lighting.with_infrared(burning);
}

LitScene lit_scene(const Project& project, const site::Condition& condition) {
  auto scene = std::make_shared<const site::Scene>(project.site, condition.leaves);
  Lighting lighting = with_cameras(Lighting{project, *scene, condition}, stations_of(project));
  return {std::move(scene), std::move(lighting)};
}

}  // namespace sightfall::need
