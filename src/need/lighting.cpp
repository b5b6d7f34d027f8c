// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/lighting.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "light/air.h"
#include "light/infrared.h"
#include "light/spectrum.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::SitePoint;
using geom::Vec3;
using light::Band;
using light::PerBand;

constexpr double kAmpleLux = 10000;      // of a condition that says nothing of light: an overcast noon
constexpr double kLeastDistance = 0.05;  // m: nearer than its own size a lamp does not get brighter

light::Spectrum spectrum_of(site::LampLight kind) {
  switch (kind) {
    case site::LampLight::kLed:
      return light::Spectrum::kLed;
    case site::LampLight::kHalogen:
      return light::Spectrum::kHalogen;
    case site::LampLight::kSodium:
      return light::Spectrum::kSodium;
    case site::LampLight::kInfrared850:
      return light::Spectrum::kInfrared850;
    case site::LampLight::kInfrared940:
      break;
  }
  return light::Spectrum::kInfrared940;
}

/// How far its light swings over its mean.
Ranged<double> flicker_of(const site::Lamp& lamp, const detail::Typical& typical) {
  if (lamp.flicker) return {*lamp.flicker, *lamp.flicker, *lamp.flicker};
  switch (lamp.light) {
    case site::LampLight::kLed:
      return typical.flicker_led.value;
    case site::LampLight::kHalogen:
      return typical.flicker_halogen.value;
    case site::LampLight::kSodium:
      return typical.flicker_sodium.value;
    default:
      return {0, 0, 0};  // infrared lamps run on direct current
  }
}

bool infrared(const site::Lamp& lamp) {
  return lamp.light == site::LampLight::kInfrared850 || lamp.light == site::LampLight::kInfrared940;
}

/// Directions that fill the sphere evenly, upper half first half.
std::vector<Vec3> directions(int count) {
  std::vector<Vec3> all;
  constexpr double kGolden = 2.399963229728653;  // rad, between neighbours of a sunflower
  for (int i = 0; i < count; ++i) {
    const double z = 1 - (2 * i + 1.0) / count, r = std::sqrt(1 - z * z), turn = kGolden * i;
    all.push_back({r * std::cos(turn), r * std::sin(turn), z});
  }
  return all;
}

light::AirName air_of(const site::Condition& condition) {
  if (condition.light == site::NamedLight::kFog && condition.air == site::AirKind::kClear) return light::AirName::kFog;
  return static_cast<light::AirName>(condition.air);
}

double dot_of(const Vec3& n, const std::array<PerBand, 3>& v, size_t band) {
  return n.x * v[0].value[band] + n.y * v[1].value[band] + n.z * v[2].value[band];
}

light::Observer observer_of(const Project& project) {
  const site::Anchor& anchor = *project.site.anchor;  // the reader refuses a date without one
  return {anchor.latitude, anchor.longitude, anchor.height};
}

/// Of a condition that says something of light.
light::SkyLight sky_of(const Project& project, const site::Condition& condition) {
  if (condition.light) return light::named_sky(static_cast<light::NamedSky>(*condition.light));
  const light::Observer observer = observer_of(project);
  return light::sky_light(light::sun_at(condition.julian_day, observer), light::moon_at(condition.julian_day, observer),
                          static_cast<light::Clouds>(condition.weather));
}

bool sun_rises(const Project& project, const site::Condition& condition) {
  constexpr double kLater = 1.0 / 144;  // day: ten minutes
  const light::Observer observer = observer_of(project);
  return light::sun_at(condition.julian_day + kLater, observer).altitude >
         light::sun_at(condition.julian_day, observer).altitude;
}

// So far off a beam's axis that a thousand such lamps change nothing: no shadow is looked for.
constexpr double kNothing = 1e-6;

/// The cosine off the axis of a beam beyond which it gives nothing.
double edge_of(double exponent) { return exponent > 0 ? std::pow(kNothing, 1 / exponent) : 0; }

}  // namespace

bool is_dark(const Project& project, const site::Condition& condition) {
  return !condition.ample() && sky_of(project, condition).dark;
}

double as_lux(const PerBand& light) {
  return light[Band::kVisible] / light::photons_per_lux(light::Spectrum::kDaylight)[Band::kVisible];
}

std::string light_in_words(const site::Condition& condition) {
  if (condition.ample()) return "ample light everywhere";
  constexpr std::array<const char*, 3> kWeather{"clear sky", "overcast", "storm"};
  constexpr std::array<const char*, 4> kAir{"", ", haze", ", fog", ", rain"};
  std::string words;
  if (condition.light) {
    words = light::in_words(static_cast<light::NamedSky>(*condition.light));
  } else {
    const site::ClockTime& at = *condition.when;
    words = fmt::format("{:04}-{:02}-{:02} {:02}:{:02}, {}", at.year, at.month, at.day, at.hour, at.minute,
                        kWeather.at(static_cast<size_t>(condition.weather)));
  }
  words += kAir.at(static_cast<size_t>(condition.air));
  if (condition.visibility) words += fmt::format(", air clear to {:g} m", condition.visibility->in(m));
  return words;
}

PerBand PlaceLight::on(Vec3 outward, int but_camera) const {
  PerBand sum;
  for (size_t band = 0; band < light::kBandCount; ++band)
    sum.value[band] = std::max(0.0, scalar.value[band] + dot_of(outward, vector, band));
  for (const Direct& one : direct) {
    const double cosine = geom::dot(outward, one.towards);
    if (cosine > 0 && (one.camera == kNoCamera || one.camera != but_camera)) sum += cosine * one.normal;
  }
  return sum;
}

PerBand PlaceLight::swinging_on(Vec3 outward) const {
  PerBand sum;
  for (const Direct& one : direct)
    if (one.flicker > 0) sum += one.flicker * std::max(0.0, geom::dot(outward, one.towards)) * one.normal;
  return sum;
}

Lighting::Lighting(const Project& project, const site::Scene& scene, const site::Condition& condition)
    : project_{&project}, scene_{&scene} {
  const light::Materials& materials = project.settings.materials;
  constexpr double kBlack = 0;  // of a project without a table of materials
  ground_ = materials.reflectance(project.site.ground.empty() ? materials.ground : project.site.ground, kBlack);
  const Length visibility = condition.visibility.value_or(light::visibility_of(air_of(condition)));
  for (const Band band : light::kBands) extinction_[static_cast<size_t>(band)] = light::extinction(visibility, band);
  night_switch_ = project.settings.typical.night_switch.value.nominal;
  day_switch_ = project.settings.typical.day_switch.value.nominal;
  set_sky(condition);
  light_lamps(condition);
}

Lighting Lighting::with_infrared(const std::vector<Station>& burning) const {
  Lighting result = *this;
  for (const Station& station : burning) {
    const OwnInfrared& infrared = *station.infrared;
    BurningLamp one;
    one.camera = station.number;
    one.pose = station.pose;
    one.intensity = infrared.intensity;
    one.exponent = infrared.exponent;
    one.edge = edge_of(one.exponent);
    one.photons[infrared.band] = infrared.photons;
    result.carried_.push_back(std::move(one));
  }
  return result;
}

Lighting Lighting::in_scene(const site::Scene& scene) const {
  Lighting result = *this;
  result.scene_ = &scene;
  return result;
}

Lighting Lighting::with_night_switch(double lux) const {
  Lighting result = *this;
  result.night_switch_ = lux;
  return result;
}

void Lighting::set_sky(const site::Condition& condition) {
  const PerBand daylight = light::photons_per_lux(light::Spectrum::kDaylight);
  if (condition.ample()) {
    ample_ = sky_ = kAmpleLux * daylight;
    return;
  }
  const light::SkyLight sky = sky_of(*project_, condition);
  rising_ = !condition.light && sun_rises(*project_, condition);
  sky_ = sky.diffuse.si() * daylight;
  dark_ = sky.dark;
  if (sky.sun) add_disc(*sky.sun);
  if (sky.moon) add_disc(*sky.moon);
}

void Lighting::add_disc(const light::Disc& disc) {
  if (disc.normal.si() <= 0 || disc.at.altitude.si() <= 0) return;
  const geom::PlanPoint level = geom::heading_vector(disc.at.azimuth + project_->site.anchor->turn);
  const double up = disc.at.altitude.si();
  discs_.push_back({{level.x * std::cos(up), level.y * std::cos(up), std::sin(up)},
                    disc.normal.si() * light::photons_per_lux(light::Spectrum::kDaylight)});
}

void Lighting::light_lamps(const site::Condition& condition) {
  for (const site::Lamp& lamp : project_->site.lamps) {
    bool burns = lamp.burns == site::Burns::kAlways || (lamp.burns == site::Burns::kAfterDark && dark_);
    if (condition.lamps)
      burns = std::find(condition.lamps->begin(), condition.lamps->end(), lamp.name) != condition.lamps->end();
    if (!burns) continue;
    BurningLamp one;
    one.lamp = &lamp;
    one.pose = geom::pose_of(site::above_ground(project_->site.terrain, lamp.at, lamp.height), lamp.heading, lamp.tilt,
                             Angle{0});
    const light::Spectrum spectrum = spectrum_of(lamp.light);
    if (infrared(lamp)) {
      one.exponent = lamp.beam ? light::beam_exponent(*lamp.beam) : 1;
      one.edge = edge_of(one.exponent);
      const double efficiency = project_->settings.typical.infrared_efficiency.value.nominal;
      one.intensity = light::on_axis(lamp.draw.value_or(Power{0}) * efficiency, one.exponent).si();
      one.photons = light::photons_per_watt(spectrum);
    } else {
      const Photometry* file = find_named(project_->photometry, lamp.photometry);
      const LuminousFlux lumens = lamp.lumens.value_or(LuminousFlux{0});
      one.candela = file != nullptr ? file->candela
                    : lamp.beam     ? light::plain_lamp(lumens, *lamp.beam)
                                    : light::matt_lamp(lumens);
      one.photons = light::photons_per_lux(spectrum);
    }
    const Ranged<double> flicker = flicker_of(lamp, project_->settings.typical);
    one.flicker = flicker.high, one.usual_flicker = flicker.nominal;
    lamps_.push_back(std::move(one));
  }
}

PerBand Lighting::transmission(double metres) const {
  PerBand share;
  for (size_t band = 0; band < light::kBandCount; ++band) share.value[band] = std::exp(-extinction_[band] * metres);
  return share;
}

/// What a lamp gives on a plane turned to it, nothing in the way.
std::optional<Direct> Lighting::from_lamp(const BurningLamp& lamp, SitePoint place) const {
  const Vec3 way = lamp.pose.eye_site - place;
  const double distance = std::max(geom::norm(way), kLeastDistance);
  const Vec3 in_lamp = (-1 / distance) * (lamp.pose.camera_from_site * way);
  double intensity = 0;
  if (lamp.candela) {
    intensity = light::intensity_towards(*lamp.candela, in_lamp).si();
  } else {
    const double relative = light::relative_intensity(lamp.exponent, in_lamp.z);
    intensity = relative > kNothing ? lamp.intensity * relative : 0;
  }
  if (intensity <= 0) return std::nullopt;
  PerBand arrives;
  for (size_t band = 0; band < light::kBandCount; ++band)
    if (lamp.photons.value[band] > 0)
      arrives.value[band] =
          intensity / (distance * distance) * lamp.photons.value[band] * std::exp(-extinction_[band] * distance);
  return Direct{(1 / distance) * way, arrives, lamp.flicker, lamp.camera};
}

void Lighting::add_from(const BurningLamp& lamp, SitePoint place, std::vector<Direct>& all) const {
  auto one = from_lamp(lamp, place);
  if (!one) return;
  const double through = scene_->passed({lamp.pose.eye_site, place});
  if (through <= 0) return;
  one->normal = through * one->normal;
  all.push_back(*one);
}

std::vector<Direct> Lighting::direct_at(SitePoint place) const {
  std::vector<Direct> all;
  for (const Direct& disc : discs_) {
    const double through = scene_->passed({place, place + kFarthestHider * disc.towards});
    if (through > 0) all.push_back({disc.towards, through * disc.normal});
  }
  for (const BurningLamp& lamp : lamps_) add_from(lamp, place, all);
  for (const BurningLamp& lamp : carried_) add_from(lamp, place, all);
  return all;
}

std::vector<PlaceLight> Lighting::at(std::span<const SitePoint> places, int sky_rays) const {
  std::vector<PlaceLight> result(places.size());
  if (ample_ != PerBand{}) {
    for (PlaceLight& light : result) light.scalar = ample_;
    for (size_t i = 0; i < places.size(); ++i) result[i].direct = direct_at(places[i]);
    return result;
  }
  std::vector<Vec3> up = directions(2 * sky_rays);
  up.resize(static_cast<size_t>(sky_rays));  // the upper half
  std::vector<float> x(up.size()), y(up.size()), z(up.size()), open(up.size());
  const double patch = 2 * std::numbers::pi / sky_rays;  // sr
  for (size_t i = 0; i < places.size(); ++i) {
    for (size_t k = 0; k < up.size(); ++k) {
      x[k] = static_cast<float>(places[i].x + kFarthestHider * up[k].x);
      y[k] = static_cast<float>(places[i].y + kFarthestHider * up[k].y);
      z[k] = static_cast<float>(places[i].z + kFarthestHider * up[k].z);
    }
    scene_->passed_from(places[i], {x, y, z}, open);
    double all = 0;  // sr of sky in view, and its direction
    Vec3 towards;
    for (size_t k = 0; k < up.size(); ++k) {
      const double part = patch * static_cast<double>(open[k]);
      all += part;
      towards = towards + part * up[k];
    }
    PlaceLight& light = result[i];
    light.direct = direct_at(places[i]);
    // A sky of even radiance E / pi: scalar a quarter of its sum, vector half of it (A. Gershun, The Light Field).
    const PerBand radiance = (1 / std::numbers::pi) * sky_;
    light.scalar = (all / 4) * radiance;
    light.vector = {(towards.x / 2) * radiance, (towards.y / 2) * radiance, (towards.z / 2) * radiance};
    // The ground under the place gives back what falls on it: half of all directions, from below.
    const PerBand reflected = 0.5 * (ground_ * light.on({0, 0, 1}));
    light.scalar += reflected;
    light.vector[2] += -1.0 * reflected;
  }
  return result;
}

}  // namespace sightfall::need
