// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/shade.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "need/illumination.h"

namespace sightfall::walk {
namespace {

using geom::Vec3;
using light::Band;
using light::PerBand;

constexpr double kLeast = 3e-4;  // of the frame's mean: what is less does not matter

}  // namespace

double rate_of(const need::Patch& patch, const need::Station& station, double power) {
  double light = dot(station.response, patch.others);
  if (station.infrared_on) light += power * station.response[station.infrared->band] * patch.own;
  return patch.falls * light;
}

Shade::Shade(const need::Lighting& lighting, const need::Station& station)
    : lighting_{lighting}, station_{station}, floor_{static_cast<float>(kLeast * station.constants.metering.mean())} {
  for (int veil = 0; veil < static_cast<int>(lighting.project().site.veils.size()); ++veil)
    veils_.push_back({need::veil_reflectance(lighting, veil)});
  for (size_t point = 0; point < lighting.point_count(); ++point) {
    const double most = dot(station.response, lighting.brightest(point));
    const bool anywhere = lighting.is_far(point) || floor_ <= 0;
    reach2_.push_back(anywhere ? std::numeric_limits<double>::infinity() : most / static_cast<double>(floor_));
  }
  sources_.resize(source_count());
  std::iota(sources_.begin(), sources_.end(), size_t{0});
}

void Shade::lamps(const Sight& sight, geom::SitePoint off, const Coat& coat, double scale, const PerBand& through,
                  std::span<const size_t> sources, std::span<float> values) const {
  const detail::Typical& typical = lighting_.project().settings.typical;
  const double facing = std::max(0.0, -geom::dot(sight.normal, sight.direction));
  for (const size_t source : sources) {
    if (source == 0) continue;
    const size_t point = source - 1;
    const Vec3 way = lighting_.origin(point, off) - off;
    if (geom::dot(sight.normal, way) <= 0) continue;
    if (coat.sheeting == 0 && geom::dot(way, way) > reach2_[point]) continue;
    const auto one = lighting_.from_point(point, off);
    if (!one || (one->camera != need::kNoCamera && one->camera == station_.number)) continue;
    const double cosine = geom::dot(sight.normal, one->towards);
    if (cosine <= 0) continue;
    PerBand back = cosine * coat.matt;
    if (coat.sheeting > 0) {
      const double alpha = std::acos(std::clamp(-geom::dot(one->towards, sight.direction), -1.0, 1.0));
      const double shine = coat.sheeting * need::sheeting(typical, alpha, 1, facing);
      for (double& band : back.value) band += shine;
    }
    values[value(source)] = static_cast<float>(scale * dot(station_.response, through * (back * one->normal)));
  }
}

void Shade::surface(const Sight& sight, const Coat& coat, std::span<const size_t> sources,
                    std::span<float> values) const {
  std::fill(values.begin(), values.end(), 0.0F);
  const double cosine = geom::dot(station_.pose.camera_from_site.row[2], sight.direction);
  const double falls = need::relative_illumination(station_.lens.projector, cosine);
  const PerBand through = lighting_.transmission(sight.distance);
  const geom::SitePoint off =
      need::off_surface(station_.pose.eye_site + sight.distance * sight.direction, sight.normal);
  values[value(0)] =
      static_cast<float>(falls * dot(station_.response, through * (coat.matt * lighting_.around(sight.normal))));
  lamps(sight, off, coat, falls, through, sources, values);
  double path = 0;
  for (const Band band : light::kBands) path += station_.response[band] * (1 - through[band]) * lighting_.sky()[band];
  values[kPath] = static_cast<float>(falls * path);
  if (!station_.infrared_on) return;
  const need::OwnInfrared& infrared = *station_.infrared;
  const double response = falls * station_.response[infrared.band];
  const double facing = std::max(0.0, -geom::dot(sight.normal, sight.direction));
  double back = facing * coat.matt[infrared.band];
  if (coat.sheeting > 0)
    back += coat.sheeting *
            need::sheeting(lighting_.project().settings.typical, infrared.offset / sight.distance, 1, facing);
  values[kOwn] = static_cast<float>(response * need::own_light(infrared, cosine, sight.distance) * back *
                                    through[infrared.band] * through[infrared.band]);
  values[kOwnAir] = static_cast<float>(
      response * (need::own_path_light(station_, lighting_, cosine, sight.distance) + need::own_glass_light(infrared)));
}

void Shade::sky(Vec3 direction, std::span<float> values) const {
  std::fill(values.begin(), values.end(), 0.0F);
  const double cosine = geom::dot(station_.pose.camera_from_site.row[2], direction);
  const double falls = need::relative_illumination(station_.lens.projector, cosine);
  values[kPath] = static_cast<float>(falls * dot(station_.response, lighting_.sky()));
  if (!station_.infrared_on) return;
  const need::OwnInfrared& infrared = *station_.infrared;
  values[kOwnAir] = static_cast<float>(
      falls * station_.response[infrared.band] *
      (need::own_path_light(station_, lighting_, cosine, need::kFarthest.si()) + need::own_glass_light(infrared)));
}

void Shade::veil(const Sight& sight, int veil, double passed, std::span<const size_t> sources,
                 std::span<float> values) const {
  std::fill(values.begin(), values.end(), 0.0F);
  const Coat& coat = veils_[static_cast<size_t>(veil)];
  const double cosine = geom::dot(station_.pose.camera_from_site.row[2], sight.direction);
  const double scale = (1 - passed) * need::relative_illumination(station_.lens.projector, cosine);
  const geom::SitePoint off =
      need::off_surface(station_.pose.eye_site + sight.distance * sight.direction, sight.normal);
  values[value(0)] = static_cast<float>(scale * dot(station_.response, coat.matt * lighting_.around(sight.normal)));
  lamps(sight, off, coat, scale, PerBand{{1, 1, 1}}, sources, values);
  if (!station_.infrared_on) return;
  const need::OwnInfrared& infrared = *station_.infrared;
  values[kOwn] = static_cast<float>(scale * station_.response[infrared.band] * coat.matt[infrared.band] *
                                    need::own_light(infrared, cosine, sight.distance));
}

std::optional<geom::SitePoint> Shade::sets_out(size_t source, geom::SitePoint off, Vec3 normal) const {
  if (source > 0) return lighting_.origin(source - 1, off);
  return lighting_.sky_above(off, normal);
}

std::optional<geom::SitePoint> Shade::place_of(size_t source) const {
  if (source == 0 || lighting_.is_far(source - 1)) return std::nullopt;
  return lighting_.origin(source - 1, {});
}

float Shade::stray(Vec3 direction) const {
  const detail::Typical& typical = lighting_.project().settings.typical;
  return static_cast<float>(dot(station_.response, need::stray_light(station_, typical, direction)));
}

}  // namespace sightfall::walk
