// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/test_plan.h"

#include <algorithm>
#include <cmath>

#include "draw/detail_field.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

bool crosses(geom::PlanPoint a, geom::PlanPoint b, geom::PlanPoint c, geom::PlanPoint d) {
  const auto side = [](auto p, auto q, auto r) { return geom::cross(q - p, r - p) > 0; };
  return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b);
}

void build_yard(site::Site& site) {
  const auto building = [&](const char* name, geom::Ring ring) {
    site::Solid solid;
    solid.name = name;
    solid.outline = {std::move(ring), {}};
    solid.height = Length{4};
    site.solids.push_back(solid);
  };
  building("glasshouse", {{2, 30}, {34, 30}, {34, 42}, {2, 42}});
  building("store", {{44, 34}, {56, 34}, {56, 44}, {50, 44}, {50, 50}, {44, 50}});
  building("cottage", {{66, 4}, {76, 6}, {74.5, 15}, {64.5, 13}});
  site::Solid wall;
  wall.name = "yard wall";
  wall.kind = site::SolidKind::kWall;
  wall.line = {{0, 10}, {22, 10}};
  wall.thickness = Length{0.3};
  site.solids.push_back(wall);
  site::Solid tank;
  tank.name = "tank";
  tank.kind = site::SolidKind::kBox;
  tank.at = {40, 24};
  tank.size_across = Length{2};
  tank.size_along = Length{3.5};
  tank.heading = 20.0 * units::deg;
  site.solids.push_back(tank);
  site::Solid van = tank;
  van.name = "van";
  van.kind = site::SolidKind::kVehicle;
  van.at = {27, 20};
  van.size_along = Length{5};
  van.heading = 70.0 * units::deg;
  site.solids.push_back(van);
  site::Solid roof;
  roof.name = "canopy";
  roof.kind = site::SolidKind::kRoof;
  roof.outline = {{{34, 36}, {44, 36}, {44, 42}, {34, 42}}, {}};
  roof.overhang = Length{0.5};
  site.solids.push_back(roof);
}

void grow_yard(site::Site& site) {
  site::Veil hedge;
  hedge.name = "hedge";
  hedge.kind = site::VeilKind::kHedge;
  hedge.line = {{38, 10}, {60, 10}, {60, 26}};
  hedge.thickness = Length{1};
  hedge.summer = 0.05;
  hedge.winter = 0.5;
  site::Veil mesh;
  mesh.name = "mesh";
  mesh.line = {{60, 26}, {60, 52}};
  mesh.summer = mesh.winter = 0.7;
  site::Veil tree;
  tree.name = "tree";
  tree.kind = site::VeilKind::kTree;
  tree.at = {70, 36};
  tree.crown_radius = Length{3.4};
  site.veils = {hedge, mesh, tree};
  site.boundary = {{-2, 4}, {61, 4}, {61, 54}, {-2, 54}};
  site.neighbours = {{"bedroom", {65.3, 9}, Length{4}, Length{1.4}, 281.0 * units::deg}};
}

void name_places(site::Site& site) {
  site::Place gate;
  gate.name = "gate";
  gate.outline = {{{22, 4.5}, {38, 4.5}, {38, 14}, {22, 14}}, {}};
  site::Place way;
  way.name = "drive";
  way.kind = site::PlaceKind::kRoute;
  way.line = {{30, 2}, {30, 18}, {38, 28}, {39, 46}};
  way.width = Length{3};
  site.places = {gate, way};
}

void hang_cameras(need::Project& project, const std::vector<Eye>& eyes) {
  const char* const names[] = {"M1 gate", "M2 yard", "M3 corner"};
  for (size_t i = 0; i < eyes.size(); ++i) {
    site::Mount mount;
    mount.name = names[i];
    mount.at = eyes[i].at;
    mount.height = Length{3.4};
    project.site.mounts.push_back(mount);
    camera::Camera camera;
    camera.name = camera.mount = names[i];
    camera.heading = eyes[i].heading_deg * units::deg;
    project.cameras.push_back(camera);
  }
}

need::DetailMap detail_by_pencil(const site::Site& site, const std::vector<Eye>& eyes, int columns) {
  need::DetailMap map;
  map.place = "gate";
  map.condition = "summer noon";
  map.south_west = {-6, -4};
  map.columns = columns;
  map.step = Length{90.0 / (columns - 1)};
  map.rows = 1 + int(62 / map.step.si());
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c) {
      const geom::PlanPoint p = map.south_west + map.step.si() * geom::PlanPoint{double(c), double(r)};
      double best = 0;
      for (const Eye& eye : eyes) best = std::max(best, detail_from(eye, p, site));
      map.delivered.push_back(static_cast<float>(best));
    }
  return map;
}

void judge(Yard& yard) {
  yard.project.settings.levels = {"2014",
                                  "",
                                  {{"monitor", PixelDensity{12.5}},
                                   {"detect", PixelDensity{25}},
                                   {"observe", PixelDensity{62.5}},
                                   {"recognise", PixelDensity{125}},
                                   {"identify", PixelDensity{250}},
                                   {"inspect", PixelDensity{1000}}}};
  yard.verdict.need = "At the gate, the face of anyone walking in";
  yard.verdict.share = {0.58, 0.64, 0.70};
  yard.verdict.required_share = 0.95;
  yard.verdict.required = PixelDensity{125};
  yard.verdict.limit = detail::Limit::kPixels;
  yard.verdict.worst = need::WorstPlace{{23, 6, 1.6},
                                        "summer noon",
                                        "M3 corner",
                                        PixelDensity{63},
                                        {PixelDensity{55}, PixelDensity{61}, PixelDensity{66}},
                                        detail::Limit::kPixels};
  need::Need need;
  need.name = yard.verdict.need;
  need.place = "gate";
  yard.project.needs = {need};
}

}  // namespace

double detail_from(const Eye& eye, geom::PlanPoint p, const site::Site& site) {
  const double away = geom::norm(p - eye.at);
  const Angle off = geom::smallest_turn(geom::heading_of(p - eye.at) - eye.heading_deg * units::deg);
  if (std::abs(off.in(units::deg)) > eye.view_deg / 2 || away < 1.5) return 0;
  double passed = 1;
  for (const site::Solid& solid : site.solids) {
    const geom::Ring ring = footprint(solid).outer;
    for (size_t i = 0; i < ring.size(); ++i)
      if (crosses(eye.at, p, ring[i], ring[(i + 1) % ring.size()])) return 0;
    for (size_t i = 1; i < solid.line.size(); ++i)
      if (crosses(eye.at, p, solid.line[i - 1], solid.line[i])) return 0;
  }
  for (const site::Veil& veil : site.veils)
    for (size_t i = 1; i < veil.line.size(); ++i)
      if (crosses(eye.at, p, veil.line[i - 1], veil.line[i])) passed *= veil.summer;
  return passed < 0.2 ? 0 : passed * eye.at_one_metre / away;
}

Yard made_yard(int columns) {
  Yard yard;
  const std::vector<Eye> eyes{{{34.2, 29.6}, 200, 60, 2900}, {{43.8, 34.2}, 235, 80, 1700}, {{2, 29.5}, 118, 90, 1500}};
  build_yard(yard.project.site);
  grow_yard(yard.project.site);
  name_places(yard.project.site);
  hang_cameras(yard.project, eyes);
  yard.map = detail_by_pencil(yard.project.site, eyes, columns);
  judge(yard);
  return yard;
}

}  // namespace sightfall::draw
