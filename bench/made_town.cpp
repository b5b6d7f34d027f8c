// SPDX-License-Identifier: GPL-3.0-or-later
#include "made_town.h"

#include <cmath>
#include <random>
#include <string>

#include "file/project.h"
#include "site/ground.h"

namespace sightfall::bench {
namespace {

using namespace units;
using geom::PlanPoint;

constexpr double kTownWidth = 306, kBlock = 25, kStreet = 9;  // m

camera::Sheet sheet(const std::string& name, int columns, int rows, double focal_mm, double view_deg) {
  camera::Sheet s;
  s.name = name;
  s.columns = columns;
  s.rows = rows;
  s.focal = {focal_mm * mm, focal_mm * mm};
  s.f_number = camera::Ends<double>{1.6, 1.6};
  s.view = camera::Ends<Angle>{view_deg * deg, view_deg * deg};
  s.lens_class = camera::LensClass::kStandard;
  s.frame_rates = {25};
  return s;
}

void add_blocks(site::Site& site, std::mt19937& random) {
  std::uniform_real_distribution<double> height{3, 14};
  const double pitch = kBlock + kStreet;
  for (double x = 0; x + kBlock <= kTownWidth; x += pitch)
    for (double y = 0; y + kBlock <= kTownWidth; y += pitch) {
      site::Solid solid;
      solid.name = "block " + std::to_string(site.solids.size());
      solid.outline.outer = {{x, y}, {x + kBlock, y}, {x + kBlock, y + kBlock}, {x, y + kBlock}};
      solid.height = height(random) * m;
      site.solids.push_back(solid);
    }
}

}  // namespace

need::Project made_town(int cameras) {
  need::Project town;
  town.name = "made town";
  town.about = "invented";
  town.settings.typical = file::default_typical();
  town.settings.levels = file::standard_level_tables().front();
  town.conditions = {{"summer day", site::Leaves::kOn}};
  town.catalogue = {sheet("wide", 2560, 1440, 2.8, 100), sheet("middle", 3840, 2160, 4, 80),
                    sheet("long", 2560, 1440, 8, 38)};
  std::mt19937 random{7};
  add_blocks(town.site, random);
  std::uniform_int_distribution<size_t> block{0, town.site.solids.size() - 1};
  std::uniform_int_distribution<size_t> which{0, town.catalogue.size() - 1};
  std::uniform_real_distribution<double> along{0, kBlock}, turn{-60, 60};
  for (int i = 0; i < cameras; ++i) {
    const PlanPoint corner = town.site.solids[block(random)].outline.outer.front();
    const std::string name = std::to_string(i);
    site::Mount mount;
    mount.name = name;
    mount.at = corner + PlanPoint{along(random), -0.2};
    mount.height = 3.5 * m;
    town.site.mounts.push_back(mount);
    camera::Camera camera;
    camera.name = camera.mount = name;
    camera.sheet = town.catalogue[which(random)].name;
    camera.heading = (180 + turn(random)) * deg;
    camera.tilt = 10 * deg;
    town.cameras.push_back(camera);
  }
  return town;
}

std::vector<geom::SitePoint> street_points(const need::Project& town, int count) {
  const double pitch = kBlock + kStreet, streets = 1 - kBlock * kBlock / (pitch * pitch);
  const double step = std::sqrt(kTownWidth * kTownWidth * streets / count);
  std::vector<geom::SitePoint> points;
  for (double y = 0; y < kTownWidth; y += step)
    for (double x = 0; x < kTownWidth; x += step) {
      const bool inside = std::fmod(x, pitch) < kBlock && std::fmod(y, pitch) < kBlock;
      if (!inside) points.push_back(site::above_ground(town.site.terrain, {x, y}, 1.6 * m));
    }
  return points;
}

std::vector<geom::SitePoint> ground_points(const need::Project& project, int count) {
  const geom::Box2 box = site::extent(project.site);
  const PlanPoint size = box.high - box.low;
  const double step = std::sqrt(size.x * size.y / count);
  std::vector<geom::SitePoint> points;
  for (double y = box.low.y; y < box.high.y; y += step)
    for (double x = box.low.x; x < box.high.x; x += step)
      points.push_back(site::above_ground(project.site.terrain, {x, y}, 1.6 * m));
  return points;
}

}  // namespace sightfall::bench
