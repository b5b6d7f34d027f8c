// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/stage.h"

#include <algorithm>
#include <cmath>

#include "need/frame.h"
#include "need/illumination.h"

namespace sightfall::walk {
namespace {

using geom::Vec3;

constexpr double kGrey = 0.3;  // of a project without a table of materials

/// Red, green and blue as stated, brought to luminance 1 (weights of ITU-R BT.709).
constexpr Hue hue(float red, float green, float blue) {
  const float luminance = 0.2126F * red + 0.7152F * green + 0.0722F * blue;
  return {red / luminance, green / luminance, blue / luminance};
}

enum HueName : uint8_t { kNeutral, kSkyBlue, kGreen, kRed, kWarm, kSkinHue, kBlue, kBrown };
constexpr std::array<Hue, 8> kHues{hue(1, 1, 1),          hue(0.75F, 0.95F, 1.3F), hue(0.55F, 1.1F, 0.4F),
                                   hue(1.5F, 0.8F, 0.6F), hue(1.15F, 1, 0.8F),     hue(1.4F, 0.9F, 0.7F),
                                   hue(0.6F, 0.9F, 1.8F), hue(1.3F, 0.95F, 0.6F)};

uint8_t hue_of_material(std::string_view material) {
  constexpr std::array<std::pair<std::string_view, HueName>, 8> kNames{{{"grass", kGreen},
                                                                        {"foliage", kGreen},
                                                                        {"brick", kRed},
                                                                        {"timber", kBrown},
                                                                        {"dry soil", kBrown},
                                                                        {"wet soil", kBrown},
                                                                        {"skin", kSkinHue},
                                                                        {"render", kWarm}}};
  const auto* found =
      std::find_if(kNames.begin(), kNames.end(), [&](const auto& one) { return one.first == material; });
  return found == kNames.end() ? kNeutral : found->second;
}

uint8_t hue_of_part(Part part) {
  switch (part) {
    case Part::kFace:
    case Part::kSkin:
    case Part::kHair:  // one hue with the hair of the face's pattern, or a line would part them
      return kSkinHue;
    case Part::kClothing:
      return kBlue;
    case Part::kPaint:
    case Part::kTailLight:
      return kRed;
    default:
      return kNeutral;
  }
}

geom::PlanPoint on_pattern(const Corners& corners, const site::Hit& hit) {
  return (1 - hit.second - hit.third) * corners[0] + hit.second * corners[1] + hit.third * corners[2];
}

}  // namespace

std::span<const Hue> hues() { return kHues; }

SubjectMesh placed(SubjectMesh mesh, geom::SitePoint foot, geom::PlanPoint forward) {
  const Vec3 ahead{forward.x, forward.y, 0}, right{forward.y, -forward.x, 0};
  for (Vec3& v : mesh.mesh.vertices) v = foot + v.x * right + v.y * ahead + Vec3{0, 0, v.z};
  return mesh;
}

Stage::Stage(const need::Project& project, const site::Condition& condition, const need::Station& station,
             Visitor visitor)
    : Stage{project, need::lit_scene(project, condition), station, std::move(visitor)} {}

Stage::Stage(const need::Project& project, const need::LitScene& lit, const need::Station& station, Visitor visitor)
    : project_{project},
      station_{station},
      visitor_{std::move(visitor)},
      standing_{lit.scene},
      scene_{*standing_, visitor_.mesh.mesh},
      lighting_{lit.lighting.in_scene(scene_)},
      look_{station_, lighting_} {
  const detail::Typical& typical = project.settings.typical;
  const auto contrast = [&](need::Subject subject) {
    return need::contrast_of(subject, station.near_infrared, typical).value.nominal;
  };
  for (int solid = -1; solid < static_cast<int>(project.site.solids.size()); ++solid) coats_.push_back(coat_of(solid));
  for (size_t part = 0; part < kPartCount; ++part) part_coats_.at(part) = coat_of(static_cast<Part>(part));
  fit_plate();
  face_contrast_ = contrast(need::Subject::kFace);
  plate_contrast_ = contrast(need::Subject::kPlate);
  target_contrast_ = contrast(need::Subject::kObject);
}

Stage::Stage(const Stage& other, Visitor visitor)
    : project_{other.project_},
      station_{other.station_},
      visitor_{std::move(visitor)},
      coats_{other.coats_},
      part_coats_{other.part_coats_},
      face_contrast_{other.face_contrast_},
      plate_contrast_{other.plate_contrast_},
      target_contrast_{other.target_contrast_},
      standing_{other.standing_},
      scene_{*standing_, visitor_.mesh.mesh},
      lighting_{other.lighting_.in_scene(scene_)},
      look_{station_, lighting_} {
  fit_plate();
}

void Stage::fit_plate() {
  if (!visitor_.plate.empty()) plate_.emplace(visitor_.plate);
  part_coats_.at(static_cast<size_t>(Part::kPlate)).sheeting = plate_ ? 1 : 0;
}

std::optional<Met> Stage::first(Vec3 ray_camera) const { return met(ray_camera, site::Meets::kAll); }

std::optional<Met> Stage::behind(Vec3 ray_camera) const { return met(ray_camera, site::Meets::kStanding); }

std::optional<Met> Stage::met(Vec3 ray_camera, site::Meets meets) const {
  const Vec3 direction = look_.direction(ray_camera);
  const auto hit = scene_.first_solid(station_.pose.eye_site, direction, need::kFarthest, meets);
  if (!hit) return std::nullopt;
  const Coat& coat = this->coat(*hit);
  double factor = 1;
  if (hit->solid == site::kVisitor) {
    factor = pattern(*hit);
  } else if (coat.texture != Texture::kPlain) {
    const TexturePlace at = texture_place(hit->distance, hit->normal, direction);
    factor = texture_at(coat.texture, at.x, at.y, at.footprint);
  }
  return Met{
      {hit->distance, hit->normal, factor * coat.matt, factor * coat.sheeting}, coat.hue, hit->solid == site::kVisitor};
}

Coat Stage::coat_of(int solid) const {
  const std::string material = need::material_of(project_, solid);
  return {project_.settings.materials.reflectance(material, kGrey), 0, texture_of(material), hue_of_material(material)};
}

Coat Stage::coat_of(Part part) const {
  return {project_.settings.materials.reflectance(std::string{material_of(part)}, kGrey), 0, Texture::kPlain,
          hue_of_part(part)};
}

const Coat& Stage::coat(const site::Hit& hit) const {
  if (hit.solid != site::kVisitor) return coats_[static_cast<size_t>(hit.solid + 1)];
  return part_coats_.at(static_cast<size_t>(visitor_.mesh.part[static_cast<size_t>(hit.triangle)]));
}

TexturePlace Stage::texture_place(double distance, Vec3 normal, Vec3 direction) const {
  const geom::SitePoint at = station_.pose.eye_site + distance * direction;
  constexpr double kLeastFacing = 0.05;
  const double facing = std::max(kLeastFacing, -geom::dot(normal, direction));
  const double footprint = distance / station_.lens.projector.focal_px / std::sqrt(facing);
  constexpr double kLevel = 0.7;  // a surface whose normal stands steeper lies like a floor
  const bool floor = std::abs(normal.z) > kLevel;
  return {floor ? at.x : at.x * -normal.y + at.y * normal.x, floor ? at.y : at.z, footprint};
}

double Stage::pattern(const site::Hit& hit) const {
  const auto triangle = static_cast<size_t>(hit.triangle);
  const Part part = visitor_.mesh.part[triangle];
  if (part == Part::kHair) return 1 + face_contrast_ * kHairTone;
  const bool plain = part != Part::kFace && part != Part::kTarget && part != Part::kPlate;
  if (plain) return 1;
  const geom::PlanPoint uv = on_pattern(visitor_.mesh.uv[triangle], hit);
  if (part == Part::kFace) return 1 + face_contrast_ * face_at(uv.x, uv.y);
  if (part == Part::kTarget) return 1 + target_contrast_ * TargetPattern{}.at(uv.x, uv.y);
  return plate_ ? 1 + plate_contrast_ * plate_->at(uv.x, uv.y) : 1;
}

need::Patch Stage::light(Vec3 ray_camera, const std::optional<Met>& met) const {
  return look_.light(ray_camera, met ? std::optional{met->surface} : std::nullopt);
}

}  // namespace sightfall::walk
