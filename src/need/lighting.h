// SPDX-License-Identifier: GPL-3.0-or-later
// The light of one condition on a site: what falls on a surface anywhere, whatever camera looks at it.
//   Model    from points: sun, moon and each lamp, with shadows, through veils and air, inverse square and cosine. From
//            all round: the sky as far as it is in view, and the ground, as Gershun's light field: on a plane of
//            outward normal n falls scalar + n . vector, which is exact for an open sky over even ground.
//            docs/models.md section 4
//            Each camera's infrared, at its full power, lights what others see.
//   Limits   one reflection, off the ground under the sample; walls give back as little as they see of the sky.
//            Infrared that adapts its power is taken at full power where it lights other cameras' subjects
//   Checked  lighting_test.cpp; tests/physics/night_laws_test.cpp
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "geom/pose.h"
#include "light/band.h"
#include "light/candela.h"
#include "light/sky.h"
#include "need/project.h"
#include "need/station.h"
#include "site/scene.h"

namespace sightfall::need {

/// m: what is farther does not stand in the sky's or the sun's way.
inline constexpr double kFarthestHider = 2000;

/// Light at one place.
struct PlaceLight {
  light::PerBand scalar;
  std::array<light::PerBand, 3> vector;  ///< along x, y, z
  std::vector<Direct> direct;

  /// What falls on a plane of that outward normal, photons/(s m2), without one camera's own infrared; never negative.
  light::PerBand on(geom::Vec3 outward, int but_camera = kNoCamera) const;
  /// The part of it that swings with the mains, where its lamps do so most.
  light::PerBand swinging_on(geom::Vec3 outward) const;
};

/// A place on a surface of the site.
struct SurfacePlace {
  geom::SitePoint at;
  geom::Vec3 normal;  ///< unit, outward
};

/// Light on a surface of the site.
struct SurfaceLight {
  light::PerBand all, swinging;
};

/// A lamp that burns: of the site, or a camera's infrared.
struct BurningLamp {
  const site::Lamp* lamp = nullptr;  ///< null: a camera's
  int camera = kNoCamera;
  geom::Pose pose;  ///< z along its axis
  std::optional<light::Candela> candela;
  double intensity = 0, exponent = 0;  ///< of infrared: W/sr on the axis, cos^n
  double edge = 0;                     ///< of infrared: the cosine off the axis beyond which it gives nothing
  light::PerBand photons;              ///< per lx or W/m2 of its light
  double flicker = 0;                  ///< most of its swing over its mean
  double usual_flicker = 0;            ///< the same, nominal
};

class Lighting {
 public:
  Lighting(const Project& project, const site::Scene& scene, const site::Condition& condition);

  /// The light at each place, with shadows; fewer rays of the sky do where a picture is wanted and not a verdict.
  std::vector<PlaceLight> at(std::span<const geom::SitePoint> places, int sky_rays = 48) const;

  /// What falls on a surface of the site, without one camera's own infrared: the sky above it is in view or not as one
  /// ray tells.
  SurfaceLight on_surface(const SurfacePlace& place, int but_camera = kNoCamera) const;

  // The same of many places in its two parts, of which the first can be kept while cameras' infrared goes on and off.

  /// By all but cameras' infrared.
  std::vector<SurfaceLight> on_surfaces(std::span<const SurfacePlace> places) const;
  /// Adds that of cameras' infrared. Fastest when neighbours in the list are neighbours on the site.
  void add_infrared(std::span<const SurfacePlace> places, int but_camera, std::span<SurfaceLight> light) const;

  /// The same with the infrared of cameras that burn it in this light (frame.h).
  Lighting with_infrared(const std::vector<Station>& burning) const;

  /// The same with another scene of the same site, which must outlive it: a visitor shadows.
  Lighting in_scene(const site::Scene& scene) const;

  /// The same where cameras turn to monochrome at another light.
  Lighting with_night_switch(double lux) const;

  /// Light on the scene below which an automatic camera is in monochrome, lx. Where the light is rising it comes from
  /// the night and stays in it longer.
  double night_switch() const { return night_switch_ * (rising_ ? day_switch_ : 1); }

  /// The sky as bright as a matt white surface under that light.
  const light::PerBand& sky() const { return sky_; }

  /// Sources whose light reaches a place, a lens's stray light among them.
  std::vector<Direct> direct_at(geom::SitePoint place) const;

  // What on_surface adds up, source by source, for whoever has many places to light (walk/shade.h).

  /// What falls on a surface from all round when the sky above it is in view.
  light::PerBand around(geom::Vec3 normal) const;
  /// The end of the stretch from a place on a surface that tells whether it is; nothing in ample light.
  std::optional<geom::SitePoint> sky_above(geom::SitePoint place, geom::Vec3 normal) const;
  /// Sources that are points: sun and moon, lamps, cameras' infrared.
  size_t point_count() const { return discs_.size() + lamps_.size() + carried_.size(); }
  /// What one of them gives on a plane turned to it, nothing in the way; nothing where it does not shine.
  std::optional<Direct> from_point(size_t point, geom::SitePoint place) const;
  /// Where its light sets out from; for the sun and the moon that depends on the place.
  geom::SitePoint origin(size_t point, geom::SitePoint place) const;
  /// The most that one gives in any direction, at a metre (sun and moon: anywhere).
  light::PerBand brightest(size_t point) const;
  bool is_far(size_t point) const { return point < discs_.size(); }
  /// How far it swings with the mains over its mean, nominal: for a picture, as it will most likely look.
  double usual_flicker(size_t point) const { return is_far(point) ? 0 : lamp_of(point).usual_flicker; }

  double extinction(light::Band band) const { return extinction_[static_cast<size_t>(band)]; }
  light::PerBand transmission(double metres) const;
  bool dark() const { return dark_; }
  const site::Scene& scene() const { return *scene_; }
  const Project& project() const { return *project_; }
  const std::vector<BurningLamp>& lamps() const { return lamps_; }  ///< of the site

 private:
  void set_sky(const site::Condition& condition);
  void add_disc(const light::Disc& disc);
  void light_lamps(const site::Condition& condition);
  void add_from(const BurningLamp& lamp, geom::SitePoint place, std::vector<Direct>& all) const;
  std::optional<Direct> from_lamp(const BurningLamp& lamp, geom::SitePoint place) const;
  const BurningLamp& lamp_of(size_t point) const;

  // Of places that are lifted off their surfaces.
  struct ShadowRays;
  bool may_light(size_t point, const SurfacePlace& off) const;
  bool all_behind(size_t point, geom::SitePoint middle, double around) const;
  SurfaceLight part_of(size_t point, const SurfacePlace& off, double passed) const;
  void add_point(size_t point, std::span<const SurfacePlace> off, ShadowRays& rays,
                 std::span<SurfaceLight> light) const;

  const Project* project_;
  const site::Scene* scene_;
  light::PerBand sky_;     // on the horizontal from the whole sky
  light::PerBand ground_;  // its reflectance
  light::PerBand ample_;   // from everywhere alike, in a condition that says nothing of light
  std::vector<Direct> discs_;
  std::vector<BurningLamp> lamps_, carried_;
  std::array<double, light::kBandCount> extinction_{};
  bool dark_ = false, rising_ = false;
  double night_switch_ = 0, day_switch_ = 1;
};

/// Whether a condition is after dark: by its date and hour, or by its light's name.
bool is_dark(const Project& project, const site::Condition& condition);

/// A place on a surface, lifted off it so that the surface does not hide it from its light.
geom::SitePoint off_surface(geom::SitePoint place, geom::Vec3 normal);

/// What a condition's light is, such as `2026-12-15 18:30, clear sky, fog (150 m)`.
std::string light_in_words(const site::Condition& condition);

/// Photons/(s m2) of visible light as lux of daylight, for words.
double as_lux(const light::PerBand& light);

}  // namespace sightfall::need
