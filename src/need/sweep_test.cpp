// SPDX-License-Identifier: GPL-3.0-or-later
// The sweep against the long way, point by point: the same points, densities within kSweepError, the same light passed.
#include "need/sweep.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

constexpr unsigned kSeed = 7;
constexpr PixelDensity kFaintest{20};

class Dice {
 public:
  double between(double low, double high) { return std::uniform_real_distribution<double>{low, high}(engine_); }
  geom::SitePoint point(double reach) { return {between(-reach, reach), between(-reach, reach), between(0.3, 4)}; }

 private:
  std::mt19937 engine_{kSeed};
};

enum class Form { kPlain, kBrown, kTangential, kFisheye };

Station random_station(Form form, Dice& dice) {
  using namespace units;
  camera::Sheet sheet = plain_sheet();
  const double focal = form == Form::kFisheye ? dice.between(1.2, 2.5) : dice.between(2.5, 12);
  sheet.focal = {focal * mm, focal * mm};
  if (form == Form::kBrown || form == Form::kTangential) {
    const bool turned = form == Form::kTangential;
    sheet.distortion = camera::Distortion{{dice.between(-0.12, 0.05), dice.between(0, 0.02),
                                           turned ? dice.between(-0.005, 0.005) : 0.0,
                                           turned ? dice.between(-0.005, 0.005) : 0.0, 0.0}};
  }
  if (form == Form::kFisheye) {
    sheet.projection = camera::Projection::kFisheye;
    sheet.distortion = camera::Distortion{{dice.between(-0.03, 0.03), dice.between(-0.005, 0.005), 0.0, 0.0}};
  }
  camera::Camera camera = camera_on("eye", "post", dice.between(0, 360), dice.between(-5, 60));
  camera.roll = dice.between(-20, 20) * deg;
  return station_at(sheet, camera, {dice.between(-5, 5), dice.between(-5, 5), dice.between(2.5, 9)}, plain_typical());
}

/// One point the long way, in double precision.
struct Long {
  double density = 0, depth = 0;
  double spare = 0;  ///< px from the picture's edge, inwards; a fraction of the angle left where the mapping ends
};

Long the_long_way(const Station& station, geom::SitePoint point) {
  const camera::Projector& p = station.lens.projector;
  const geom::Mat3& turn = station.pose.camera_from_site;
  const geom::Vec3 ray = point - station.pose.eye_site, at = turn * ray;
  Long result;
  const auto image = camera::image_point(p, at);
  if (!image) return result;
  result.spare = std::min({image->u + 0.5, p.columns - 0.5 - image->u, image->v + 0.5, p.rows - 0.5 - image->v});
  if (!camera::in_picture(p, *image)) return result;
  const double level = norm(plan(ray));
  const geom::Vec3 across{-ray.y / level, ray.x / level, 0};
  result.density = camera::surface_density(camera::jacobian(p, at), turn * across, turn * geom::Vec3{0, 0, 1}).least;
  result.depth = p.mapping == camera::Mapping::kFisheye ? norm(at) : at.z;
  return result;
}

/// Points so near a bound that single precision may put them on either side of it.
bool on_the_edge(const Station& station, geom::SitePoint point, const Long& exact) {
  constexpr double kPicture = 0.05;  // px
  const geom::Vec3 at = station.pose.camera_from_site * (point - station.pose.eye_site);
  const double off = std::atan2(std::hypot(at.x, at.y), at.z);
  return std::abs(exact.spare) < kPicture || std::abs(off - station.lens.projector.largest.si()) < 1e-4 ||
         std::abs(exact.density / kFaintest.si() - 1) < 2 * kSweepError;
}

std::vector<geom::SitePoint> cloud(Dice& dice, size_t count) {
  std::vector<geom::SitePoint> points;
  for (size_t i = 0; i < count; ++i) points.push_back(dice.point(i % 2 == 0 ? 120 : 15));
  return points;
}

/// Each hit by its point in the list.
std::map<uint32_t, SweepHit> hits_of(const Station& station, const site::Site& site,
                                     const std::vector<geom::SitePoint>& points, PixelDensity faintest = kFaintest) {
  const site::Scene scene{site, site::Leaves::kOn};
  std::vector<SweepHit> hits;
  sweep(station, scene, SweepPoints{points}, faintest, hits);
  std::map<uint32_t, SweepHit> by_point;
  for (const SweepHit& hit : hits) EXPECT_TRUE(by_point.emplace(hit.point, hit).second) << "told twice";
  return by_point;
}

void hold_against_the_long_way(Form form) {
  Dice dice;
  double worst = 0;
  size_t seen = 0;
  for (int k = 0; k < 40; ++k) {
    const Station station = random_station(form, dice);
    const auto points = cloud(dice, 3000);
    const auto hits = hits_of(station, {}, points);
    for (uint32_t i = 0; i < points.size(); ++i) {
      const Long exact = the_long_way(station, points[i]);
      if (on_the_edge(station, points[i], exact)) continue;
      const bool wanted = exact.density >= kFaintest.si();
      ASSERT_EQ(hits.count(i) == 1, wanted) << "seed " << kSeed << " camera " << k << " point " << i << " density "
                                            << exact.density << " spare " << exact.spare;
      if (!wanted) continue;
      ++seen;
      const SweepHit& hit = hits.at(i);
      worst = std::max(worst, std::abs(static_cast<double>(hit.density) / exact.density - 1));
      EXPECT_NEAR(static_cast<double>(hit.depth), exact.depth, 1e-5 * (exact.depth + 10));
    }
  }
  EXPECT_LE(worst, kSweepError) << "seed " << kSeed;
  EXPECT_GT(seen, 1000U);
  testing::Test::RecordProperty("worst", std::to_string(worst));
}

TEST(Sweep, EqualsTheLongWayThroughPlainLenses) { hold_against_the_long_way(Form::kPlain); }
TEST(Sweep, EqualsTheLongWayThroughBrownDistortion) { hold_against_the_long_way(Form::kBrown); }
TEST(Sweep, EqualsTheLongWayThroughTangentialDistortion) { hold_against_the_long_way(Form::kTangential); }
TEST(Sweep, EqualsTheLongWayThroughFisheyes) { hold_against_the_long_way(Form::kFisheye); }

TEST(Sweep, LeavesOutWhatAMaskCoversAndNothingElse) {
  Dice dice;
  for (const Form form : {Form::kPlain, Form::kBrown, Form::kFisheye}) {
    Station station = random_station(form, dice);
    const auto points = cloud(dice, 3000);
    const auto whole = hits_of(station, {}, points);
    station.masks = {{"left", 0, 0, 0.45, 1}};
    const auto masked = hits_of(station, {}, points);
    size_t covered = 0;
    for (const auto& [point, hit] : whole) {
      const geom::Vec3 at = station.pose.camera_from_site * (points[point] - station.pose.eye_site);
      if (on_the_edge(station, points[point], the_long_way(station, points[point]))) continue;
      EXPECT_EQ(masked.count(point) == 1, shows(station, at));
      covered += shows(station, at) ? 0 : 1;
    }
    EXPECT_GT(covered, 0U);
    EXPECT_GT(masked.size(), 0U);
  }
}

TEST(Sweep, CullingDropsNoPointOfACompactSite) {
  // Far cameras with narrow views over small clusters: whole tiles in, out and on the edge.
  Dice dice;
  for (int k = 0; k < 60; ++k) {
    const Station station = random_station(Form::kPlain, dice);
    std::vector<geom::SitePoint> points;
    for (int cluster = 0; cluster < 40; ++cluster) {
      const geom::SitePoint middle = dice.point(90);
      for (size_t i = 0; i < SweepPoints::kTile; ++i) points.push_back(middle + 0.05 * dice.point(5));
    }
    const auto hits = hits_of(station, {}, points);
    for (uint32_t i = 0; i < points.size(); ++i) {
      const Long exact = the_long_way(station, points[i]);
      if (on_the_edge(station, points[i], exact)) continue;
      ASSERT_EQ(hits.count(i) == 1, exact.density >= kFaintest.si()) << "seed " << kSeed << " camera " << k;
    }
  }
}

TEST(Sweep, PassesWhatTheScenePasses) {
  site::Site site;
  site.solids = {wall_of("wall", {{-8, 12}, {3, 12}}, 2)};
  site.veils = {mesh_of("mesh", {{-20, 9}, {20, 9}}, 3, 0.4, 0.4), mesh_of("hedge", {{2, 15}, {20, 15}}, 3, 0.7, 0.7)};
  Dice dice;
  const Station station = station_at(plain_sheet(), camera_on("eye", "post", 0, 5), {0, 0, 3}, plain_typical());
  const auto points = cloud(dice, 4000);
  const auto hits = hits_of(station, site, points);
  const site::Scene scene{site, site::Leaves::kOn};
  size_t hidden = 0, veiled = 0;
  for (uint32_t i = 0; i < points.size(); ++i) {
    const Long exact = the_long_way(station, points[i]);
    if (on_the_edge(station, points[i], exact) || exact.density < kFaintest.si()) continue;
    const double passed = scene.passed({station.pose.eye_site, points[i]});
    hidden += passed == 0 ? 1 : 0;
    veiled += passed > 0 && passed < 1 ? 1 : 0;
    ASSERT_EQ(hits.count(i) == 1, passed > 0);
    EXPECT_NEAR(passed > 0 ? static_cast<double>(hits.at(i).passed) : 0, passed, 1e-6);
  }
  EXPECT_GT(hidden, 20U);
  EXPECT_GT(veiled, 100U);
}

TEST(Sweep, TilesOfAnySizeGiveTheSame) {
  Dice dice;
  const Station station = station_at(plain_sheet(), camera_on("eye", "post", 0, 5), {0, 0, 3}, plain_typical());
  const auto all = cloud(dice, 3 * SweepPoints::kTile + 1);
  for (size_t count = 0; count <= all.size(); ++count) {
    if (count > 2 && count % 7 != 0 && count % SweepPoints::kTile > 1 && count != all.size()) continue;
    const std::vector<geom::SitePoint> points(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    const SweepPoints swept{points};
    EXPECT_EQ(swept.size(), count);
    const auto hits = hits_of(station, {}, points);
    for (uint32_t i = 0; i < count; ++i) {
      const Long exact = the_long_way(station, points[i]);
      if (on_the_edge(station, points[i], exact)) continue;
      EXPECT_EQ(hits.count(i) == 1, exact.density >= kFaintest.si());
    }
  }
}

TEST(Sweep, CastsARayForEachPointInThePictureAndDenseEnough) {
  Dice dice;
  const Station station = station_at(plain_sheet(), camera_on("eye", "post", 0, 5), {0, 0, 3}, plain_typical());
  const SweepPoints points{cloud(dice, 2000)};
  std::vector<uint32_t> order;
  const size_t rays = sweep_rays(station, points, kFaintest, &order);
  EXPECT_EQ(order.size(), rays);
  EXPECT_TRUE(std::is_sorted(order.begin(), order.end()));
  std::vector<SweepHit> hits;
  sweep(station, site::Scene{{}, site::Leaves::kOn}, points, kFaintest, hits);
  EXPECT_EQ(hits.size(), rays) << "over open ground every ray arrives";
  ASSERT_GT(rays, 50U);
  // A wall before everything takes all of them, and the rays are cast all the same.
  site::Site walled;
  walled.solids = {wall_of("wall", {{-9, 1}, {9, 1}}, 20)};
  hits.clear();
  sweep(station, site::Scene{walled, site::Leaves::kOn}, points, kFaintest, hits);
  EXPECT_TRUE(hits.empty());
  EXPECT_EQ(sweep_rays(station, points, kFaintest), rays);
}

TEST(Sweep, AHigherFaintestKeepsTheDenser) {
  Dice dice;
  const Station station = station_at(plain_sheet(), camera_on("eye", "post", 0, 5), {0, 0, 3}, plain_typical());
  const auto points = cloud(dice, 2000);
  const auto many = hits_of(station, {}, points), few = hits_of(station, {}, points, PixelDensity{80});
  EXPECT_LT(few.size(), many.size());
  for (const auto& [point, hit] : many) EXPECT_EQ(few.count(point) == 1, hit.density >= 80.0F);
}

}  // namespace
}  // namespace sightfall::need
