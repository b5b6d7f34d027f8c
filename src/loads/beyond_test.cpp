// SPDX-License-Identifier: GPL-3.0-or-later
// Ground beyond the boundary against a ray through every cell: which blocks cast none must not show in the answer.
#include "loads/beyond.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "camera/mask.h"
#include "need/test_project.h"
#include "need/window.h"

namespace sightfall::loads {
namespace {

using namespace units;
using geom::PlanPoint;
using geom::SitePoint;
using geom::Vec3;
using need::Project;
using need::Station;

struct AllCells {
  double density = 0, area = 0;
  int cells = 0;
};

/// A ray through every cell, none left out.
AllCells by_all_cells(const Project& project, const Station& station, const site::Scene& scene) {
  const camera::Projector& p = station.lens.projector;
  const double cell = static_cast<double>(p.columns) / kCells;
  const double faintest = need::faintest(project.settings.levels).si();
  AllCells all;
  for (int row = 0; row < p.rows / cell; ++row)
    for (int column = 0; column < kCells; ++column) {
      const geom::ImagePoint at{(column + 0.5) * cell - 0.5, (row + 0.5) * cell - 0.5};
      const auto ray = camera::ray_camera(p, at);
      if (!ray || !camera::in_picture(p, at) || camera::masked(station.masks, p, at)) continue;
      const Vec3 towards = transposed(station.pose.camera_from_site) * *ray;
      const auto hit = scene.first_solid(station.pose.eye_site, towards, Length{2 * p.focal_px / faintest});
      if (!hit || hit->solid != -1) continue;
      const SitePoint ground = station.pose.eye_site + hit->distance * towards;
      if (geom::contains({project.site.boundary, {}}, plan(ground))) continue;
      const PlanPoint back = plan(station.pose.eye_site - ground);
      const double density = need::density_upright(station, ground, (1 / norm(back)) * back);
      if (density < faintest) continue;
      const auto flat = camera::surface_density(
          camera::jacobian(p, station.pose.camera_from_site * (ground - station.pose.eye_site)),
          station.pose.camera_from_site * Vec3{1, 0, 0}, station.pose.camera_from_site * Vec3{0, 1, 0});
      all.density = std::max(all.density, density);
      if (flat.determinant > 0) all.area += cell * cell / flat.determinant;
      ++all.cells;
    }
  return all;
}

site::Solid building(const std::string& name, geom::Ring ring, double height_m) {
  site::Solid solid;
  solid.name = name;
  solid.outline.outer = std::move(ring);
  solid.height = Length{height_m};
  return solid;
}

/// A yard with a nook in its boundary, a wall, a house and one of an L's shape; hills or not.
Project yard(bool hills) {
  Project project = need::plain_project();
  project.site.boundary = {{-20, -15}, {25, -10}, {30, 20}, {4, 22}, {2, 12}, {-15, 25}};
  project.site.solids = {need::wall_of("wall", {{10, 0}, {10, 15}}, 2),
                         building("house", need::rectangle(-16, -4, -11, 3), 3),
                         building("angle", {{14, -8}, {22, -8}, {22, 0}, {19, 0}, {19, -5}, {14, -5}}, 2.5)};
  project.settings.levels.levels = {{"coarse", PixelDensity{30}}};
  if (!hills) return project;
  site::Terrain& terrain = project.site.terrain;
  terrain.south_west = {-60, -60};
  terrain.step = Length{10};
  terrain.columns = terrain.rows = 13;
  for (int row = 0; row < 13; ++row)
    for (int column = 0; column < 13; ++column)
      terrain.heights.push_back(4 * std::sin(0.7 * row) * std::cos(0.5 * column));
  return project;
}

camera::Sheet bent_sheet() {
  camera::Sheet sheet = need::plain_sheet("bent");
  sheet.focal = {3 * mm, 3 * mm};
  sheet.distortion = camera::Distortion{{-0.25, 0.06, 0, 0, 0}};
  return sheet;
}

camera::Sheet fisheye_sheet() {
  camera::Sheet sheet = need::plain_sheet("fisheye");
  sheet.focal = {1.2 * mm, 1.2 * mm};
  sheet.projection = camera::Projection::kFisheye;
  return sheet;
}

TEST(Beyond, BlocksThatCastNoRayDoNotShowInTheAnswer) {
  constexpr unsigned kSeed = 71;
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> share{0, 1};
  int shown = 0;
  for (const bool hills : {false, true}) {
    Project project = yard(hills);
    project.catalogue = {need::plain_sheet(), bent_sheet(), fisheye_sheet()};
    project.cameras.clear();
    for (const camera::Sheet& sheet : project.catalogue)
      for (int i = 0; i < 4; ++i) {
        const std::string name = sheet.name + std::to_string(i);
        project.site.mounts.push_back(
            need::mount_at(name, {-10 + 30 * share(random), -8 + 18 * share(random)}, 2 + 4 * share(random)));
        project.cameras.push_back(need::camera_on(name, name, 360 * share(random), 5 + 40 * share(random)));
        project.cameras.back().sheet = sheet.name;
        if (i == 3) project.cameras.back().masks = {{"half", 0, 0, 0.5, 1}};
      }
    const site::Scene scene{project.site, site::Leaves::kOff};
    const std::vector<Station> stations = need::stations_of(project);
    const Beyond beyond{project, scene, stations};
    for (const Station& station : stations) {
      const AllCells all = by_all_cells(project, station, scene);
      const auto seen = beyond.seen_by(station);
      ASSERT_EQ(seen.has_value(), all.cells > 0) << station.name << " seed " << kSeed;
      if (!seen) continue;
      ++shown;
      EXPECT_NEAR(seen->density.si(), all.density, 1e-3 * all.density) << station.name << " hills " << hills;
      EXPECT_NEAR(seen->area.in(m2), all.area, 1e-3 * all.area) << station.name << " hills " << hills;
    }
  }
  EXPECT_GT(shown, 8);
}

}  // namespace
}  // namespace sightfall::loads
