// SPDX-License-Identifier: GPL-3.0-or-later
// The site with a subject on it, as a ray from a camera meets it: surface, texture or pattern, colour.
//   Model    reflectance = that of the material times the texture's factor, or times 1 + contrast x pattern, the
//            contrast being the verdict's own (need::contrast_of); the subject shadows and hides as a solid does
//   Limits   surfaces are matt; a subject does not move while it is looked at (motion is the blur's)
//   Checked  stage_test.cpp
#pragma once
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "need/frame.h"
#include "need/look.h"
#include "need/need.h"
#include "walk/pattern.h"
#include "walk/subject.h"
#include "walk/texture.h"

namespace sightfall::walk {

/// The subject's mesh moved to a place on the ground, turned to go forward along a unit vector of the plan.
SubjectMesh placed(SubjectMesh mesh, geom::SitePoint foot, geom::PlanPoint forward);

/// Who or what is on the site, already at its place.
struct Visitor {
  SubjectMesh mesh;
  std::string plate;  ///< characters of its plates, where it has any
};

/// A colour's share of red, green and blue, of luminance 1.
using Hue = std::array<float, 3>;

/// What a ray meets.
struct Met {
  need::Surface surface;
  uint8_t hue = 0;  ///< index into hues()
  bool visitor = false;
};

/// The hues that surfaces have, the first one grey; the second that of the sky.
std::span<const Hue> hues();
inline constexpr uint8_t kSkyHue = 1;

inline constexpr size_t kPartCount = static_cast<size_t>(Part::kPost) + 1;

/// Where on a texture (texture.h) a ray ends.
struct TexturePlace {
  double x = 0, y = 0, footprint = 0;
};

/// What a solid, the ground or a part of the visitor looks like, but for its texture or pattern.
struct Coat {
  light::PerBand matt;
  double sheeting = 0;  ///< of a plate: 1
  Texture texture = Texture::kPlain;
  uint8_t hue = 0;
};

class Stage {
 public:
  /// `station` is in the condition of `lit`; both it and the project must outlive the stage.
  Stage(const need::Project& project, const need::LitScene& lit, const need::Station& station, Visitor visitor);
  Stage(const need::Project& project, const site::Condition& condition, const need::Station& station, Visitor visitor);
  /// The same with another visitor, who costs little: what stands is shared.
  Stage(const Stage& other, Visitor visitor);
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  /// The first surface along a ray of the camera's frame (unit).
  std::optional<Met> first(geom::Vec3 ray_camera) const;
  /// The first surface that is not the visitor's.
  std::optional<Met> behind(geom::Vec3 ray_camera) const;

  /// The light that comes along a ray from what it meets.
  need::Patch light(geom::Vec3 ray_camera, const std::optional<Met>& met) const;

  /// What first and behind put together, for whoever casts many rays at once (walk/tile.h): what a hit surface looks
  /// like, and the factor on it of the visitor's pattern, or the place on the site's texture.
  const Coat& coat(const site::Hit& hit) const;
  double pattern(const site::Hit& hit) const;
  TexturePlace texture_place(double distance, geom::Vec3 normal, geom::Vec3 direction_site) const;

  const Visitor& visitor() const { return visitor_; }
  const need::Lighting& lighting() const { return lighting_; }
  const site::Scene& scene() const { return scene_; }

 private:
  std::optional<Met> met(geom::Vec3 ray_camera, site::Meets meets) const;
  Coat coat_of(int solid) const;
  Coat coat_of(Part part) const;
  void fit_plate();

  const need::Project& project_;
  const need::Station& station_;
  Visitor visitor_;
  std::optional<PlatePattern> plate_;
  std::vector<Coat> coats_;  // the ground's first
  std::array<Coat, kPartCount> part_coats_;
  double face_contrast_ = 0, plate_contrast_ = 0, target_contrast_ = 0;
  std::shared_ptr<const site::Scene> standing_;
  site::Scene scene_;
  need::Lighting lighting_;
  need::Look look_;
};

}  // namespace sightfall::walk
