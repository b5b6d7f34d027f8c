// SPDX-License-Identifier: GPL-3.0-or-later
// Random projects for property tests: boxes, walls and meshes on a flat square of 60 m, four cameras of three sheets,
// and one need of a random kind.
#pragma once
#include <numbers>
#include <string>

#include "chance.h"
#include "file/project.h"

namespace sightfall::physics {

inline camera::Sheet sheet_of(const std::string& name, int columns, int rows, double view_deg) {
  camera::Sheet sheet;
  sheet.name = name;
  sheet.columns = columns;
  sheet.rows = rows;
  sheet.focal = {Length{4e-3}, Length{4e-3}};
  sheet.view = camera::Ends<Angle>{view_deg * units::deg, view_deg * units::deg};
  sheet.f_number = camera::Ends<double>{1.8, 1.8};
  sheet.lens_class = camera::LensClass::kStandard;
  sheet.frame_rates = {20};
  return sheet;
}

inline geom::PlanPoint plan_point(Chance& chance, double reach) {
  return {chance.between(-reach, reach), chance.between(-reach, reach)};
}

inline site::Solid random_box(Chance& chance) {
  site::Solid box;
  box.name = "box";
  box.kind = site::SolidKind::kBox;
  box.at = plan_point(chance, 28);
  box.heading = Angle{chance.between(0, 6)};
  box.height = Length{chance.between(0.8, 4)};
  box.size_across = Length{chance.between(0.5, 5)};
  box.size_along = Length{chance.between(0.5, 5)};
  return box;
}

inline site::Veil random_mesh(Chance& chance) {
  site::Veil veil;
  veil.name = "mesh";
  veil.line = {plan_point(chance, 25), plan_point(chance, 25)};
  veil.height = Length{chance.between(1, 3)};
  veil.summer = chance.between(0.2, 0.9);
  veil.winter = veil.summer;
  return veil;
}

/// A camera at a mount of its own, turned roughly to the middle.
inline void add_camera(need::Project& project, Chance& chance) {
  const std::string name = "camera " + std::to_string(project.cameras.size());
  site::Mount mount;
  mount.name = name;
  mount.at = plan_point(chance, 30);
  mount.height = Length{chance.between(2.5, 6)};
  project.site.mounts.push_back(mount);
  camera::Camera camera;
  camera.name = name;
  camera.mount = name;
  camera.sheet = project.catalogue[static_cast<size_t>(chance.between(0, 2.999))].name;
  camera.heading = geom::heading_of(geom::PlanPoint{} - mount.at) + chance.between(-0.5, 0.5) * units::rad;
  camera.tilt = chance.between(0, 25) * units::deg;
  project.cameras.push_back(camera);
}

inline site::Place random_place(Chance& chance) {
  site::Place place;
  place.name = "place";
  const double kind = chance.between(0, 4);
  const geom::PlanPoint middle = plan_point(chance, 12);
  if (kind < 2) {  // a star-shaped zone
    const int corners = 3 + static_cast<int>(chance.between(0, 6));
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * i / corners, radius = chance.between(3, 14);
      place.outline.outer.push_back(middle + radius * geom::PlanPoint{std::cos(angle), std::sin(angle)});
    }
    return place;
  }
  place.kind = kind < 3 ? site::PlaceKind::kLine : site::PlaceKind::kRoute;
  place.line = {plan_point(chance, 25), middle, plan_point(chance, 25)};
  if (place.kind == site::PlaceKind::kRoute) place.width = Length{chance.between(1, 5)};
  return place;
}

inline need::Need random_need(Chance& chance, const site::Place& place, const detail::LevelTable& table) {
  using need::Subject;
  constexpr std::array kSubjects{Subject::kFace, Subject::kPerson, Subject::kPlate, Subject::kVehicle,
                                 Subject::kObject};
  need::Need need;
  need.name = "need";
  need.subject = kSubjects[static_cast<size_t>(chance.between(0, 4.999))];
  need.place = place.name;
  need.level = table.levels[static_cast<size_t>(chance.between(0, 3.999))].name;
  need.share = chance.between(0.05, 1);
  if (chance.heads()) {
    need.facing = need::Facing::kHeading;
    need.facing_heading = Angle{chance.between(0, 6.28)};
  }
  if (place.kind == site::PlaceKind::kRoute && chance.heads())
    need.once_a_passage = 1 + static_cast<int>(chance.scale(1, 150));
  return need;
}

inline need::Project random_project(Chance& chance) {
  need::Project project;
  project.settings.typical = file::default_typical();
  project.settings.materials = file::default_materials();
  project.settings.levels = file::standard_level_tables().front();
  project.conditions = {{"day", site::Leaves::kOn}};
  project.catalogue = {sheet_of("wide", 1920, 1080, 100), sheet_of("middling", 2560, 1440, 55),
                       sheet_of("long", 3840, 2160, 30)};
  for (int i = 0; i < 10; ++i) project.site.solids.push_back(random_box(chance));
  for (int i = 0; i < 3; ++i) project.site.veils.push_back(random_mesh(chance));
  for (int i = 0; i < 3; ++i) add_camera(project, chance);
  project.site.places = {random_place(chance)};
  project.needs = {random_need(chance, project.site.places.front(), project.settings.levels)};
  return project;
}

}  // namespace sightfall::physics
