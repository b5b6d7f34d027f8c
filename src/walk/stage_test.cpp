// SPDX-License-Identifier: GPL-3.0-or-later
// What a ray meets: the visitor before the site, the site behind it, patterns with the verdict's contrast, shadows.
#include "walk/stage.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "need/test_project.h"

namespace sightfall::walk {
namespace {

using namespace units;

struct Set {
  need::Project project = need::plain_project();
  site::Condition condition;
  need::Station station;

  Set() {
    project.settings.materials.all = {{"skin", {{0.4, 0.6, 0.5}}, "test"},
                                      {"clothing", {{0.2, 0.3, 0.3}}, "test"},
                                      {"object", {{0.3, 0.3, 0.3}}, "test"}};
    project.settings.typical.contrast_object = need::exactly(0.5, "contrast");
    station = need::in_condition(need::station_of(project, project.cameras.front()),
                                 need::Lit{project, condition}.lighting());
  }
};

Visitor board_at(double distance) { return {placed(target_board(Length{1.6}), {0, distance, 0}, {0, -1}), ""}; }

TEST(Stage, MeetsTheVisitorFirstAndTheSiteBehindIt) {
  Set set;
  set.project.site.solids = {need::wall_of("wall", {{-5, 12}, {5, 12}}, 3)};
  const Stage stage{set.project, set.condition, set.station, board_at(8)};
  const auto met = stage.first({0, 0, 1});
  ASSERT_TRUE(met);
  EXPECT_TRUE(met->visitor);
  EXPECT_NEAR(met->surface.distance, 8, 0.05);
  const auto behind = stage.behind({0, 0, 1});
  ASSERT_TRUE(behind);
  EXPECT_FALSE(behind->visitor);
  EXPECT_NEAR(behind->surface.distance, 12, 1e-4);
  EXPECT_FALSE(stage.first(geom::unit({0, -0.9, 1}))) << "the sky";
}

TEST(Stage, APatternHasTheVerdictsContrast) {
  const Set set;
  const Stage stage{set.project, set.condition, set.station, board_at(8)};
  std::set<long> shades;
  for (int i = -20; i <= 20; ++i) {
    const auto met = stage.first(geom::unit({i * 0.0015, 0.01, 1}));
    if (met && met->visitor) shades.insert(std::lround(1000 * met->surface.matt[light::Band::kVisible]));
  }
  ASSERT_GE(shades.size(), 2U);
  const double dark = static_cast<double>(*shades.begin()), bright = static_cast<double>(*shades.rbegin());
  EXPECT_NEAR((bright - dark) / (bright + dark), 0.5, 0.01);
}

TEST(Stage, TheFacesHairGoesOnAcrossTheHeadWithoutALine) {
  const Set set;
  const Visitor walker_ahead{placed(walker(0.25), {0, 6, 0}, {0, -1}), ""};
  const Stage stage{set.project, set.condition, set.station, walker_ahead};
  const geom::SitePoint eye = set.station.pose.eye_site;
  const double skin = set.project.settings.materials.reflectance("skin", 0)[light::Band::kVisible];
  const double contrast =
      need::contrast_of(need::Subject::kFace, set.station.near_infrared, set.project.settings.typical).value.nominal;
  EXPECT_GT(contrast, 0.1);
  std::set<Part> parts;
  std::set<int> hue;
  for (const double right : {-0.03, 0.0, 0.02})
    for (int height = 1690; height < 1735; ++height) {  // mm
      const geom::Vec3 way = geom::unit(geom::Vec3{right, 5.9, 1e-3 * height} - eye);
      const auto hit = stage.scene().first_solid(eye, way, need::kFarthest, site::Meets::kAll);
      const auto met = stage.first(set.station.pose.camera_from_site * way);
      ASSERT_TRUE(hit && met && met->visitor) << right << " " << height;
      parts.insert(stage.visitor().mesh.part[static_cast<size_t>(hit->triangle)]);
      EXPECT_NEAR(met->surface.matt[light::Band::kVisible], skin * (1 + contrast * kHairTone), 1e-9) << height;
      hue.insert(met->hue);
    }
  EXPECT_EQ(parts, (std::set<Part>{Part::kFace, Part::kHair}));
  EXPECT_EQ(hue.size(), 1U) << "one hue";
}

TEST(Stage, TheVisitorThrowsAShadow) {
  Set set;
  set.project.settings.materials.ground = "object";
  set.condition.light = site::NamedLight::kDarkNight;
  site::Lamp lamp;
  lamp.name = "lamp";
  lamp.at = {0, 0};
  lamp.height = 3 * m;
  lamp.lumens = 2000 * lm;
  lamp.burns = site::Burns::kAlways;
  set.project.site.lamps = {lamp};
  const Stage stage{set.project, set.condition, set.station, board_at(4)};
  // Behind the board, where the line from the lamp over the board's middle meets the ground.
  const geom::SitePoint shaded{0, 4 * 3 / (3 - 1.6), 0.01}, aside{2, shaded.y, 0.01};
  const auto lit = [&](geom::SitePoint place) { return stage.lighting().on_surface({place, {0, 0, 1}}).all; };
  EXPECT_LT(need::as_lux(lit(shaded)), 0.05 * need::as_lux(lit(aside)));
}

TEST(Placed, TurnsAndMoves) {
  SubjectMesh mesh;
  mesh.mesh.vertices = {{1, 0, 0}, {0, 2, 0.5}};
  const SubjectMesh there = placed(mesh, {10, 20, 1}, {1, 0});  // forward is east, so right is south
  EXPECT_NEAR(there.mesh.vertices[0].x, 10, 1e-12);
  EXPECT_NEAR(there.mesh.vertices[0].y, 19, 1e-12);
  EXPECT_NEAR(there.mesh.vertices[1].x, 12, 1e-12);
  EXPECT_NEAR(there.mesh.vertices[1].z, 1.5, 1e-12);
}

TEST(Hues, HaveLuminanceOne) {
  for (const Hue& hue : hues()) EXPECT_NEAR(0.2126 * hue[0] + 0.7152 * hue[1] + 0.0722 * hue[2], 1, 1e-6);
}

}  // namespace
}  // namespace sightfall::walk
