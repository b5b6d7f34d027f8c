// SPDX-License-Identifier: GPL-3.0-or-later
// The light on a surface, source by source (lighting.h).
#include <algorithm>

#include "need/lighting.h"

namespace sightfall::need {
namespace {

using geom::SitePoint;
using geom::Vec3;
using light::PerBand;

constexpr double kOff = 0.01;  // m off the surface, so that it does not hide itself

std::vector<SurfacePlace> lifted(std::span<const SurfacePlace> places) {
  std::vector<SurfacePlace> off;
  off.reserve(places.size());
  for (const SurfacePlace& one : places) off.push_back({off_surface(one.at, one.normal), one.normal});
  return off;
}

}  // namespace

SitePoint off_surface(SitePoint place, Vec3 normal) { return place + kOff * normal; }

PerBand Lighting::around(Vec3 normal) const {
  if (ample_ != PerBand{}) return ample_;
  return ((1 + normal.z) / 2) * sky_ + ((1 - normal.z) / 2) * (ground_ * sky_);
}

std::optional<SitePoint> Lighting::sky_above(SitePoint place, Vec3 normal) const {
  if (ample_ != PerBand{}) return std::nullopt;
  const Vec3 open = normal.z > -0.9 ? geom::unit(normal + Vec3{0, 0, 1.1}) : Vec3{0, 0, 1};
  return place + kFarthestHider * open;
}

const BurningLamp& Lighting::lamp_of(size_t point) const {
  const size_t lamp = point - discs_.size();
  return lamp < lamps_.size() ? lamps_[lamp] : carried_[lamp - lamps_.size()];
}

std::optional<Direct> Lighting::from_point(size_t point, SitePoint place) const {
  if (is_far(point)) return discs_[point];
  return from_lamp(lamp_of(point), place);
}

SitePoint Lighting::origin(size_t point, SitePoint place) const {
  if (is_far(point)) return place + kFarthestHider * discs_[point].towards;
  return lamp_of(point).pose.eye_site;
}

PerBand Lighting::brightest(size_t point) const {
  if (is_far(point)) return discs_[point].normal;
  const BurningLamp& lamp = lamp_of(point);
  return (lamp.candela ? lamp.candela->largest().si() : lamp.intensity) * lamp.photons;
}

SurfaceLight Lighting::on_surface(const SurfacePlace& place, int but_camera) const {
  const std::span<const SurfacePlace> one{&place, 1};
  std::vector<SurfaceLight> light = on_surfaces(one);
  add_infrared(one, but_camera, light);
  return light.front();
}

/// Rays from one source to some of many places.
struct Lighting::ShadowRays {
  std::vector<size_t> lit;  // which of the places
  std::vector<float> x, y, z, passed;

  void clear() { lit.clear(), x.clear(), y.clear(), z.clear(); }
  void add(size_t place, SitePoint off) {
    lit.push_back(place);
    x.push_back(static_cast<float>(off.x));
    y.push_back(static_cast<float>(off.y));
    z.push_back(static_cast<float>(off.z));
  }
};

std::vector<SurfaceLight> Lighting::on_surfaces(std::span<const SurfacePlace> places) const {
  const std::vector<SurfacePlace> off = lifted(places);
  std::vector<SurfaceLight> light(off.size());
  for (size_t i = 0; i < off.size(); ++i) {
    const auto above = sky_above(off[i].at, off[i].normal);
    light[i].all = (above ? scene_->passed({off[i].at, *above}) : 1) * around(off[i].normal);
  }
  ShadowRays rays;
  for (size_t point = 0; point < point_count() - carried_.size(); ++point) add_point(point, off, rays, light);
  return light;
}

void Lighting::add_infrared(std::span<const SurfacePlace> places, int but_camera, std::span<SurfaceLight> light) const {
  if (carried_.empty() || places.empty()) return;
  const std::vector<SurfacePlace> off = lifted(places);
  SitePoint middle;
  for (const SurfacePlace& one : off) middle = middle + (1.0 / static_cast<double>(off.size())) * one.at;
  double around = 0;
  for (const SurfacePlace& one : off) around = std::max(around, geom::norm(one.at - middle));
  ShadowRays rays;
  for (size_t point = point_count() - carried_.size(); point < point_count(); ++point) {
    const bool own = but_camera != kNoCamera && lamp_of(point).camera == but_camera;
    if (!own && !all_behind(point, middle, around)) add_point(point, off, rays, light);
  }
}

/// Whether a camera's lamp looks away from all that lies around a place.
bool Lighting::all_behind(size_t point, SitePoint middle, double around) const {
  const geom::Pose& pose = lamp_of(point).pose;
  return geom::dot(pose.camera_from_site.row[2], middle - pose.eye_site) + around < 0;
}

/// Told without working its light out or looking for what shadows it, for of a thousand cameras' lamps most do not.
bool Lighting::may_light(size_t point, const SurfacePlace& off) const {
  if (is_far(point)) return geom::dot(off.normal, discs_[point].towards) > 0;
  const BurningLamp& lamp = lamp_of(point);
  const Vec3 way = lamp.pose.eye_site - off.at;
  if (geom::dot(off.normal, way) <= 0) return false;
  if (lamp.candela) return true;
  const double ahead = -geom::dot(lamp.pose.camera_from_site.row[2], way);
  constexpr double kRounding = 1 - 1e-9;  // from_lamp tells exactly
  return ahead > 0 && ahead * ahead >= kRounding * lamp.edge * lamp.edge * geom::dot(way, way);
}

SurfaceLight Lighting::part_of(size_t point, const SurfacePlace& off, double passed) const {
  if (passed <= 0) return {};
  const auto one = from_point(point, off.at);
  if (!one) return {};
  const double cosine = geom::dot(off.normal, one->towards);
  if (cosine <= 0) return {};
  const PerBand part = (passed * cosine) * one->normal;
  return {part, one->flicker * part};
}

void Lighting::add_point(size_t point, std::span<const SurfacePlace> off, ShadowRays& rays,
                         std::span<SurfaceLight> light) const {
  rays.clear();
  for (size_t i = 0; i < off.size(); ++i)
    if (may_light(point, off[i])) rays.add(i, off[i].at);
  if (rays.lit.empty()) return;
  rays.passed.resize(rays.lit.size());
  if (!is_far(point) && rays.lit.size() > 1) {
    scene_->passed_from(lamp_of(point).pose.eye_site, {rays.x, rays.y, rays.z}, rays.passed);
  } else {
    for (size_t k = 0; k < rays.lit.size(); ++k) {
      const SitePoint at = off[rays.lit[k]].at;
      rays.passed[k] = static_cast<float>(scene_->passed({origin(point, at), at}));
    }
  }
  for (size_t k = 0; k < rays.lit.size(); ++k) {
    const size_t i = rays.lit[k];
    const SurfaceLight part = part_of(point, off[i], static_cast<double>(rays.passed[k]));
    light[i].all += part.all;
    light[i].swinging += part.swinging;
  }
}

}  // namespace sightfall::need
