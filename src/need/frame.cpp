// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/frame.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "light/spectrum.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Input;
using light::Band;
using light::PerBand;

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

Station in_condition(const Station& station, const Meter& meter, const Lighting& lighting) {
  Station result = station;
  const std::vector<MeteredPatch> patches = meter.patches(station, lighting);
  result.scene_lux = meter.scene_lux();
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

Station in_condition(const Station& station, const Lighting& lighting) {
  return in_condition(station, Meter{station, lighting}, lighting);
}

std::vector<Station> in_condition(const std::vector<Station>& stations, const Lighting& lighting) {
  return in_condition(stations, meters_of(stations, lighting), lighting);
}

std::vector<Station> in_condition(const std::vector<Station>& stations, const std::vector<Meter>& meters,
                                  const Lighting& lighting) {
  std::vector<Station> result(stations.size());
  tbb::parallel_for(size_t{0}, stations.size(),
                    [&](size_t i) { result[i] = in_condition(stations[i], meters[i], lighting); });
  return result;
}

Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations) {
  return with_cameras(lighting, stations, meters_of(stations, lighting));
}

Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations,
                      const std::vector<Meter>& meters) {
  std::vector<Station> burning;
  for (size_t i = 0; i < stations.size(); ++i)
    if (infrared_on(stations[i], monochrome(stations[i], meters[i].scene_lux(), lighting)))
      burning.push_back(stations[i]);
  return lighting.with_infrared(burning);
}

LitStations lit_stations(const Lighting& lighting, const std::vector<Station>& stations) {
  return lit_stations(lighting, stations, meters_of(stations, lighting));
}

LitStations lit_stations(const Lighting& lighting, const std::vector<Station>& stations,
                         const std::vector<Meter>& meters) {
  Lighting joined = with_cameras(lighting, stations, meters);
  std::vector<Station> in_light = in_condition(stations, meters, joined);
  return {std::move(joined), std::move(in_light)};
}

LitScene lit_scene(const Project& project, const site::Condition& condition) {
  auto scene = std::make_shared<const site::Scene>(project.site, condition.leaves);
  const std::vector<Station> stations = stations_of(project);
  const Lighting plain{project, *scene, condition};
  Lighting lighting = with_cameras(plain, stations);
  return {std::move(scene), std::move(lighting)};
}

}  // namespace sightfall::need
