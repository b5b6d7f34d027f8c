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

SurfaceLight Lighting::on_surface(SitePoint place, Vec3 normal, int but_camera) const {
  const SitePoint off = off_surface(place, normal);
  const auto above = sky_above(off, normal);
  PerBand sum = (above ? scene_->passed({off, *above}) : 1) * around(normal), swinging;
  for (size_t point = 0; point < point_count(); ++point) {
    // Behind the surface: told without working its light out, for of a hundred cameras' lamps most are.
    if (!is_far(point) && geom::dot(normal, lamp_of(point).pose.eye_site - off) <= 0) continue;
    const auto one = from_point(point, off);
    if (!one || (one->camera != kNoCamera && one->camera == but_camera)) continue;
    const double cosine = geom::dot(normal, one->towards);
    if (cosine <= 0) continue;
    const PerBand part = (scene_->passed({origin(point, off), off}) * cosine) * one->normal;
    sum += part;
    swinging += one->flicker * part;
  }
  return {sum, swinging};
}

}  // namespace sightfall::need
