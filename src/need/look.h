// SPDX-License-Identifier: GPL-3.0-or-later
// What a camera looks at along one ray: the first surface, and the light that comes from it through veils and air.
//   Model    the surface's reflectance times the light that falls on it (sky, sun, lamps, other cameras' infrared), own
//            infrared out and back; a veil in the way adds its own; the air takes and adds. docs/models.md sections 4,
//            5
//   Limits   surfaces are matt; beyond kFarthest a surface is as good as sky
//   Checked  illumination_test.cpp, tests/outside/picture_test.cpp
#pragma once
#include <optional>
#include <string>

#include "need/lighting.h"
#include "need/station.h"

namespace sightfall::need {

inline constexpr Length kFarthest{500};

/// A surface that a ray meets.
struct Surface {
  double distance = 0;  ///< m
  geom::Vec3 normal;    ///< unit, to the side the ray came from
  light::PerBand matt;  ///< reflectance
  double sheeting = 0;  ///< of a plate: 1, less under its characters; sends light back to where it came from
};

/// What a ray meets: the first surface, and the first veil before it. Neither: the sky.
struct Struck {
  std::optional<Surface> surface;
  std::optional<site::VeilHit> veil;
};

/// The light that reaches the lens along a ray, told as matt white surfaces are lit: photons/(s m2).
struct Patch {
  light::PerBand others;
  double own = 0;           ///< of the infrared's band, at full power
  light::PerBand swinging;  ///< the part of `others` that swings with the mains
  double falls = 1;         ///< of the lens, off its axis
  double illuminance = -1;  ///< lx on the surface; negative: sky
};

/// The material of a solid, by its place in the site's list; -1: of the ground.
std::string material_of(const Project& project, int solid);

/// The reflectance of a veil, by its place in the site's list.
light::PerBand veil_reflectance(const Lighting& lighting, int veil);

/// A camera and the light of a condition. Both must outlive it.
class Look {
 public:
  Look(const Station& station, const Lighting& lighting) : station_{station}, lighting_{lighting} {}

  /// Unit vector of the site along a ray of the camera.
  geom::Vec3 direction(geom::Vec3 ray_camera) const;

  /// The first of the site's surfaces along a ray.
  std::optional<Surface> surface(geom::Vec3 ray_camera) const;

  /// The same with the first veil before it.
  Struck strike(geom::Vec3 ray_camera) const { return behind_veil(ray_camera, surface(ray_camera)); }
  Struck behind_veil(geom::Vec3 ray_camera, const std::optional<Surface>& surface) const;

  /// Where a ray meets them, for the light that falls there.
  SurfacePlace place_of(geom::Vec3 ray_camera, const Surface& surface) const;
  SurfacePlace place_of(geom::Vec3 ray_camera, const site::VeilHit& veil) const;

  /// The light along a ray that meets a surface, or the sky.
  Patch light(geom::Vec3 ray_camera, const std::optional<Surface>& surface) const;

  /// The same where it is known what falls on the surface and on the veil.
  Patch light(geom::Vec3 ray_camera, const Struck& struck, const SurfaceLight& on_surface,
              const SurfaceLight& on_veil) const;

 private:
  void add_surface(geom::Vec3 ray_camera, const Surface& surface, const SurfaceLight& falls_on, Patch& patch) const;
  void lay_over(const site::VeilHit& veil, const SurfaceLight& falls_on, double cosine, Patch& patch) const;

  const Station& station_;
  const Lighting& lighting_;
};

}  // namespace sightfall::need
