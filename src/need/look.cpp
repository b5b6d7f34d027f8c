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

Struck Look::behind_veil(Vec3 ray_camera, const std::optional<Surface>& surface) const {
  const Length distance = surface ? Length{surface->distance} : kFarthest;
  return {surface, lighting_.scene().first_veil(station_.pose.eye_site, direction(ray_camera), distance)};
}

SurfacePlace Look::place_of(Vec3 ray_camera, const Surface& surface) const {
  return {station_.pose.eye_site + surface.distance * direction(ray_camera), surface.normal};
}

SurfacePlace Look::place_of(Vec3 ray_camera, const site::VeilHit& veil) const {
  const Vec3 towards = direction(ray_camera);
  return {station_.pose.eye_site + veil.distance * towards, -towards};
}

void Look::add_surface(Vec3 ray_camera, const Surface& surface, const SurfaceLight& falls_on, Patch& patch) const {
  const PerBand transmission = lighting_.transmission(surface.distance);
  patch.others = transmission * (surface.matt * falls_on.all);
  patch.swinging = transmission * (surface.matt * falls_on.swinging);
  patch.illuminance = as_lux(falls_on.all);
  const SurfacePlace place = place_of(ray_camera, surface);
  const Vec3 towards = direction(ray_camera);
  const double facing = std::max(0.0, -geom::dot(surface.normal, towards));
  const detail::Typical& typical = lighting_.project().settings.typical;
  if (surface.sheeting > 0)
    for (const Direct& one : lighting_.direct_at(off_surface(place.at, surface.normal))) {
      if (geom::dot(surface.normal, one.towards) <= 0) continue;
      if (one.camera != kNoCamera && one.camera == station_.number) continue;
      const double alpha = std::acos(std::clamp(geom::dot(one.towards, -towards), -1.0, 1.0));
      patch.others += surface.sheeting * sheeting(typical, alpha, 1, facing) * (transmission * one.normal);
    }
  if (!station_.infrared) return;
  const OwnInfrared& infrared = *station_.infrared;
  double back = facing * surface.matt[infrared.band];
  if (surface.sheeting > 0) back += surface.sheeting * sheeting(typical, infrared.offset / surface.distance, 1, facing);
  const double through = transmission[infrared.band];
  patch.own = own_light(infrared, ray_camera.z, surface.distance) * back * through * through;
}

Patch Look::light(Vec3 ray_camera, const std::optional<Surface>& surface) const {
  const Struck struck = behind_veil(ray_camera, surface);
  const auto falls_on = [&](const auto& met) {
    return met ? lighting_.on_surface(place_of(ray_camera, *met), station_.number) : SurfaceLight{};
  };
  return light(ray_camera, struck, falls_on(struck.surface), falls_on(struck.veil));
}

Patch Look::light(Vec3 ray_camera, const Struck& struck, const SurfaceLight& on_surface,
                  const SurfaceLight& on_veil) const {
  Patch patch;
  patch.falls = relative_illumination(station_.lens.projector, ray_camera.z);
  const double distance = struck.surface ? struck.surface->distance : kFarthest.si();
  const PerBand transmission = lighting_.transmission(distance);
  if (struck.surface)
    add_surface(ray_camera, *struck.surface, on_surface, patch);
  else
    patch.others = transmission * lighting_.sky();
  for (const Band band : light::kBands) patch.others[band] += (1 - transmission[band]) * lighting_.sky()[band];
  if (struck.veil) lay_over(*struck.veil, on_veil, ray_camera.z, patch);
  if (station_.infrared)
    patch.own += own_path_light(station_, lighting_, ray_camera.z, distance) + own_glass_light(*station_.infrared);
  return patch;
}

void Look::lay_over(const site::VeilHit& veil, const SurfaceLight& falls_on, double cosine, Patch& patch) const {
  const PerBand matt = veil_reflectance(lighting_, veil.veil);
  patch.others = veil.passed * patch.others + (1 - veil.passed) * (matt * falls_on.all);
  if (!station_.infrared) return;
  patch.own = veil.passed * veil.passed * patch.own +
              (1 - veil.passed) * matt[station_.infrared->band] * own_light(*station_.infrared, cosine, veil.distance);
}

}  // namespace sightfall::need
