// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/look.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "need/illumination.h"

namespace sightfall::need {
namespace {

using geom::Vec3;
using light::Band;
using light::PerBand;

constexpr double kGrey = 0.2;  // of surfaces in a project without a table of materials

}  // namespace

PerBand veil_reflectance(const Lighting& lighting, int veil) {
  const light::Materials& materials = lighting.project().settings.materials;
  const site::VeilKind kind = lighting.project().site.veils[static_cast<size_t>(veil)].kind;
  const bool leaves = kind == site::VeilKind::kHedge || kind == site::VeilKind::kTree;
  return materials.reflectance(leaves ? materials.foliage : materials.mesh, kGrey);
}

std::string material_of(const Project& project, int solid) {
  const light::Materials& materials = project.settings.materials;
  if (solid < 0) return project.site.ground.empty() ? materials.ground : project.site.ground;
  const site::Solid& one = project.site.solids[static_cast<size_t>(solid)];
  const std::array<const std::string*, 5> usual{&materials.building, &materials.wall, &materials.box, &materials.roof,
                                                &materials.vehicle};
  return one.material.empty() ? *usual.at(static_cast<size_t>(one.kind)) : one.material;
}

Vec3 Look::direction(Vec3 ray_camera) const { return geom::transposed(station_.pose.camera_from_site) * ray_camera; }

std::optional<Surface> Look::surface(Vec3 ray_camera) const {
  const auto hit = lighting_.scene().first_solid(station_.pose.eye_site, direction(ray_camera), kFarthest);
  if (!hit) return std::nullopt;
  const Project& project = lighting_.project();
  return Surface{hit->distance, hit->normal,
                 project.settings.materials.reflectance(material_of(project, hit->solid), kGrey)};
}

void Look::add_surface(Vec3 direction, double cosine, const Surface& surface, Patch& patch) const {
  const geom::SitePoint place = station_.pose.eye_site + surface.distance * direction;
  const PerBand transmission = lighting_.transmission(surface.distance);
  const SurfaceLight falls_on = lighting_.on_surface(place, surface.normal, station_.number);
  patch.others = transmission * (surface.matt * falls_on.all);
  patch.swinging = transmission * (surface.matt * falls_on.swinging);
  patch.illuminance = as_lux(falls_on.all);
  const double facing = std::max(0.0, -geom::dot(surface.normal, direction));
  const detail::Typical& typical = lighting_.project().settings.typical;
  if (surface.sheeting > 0)
    for (const Direct& one : lighting_.direct_at(off_surface(place, surface.normal))) {
      if (geom::dot(surface.normal, one.towards) <= 0) continue;
      if (one.camera != kNoCamera && one.camera == station_.number) continue;
      const double alpha = std::acos(std::clamp(geom::dot(one.towards, -direction), -1.0, 1.0));
      patch.others += surface.sheeting * sheeting(typical, alpha, 1, facing) * (transmission * one.normal);
    }
  if (!station_.infrared) return;
  const OwnInfrared& infrared = *station_.infrared;
  double back = facing * surface.matt[infrared.band];
  if (surface.sheeting > 0) back += surface.sheeting * sheeting(typical, infrared.offset / surface.distance, 1, facing);
  const double through = transmission[infrared.band];
  patch.own = own_light(infrared, cosine, surface.distance) * back * through * through;
}

Patch Look::light(Vec3 ray_camera, const std::optional<Surface>& surface) const {
  Patch patch;
  patch.falls = relative_illumination(station_.lens.projector, ray_camera.z);
  const Vec3 towards = direction(ray_camera);
  const double distance = surface ? surface->distance : kFarthest.si();
  const PerBand transmission = lighting_.transmission(distance);
  if (surface)
    add_surface(towards, ray_camera.z, *surface, patch);
  else
    patch.others = transmission * lighting_.sky();
  for (const Band band : light::kBands) patch.others[band] += (1 - transmission[band]) * lighting_.sky()[band];
  if (const auto veil = lighting_.scene().first_veil(station_.pose.eye_site, towards, Length{distance}))
    lay_over(*veil, towards, ray_camera.z, patch);
  if (station_.infrared)
    patch.own += own_path_light(station_, lighting_, ray_camera.z, distance) + own_glass_light(*station_.infrared);
  return patch;
}

void Look::lay_over(const site::VeilHit& veil, Vec3 direction, double cosine, Patch& patch) const {
  const geom::SitePoint place = station_.pose.eye_site + veil.distance * direction;
  const PerBand matt = veil_reflectance(lighting_, veil.veil);
  patch.others = veil.passed * patch.others +
                 (1 - veil.passed) * (matt * lighting_.on_surface(place, -direction, station_.number).all);
  if (!station_.infrared) return;
  patch.own = veil.passed * veil.passed * patch.own +
              (1 - veil.passed) * matt[station_.infrared->band] * own_light(*station_.infrared, cosine, veil.distance);
}

}  // namespace sightfall::need
