// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "light/spectrum.h"
#include "need/illumination.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Input;
using geom::Vec3;
using light::Band;
using light::PerBand;

constexpr Length kFarthest{500};  // beyond it a surface is as good as sky

/// One place of the frame: the light that reaches the lens from it, told as matt white surfaces are lit.
struct Patch {
  PerBand others;
  double own = 0;    // of the infrared's band, at full power
  PerBand swinging;  // the part of `others` that swings with the mains
  double falls = 1;  // of the lens, off its axis
  double weight = 1;
  double illuminance = -1;  // lx on the surface; none: sky
};

constexpr double kGrey = 0.2;  // of surfaces in a project without a table of materials

PerBand reflectance_of(const Lighting& lighting, int solid) {
  const light::Materials& materials = lighting.project().settings.materials;
  std::string name = lighting.project().site.ground.empty() ? materials.ground : lighting.project().site.ground;
  if (solid >= 0) {
    const site::Solid& one = lighting.project().site.solids[static_cast<size_t>(solid)];
    const std::array<const std::string*, 5> usual{&materials.building, &materials.wall, &materials.box, &materials.roof,
                                                  &materials.vehicle};
    name = one.material.empty() ? *usual.at(static_cast<size_t>(one.kind)) : one.material;
  }
  return materials.reflectance(name, kGrey);
}

PerBand veil_reflectance(const Lighting& lighting, int veil) {
  const light::Materials& materials = lighting.project().settings.materials;
  const site::VeilKind kind = lighting.project().site.veils[static_cast<size_t>(veil)].kind;
  const bool leaves = kind == site::VeilKind::kHedge || kind == site::VeilKind::kTree;
  return materials.reflectance(leaves ? materials.foliage : materials.mesh, kGrey);
}

/// Looks through the picture once; both modes and any power are worked out from what it finds.
class Look {
 public:
  Look(const Station& station, const Lighting& lighting) : station_{station}, lighting_{lighting} {}

  Patch along(Vec3 ray_camera) const {
    Patch patch;
    patch.falls = relative_illumination(station_.lens.projector, ray_camera.z);
    const Vec3 direction = geom::transposed(station_.pose.camera_from_site) * ray_camera;
    const geom::SitePoint eye = station_.pose.eye_site;
    const auto hit = lighting_.scene().first_solid(eye, direction, kFarthest);
    const auto veil = lighting_.scene().first_veil(eye, direction, hit ? Length{hit->distance} : kFarthest);
    const double distance = hit ? hit->distance : kFarthest.si();
    const PerBand transmission = lighting_.transmission(distance);
    if (hit) {
      const geom::SitePoint place = eye + hit->distance * direction;
      const SurfaceLight falls_on = lighting_.on_surface(place, hit->normal, station_.number);
      const PerBand matt = reflectance_of(lighting_, hit->solid);
      patch.others = transmission * (matt * falls_on.all);
      patch.swinging = transmission * (matt * falls_on.swinging);
      patch.illuminance = as_lux(falls_on.all);
      if (station_.infrared) {
        const double through = transmission[station_.infrared->band];
        const double incidence = std::max(0.0, -geom::dot(hit->normal, direction));
        patch.own = own_light(*station_.infrared, ray_camera.z, hit->distance) * incidence *
                    matt[station_.infrared->band] * through * through;
      }
    } else {
      patch.others = transmission * lighting_.sky();
    }
    for (const Band band : light::kBands) patch.others[band] += (1 - transmission[band]) * lighting_.sky()[band];
    if (veil) lay_over(*veil, direction, ray_camera.z, patch);
    if (station_.infrared)
      patch.own += own_path_light(station_, lighting_, ray_camera.z, distance) + own_glass_light(*station_.infrared);
    return patch;
  }

 private:
  void lay_over(const site::VeilHit& veil, Vec3 direction, double cosine, Patch& patch) const {
    const geom::SitePoint place = station_.pose.eye_site + veil.distance * direction;
    const PerBand matt = veil_reflectance(lighting_, veil.veil);
    patch.others = veil.passed * patch.others +
                   (1 - veil.passed) * (matt * lighting_.on_surface(place, -direction, station_.number).all);
    if (!station_.infrared) return;
    patch.own = veil.passed * veil.passed * patch.own + (1 - veil.passed) * matt[station_.infrared->band] *
                                                            own_light(*station_.infrared, cosine, veil.distance);
  }

  const Station& station_;
  const Lighting& lighting_;
};

std::vector<Patch> patches_of(const Station& station, const Lighting& lighting) {
  const camera::Projector& p = station.lens.projector;
  const Look look{station, lighting};
  std::vector<Patch> patches;
  for (int row = 0; row < kMeterRows; ++row)
    for (int column = 0; column < kMeterColumns; ++column) {
      const double x = (column + 0.5) / kMeterColumns, y = (row + 0.5) / kMeterRows;
      const auto ray = camera::ray_camera(p, {x * p.columns - 0.5, y * p.rows - 0.5});
      if (!ray) continue;  // outside a fisheye's circle
      Patch patch = look.along(*ray);
      constexpr double kCentre = 4;  // times the weight of the edge, in the middle third (from memory)
      const bool central = std::abs(x - 0.5) < 1.0 / 6 && std::abs(y - 0.5) < 1.0 / 6;
      patch.weight = station.metering == camera::Metering::kCentre && central ? kCentre : 1;
      patches.push_back(patch);
    }
  return patches;
}

/// Light on what the frame shows; of the sky when it shows nothing else.
double scene_lux(const std::vector<Patch>& patches, const Lighting& lighting) {
  double sum = 0;
  int count = 0;
  for (const Patch& patch : patches)
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
Band main_band(const std::vector<Patch>& patches, const Station& station) {
  PerBand sum;
  for (const Patch& patch : patches) {
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
  const std::vector<Patch> patches = patches_of(station, lighting);
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
  for (const Patch& patch : patches) {
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

double scene_lux(const Station& station, const Lighting& lighting) {
  return scene_lux(patches_of(station, lighting), lighting);
}

Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations) {
  std::vector<Station> burning;
  for (const Station& station : stations)
    if (station.infrared && infrared_on(station, monochrome(station, scene_lux(station, lighting), lighting)))
      burning.push_back(station);
  return lighting.with_infrared(burning);
}

}  // namespace sightfall::need
