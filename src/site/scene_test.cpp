// SPDX-License-Identifier: GPL-3.0-or-later
// What hides what: each kind of solid, openings, veils crossed once, twice and from inside, the ground itself, and the
// same answer in whatever packets the targets come.
#include "site/scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>
#include <vector>

#include "site/ground.h"

namespace sightfall::site {
namespace {

using namespace units;
using geom::PlanPoint;
using geom::SitePoint;

/// A site whose extent holds the points that the tests use.
Site open_ground() {
  Site site;
  site.boundary = {{-50, -50}, {50, -50}, {50, 50}, {-50, 50}};
  return site;
}

Site with(Solid solid) {
  Site site = open_ground();
  site.solids.push_back(std::move(solid));
  return site;
}

Site with(Veil veil) {
  Site site = open_ground();
  site.veils.push_back(std::move(veil));
  return site;
}

double passed(const Site& site, SitePoint from, SitePoint to, Leaves leaves = Leaves::kOn) {
  return Scene{site, leaves}.passed({from, to});
}

TEST(Scene, OpenGroundHidesNothingAboveIt) {
  const Site site = open_ground();
  EXPECT_EQ(passed(site, {0, -10, 3}, {0, 10, 1.6}), 1);
  EXPECT_EQ(passed(site, {0, -10, 3}, {0, 10, 0}), 1) << "a point on the ground is not hidden by it";
  EXPECT_EQ(passed(site, {0, -10, 3}, {0, 10, -1}), 0) << "below it is";
  EXPECT_EQ(passed(Site{}, {0, -10, 3}, {0, 10, -1}), 1) << "an empty site has no ground to hide anything";
}

TEST(Scene, EachKindOfSolidHides) {
  const geom::Outline block{{{-3, -1}, {3, -1}, {3, 1}, {-3, 1}}, {}};
  const std::vector<Solid> solids{
      {.kind = SolidKind::kBuilding, .outline = block, .height = 3.0 * m},
      {.kind = SolidKind::kWall, .line = {{-3, 0}, {3, 0}}, .height = 3.0 * m, .thickness = 0.2 * m},
      {.kind = SolidKind::kWall, .line = {{-3, 0}, {3, 0}}, .height = 3.0 * m},
      {.kind = SolidKind::kBox, .height = 3.0 * m, .size_across = 6.0 * m, .size_along = 2.0 * m},
      {.kind = SolidKind::kVehicle, .height = 3.0 * m, .size_across = 6.0 * m, .size_along = 2.0 * m}};
  for (size_t i = 0; i < solids.size(); ++i) {
    const Scene scene{with(solids[i]), Leaves::kOn};
    EXPECT_EQ(scene.passed({{0, -10, 2}, {0, 10, 1.6}}), 0) << i << ": through its middle";
    EXPECT_EQ(scene.passed({{1.7, -10, 2}, {-0.4, 10, 2.3}}), 0) << i << ": aslant";
    EXPECT_EQ(scene.passed({{0, -10, 3.5}, {0, 10, 3.2}}), 1) << i << ": over it";
    EXPECT_EQ(scene.passed({{4, -10, 2}, {3.5, 10, 1.6}}), 1) << i << ": past it";
    EXPECT_EQ(scene.passed({{0, -10, 2}, {0, -2, 1.6}}), 1) << i << ": before it";
    EXPECT_EQ(scene.passed({{0, 10, 2}, {0, -10, 1.6}}), 0) << i << ": from the other side";
  }
}

TEST(Scene, RoofHidesFromAboveAndLetsThroughBelow) {
  const Scene scene{with(Solid{.kind = SolidKind::kRoof,
                               .outline = {{{-3, -3}, {3, -3}, {3, 3}, {-3, 3}}, {}},
                               .height = 3.0 * m,
                               .thickness = 0.2 * m,
                               .overhang = 0.5 * m}),
                    Leaves::kOn};
  EXPECT_EQ(scene.passed({{0, 0, 8}, {0.5, 0.5, 1}}), 0);
  EXPECT_EQ(scene.passed({{3.2, 0, 8}, {3.2, 0, 1}}), 0) << "under the overhang";
  EXPECT_EQ(scene.passed({{3.6, 0, 8}, {3.6, 0, 1}}), 1) << "beyond it";
  EXPECT_EQ(scene.passed({{-10, 0, 2}, {10, 0, 2}}), 1) << "underneath";
}

TEST(Scene, OpeningsLetThrough) {
  Solid shed{.outline = {{{-3, -2}, {3, -2}, {3, 2}, {-3, 2}}, {}}, .height = 3.0 * m};
  // Edge 0 runs east along y = -2; edge 2 runs back west along y = 2. A door in the one faces a window in the other.
  shed.openings = {{.edge = 0, .from = 2, .width = 1, .sill = 0, .height = 2},
                   {.edge = 2, .from = 3, .width = 1, .sill = 1, .height = 1}};
  const Scene scene{with(shed), Leaves::kOn};
  EXPECT_EQ(scene.passed({{-0.5, -10, 1.6}, {-0.5, 10, 1.4}}), 1) << "in by the door, out by the window";
  EXPECT_EQ(scene.passed({{-0.5, -10, 0.8}, {-0.5, 10, 0.6}}), 0) << "in by the door, stopped under the sill";
  EXPECT_EQ(scene.passed({{-0.5, -10, 0.8}, {-0.5, 0, 0.6}}), 1) << "to a point indoors";
  EXPECT_EQ(scene.passed({{0.5, -10, 1.6}, {0.5, 10, 1.4}}), 0) << "beside the door";
  EXPECT_EQ(scene.passed({{-0.5, -10, 2.4}, {-0.5, 10, 2.4}}), 0) << "above it";
}

TEST(Scene, CourtyardIsOpenToTheSky) {
  const Scene scene{
      with(Solid{.outline = {{{-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, {{{-3, -3}, {-3, 3}, {3, 3}, {3, -3}}}},
                 .height = 3.0 * m}),
      Leaves::kOn};
  EXPECT_EQ(scene.passed({{0, 0, 9}, {1, 1, 1}}), 1);
  EXPECT_EQ(scene.passed({{0, -2, 1}, {1, 2, 1}}), 1) << "across it";
  EXPECT_EQ(scene.passed({{0, 0, 1}, {0, 10, 1}}), 0) << "out of it";
  EXPECT_EQ(scene.passed({{4.5, 0, 9}, {4.5, 0.5, 1}}), 0) << "the house round it";
}

const Veil kFence{.kind = VeilKind::kMesh, .line = {{-5, 0}, {5, 0}}, .height = 2.0 * m, .summer = 0.6, .winter = 0.7};
const Veil kHedge{.kind = VeilKind::kHedge,
                  .line = {{-5, 0}, {5, 0}},
                  .height = 2.0 * m,
                  .thickness = 1.0 * m,
                  .summer = 0.09,
                  .winter = 0.49};
const Veil kTree{.kind = VeilKind::kTree,
                 .at = {0, 0},
                 .height = 8.0 * m,
                 .crown_radius = 2.0 * m,
                 .crown_base = 3.0 * m,
                 .summer = 0.04,
                 .winter = 0.64};

TEST(Veils, SheetPassesItsFractionAtEachCrossing) {
  const Site site = with(kFence);
  EXPECT_NEAR(passed(site, {0.3, -9, 1}, {0.2, 9, 1.2}), 0.6, 1e-6);
  EXPECT_NEAR(passed(site, {0.3, 9, 1}, {0.2, -9, 1.2}), 0.6, 1e-6) << "from either side";
  EXPECT_EQ(passed(site, {0.3, -9, 1}, {0.2, -1, 1.2}), 1) << "before it";
  EXPECT_EQ(passed(site, {0.3, -9, 3}, {0.2, 9, 2.2}), 1) << "over it";
}

TEST(Veils, VolumePassesItsFractionStraightThroughAndTheRootFromInside) {
  for (const Veil& veil : {kHedge, kTree}) {
    const Site site = with(veil);
    const double z = veil.kind == VeilKind::kTree ? 5.3 : 1.1;
    EXPECT_NEAR(passed(site, {0.3, -9, z}, {0.2, 9, z + 0.1}), veil.summer, 1e-6);
    EXPECT_NEAR(passed(site, {0.3, -9, z}, {0.1, 0.05, z}), std::sqrt(veil.summer), 1e-6) << "to a point inside";
    EXPECT_NEAR(passed(site, {0.1, 0.05, z}, {0.3, 9, z}), std::sqrt(veil.summer), 1e-6) << "from a point inside";
    EXPECT_EQ(passed(site, {-0.2, -0.1, z}, {0.1, 0.05, z}), 1) << "within it";
  }
  EXPECT_EQ(passed(with(kTree), {0.3, -9, 1.6}, {0.2, 9, 1.6}), 1) << "under the crown";
}

TEST(Veils, FollowTheLeaves) {
  for (const Veil& veil : {kFence, kHedge}) {
    EXPECT_NEAR(passed(with(veil), {0.3, -9, 1}, {0.2, 9, 1.2}, Leaves::kOn), veil.summer, 1e-6);
    EXPECT_NEAR(passed(with(veil), {0.3, -9, 1}, {0.2, 9, 1.2}, Leaves::kOff), veil.winter, 1e-6);
  }
}

TEST(Veils, Multiply) {
  Site site = with(kFence);
  site.veils.push_back(kHedge);
  site.veils.back().line = {{-5, 4}, {5, 4}};
  site.veils.push_back(kFence);
  site.veils.back().line = {{-5, 6}, {5, 6}};
  site.veils.back().summer = 0.5;
  EXPECT_NEAR(passed(site, {0.3, -9, 1}, {0.2, 9, 1.2}), 0.6 * 0.09 * 0.5, 1e-6);
  EXPECT_NEAR(passed(site, {0.3, -9, 1}, {0.2, 5, 1.2}), 0.6 * 0.09, 1e-6);
  site.solids.push_back({.kind = SolidKind::kWall, .line = {{-5, 8}, {5, 8}}, .height = 3.0 * m});
  EXPECT_EQ(passed(site, {0.3, -9, 1}, {0.2, 9, 1.2}), 0) << "a solid behind them stops what they passed";
}

TEST(Veils, CrossingOnAnEdgeBetweenTrianglesCountsOnce) {
  // (0, 0, 1) lies on the diagonal that splits the fence's rectangle, and on the post of one drawn in two stretches.
  EXPECT_NEAR(passed(with(kFence), {0, -9, 1}, {0, 9, 1}), 0.6, 1e-6);
  Veil two_stretches = kFence;
  two_stretches.line = {{-5, 0}, {0, 0}, {5, 0}};
  EXPECT_NEAR(passed(with(two_stretches), {0, -9, 1.3}, {0, 9, 1.3}), 0.6, 1e-6);
  EXPECT_NEAR(passed(with(kHedge), {0, -9, 1}, {0, 9, 1}), 0.09, 1e-6);
  EXPECT_NEAR(passed(with(kTree), {0, -9, 5.5}, {0, 9, 5.5}), 0.04, 1e-6) << "through two corners of the crown";
}

TEST(Veils, TwoInTheSamePlaceBothCount) {
  Site site = with(kFence);
  site.veils.push_back(kFence);
  site.veils.back().summer = 0.5;
  EXPECT_NEAR(passed(site, {0.3, -9, 1}, {0.2, 9, 1.2}), 0.3, 1e-6) << "a screen laced to a fence";
}

TEST(Veils, RaysThroughEveryPartOfASheetCountOnce) {
  const Scene scene{with(kFence), Leaves::kOn};
  std::vector<float> x, y, z;
  for (int i = 0; i <= 80; ++i)
    for (int k = 1; k < 16; ++k) {
      x.push_back(static_cast<float>(-4 + 0.1 * i));
      y.push_back(9);
      z.push_back(static_cast<float>(0.125 * k));
    }
  std::vector<float> fraction(x.size());
  scene.passed_from({0, -9, 1}, {x, y, z}, fraction);
  for (size_t i = 0; i < x.size(); ++i) EXPECT_NEAR(fraction[i], 0.6, 1e-6) << x[i] << ' ' << z[i];
}

Site ridge() {
  Site site;
  Terrain& t = site.terrain;
  t = {.south_west = {-40, -40}, .step = 10.0 * m, .columns = 9, .rows = 9, .heights = std::vector<double>(81, 0.0)};
  for (size_t c = 0; c < 9; ++c) t.heights[4 * 9 + c] = 5;  // crest along y = 0
  return site;
}

TEST(Ground, RidgeHidesWhatIsBehindIt) {
  const Site site = ridge();
  const Scene scene{site, Leaves::kOn};
  // From 2 m up at y = -30 over the crest (5 m at y = 0) the line is 5 + 0.1 y high behind it.
  const SitePoint eye{1, -30, 2};
  EXPECT_EQ(scene.passed({eye, {1, 20, 1.6}}), 0) << "in dead ground";
  EXPECT_EQ(scene.passed({eye, {1, 20, 6.9}}), 0) << "just under the line over the crest";
  EXPECT_EQ(scene.passed({eye, {1, 20, 7.1}}), 1) << "just over it";
  EXPECT_EQ(scene.passed({eye, {1, -2, 5.6}}), 1) << "on the near slope";
  for (const double x : {-35.0, -3.0, 18.0}) {
    const SitePoint crest = above_ground(site.terrain, {x, 0}, 1.6 * m);
    EXPECT_EQ(scene.passed({eye, crest}), 1) << "a person on the crest";
  }
}

TEST(FirstSolid, IsTheDistanceToTheNearestSurface) {
  Site site = with(Solid{.outline = {{{-3, -1}, {3, -1}, {3, 1}, {-3, 1}}, {}}, .height = 3.0 * m});
  site.veils.push_back(kFence);
  site.veils.back().line = {{-5, -5}, {5, -5}};
  const Scene scene{site, Leaves::kOn};
  const auto wall = scene.first_solid({0, -11, 1}, {0, 1, 0}, 100.0 * m);
  ASSERT_TRUE(wall);
  EXPECT_NEAR(wall->distance, 10, 1e-5) << "the veil before it does not stop anything";
  const auto ground = scene.first_solid({20, 20, 4}, {0, 0.6, -0.8}, 100.0 * m);
  ASSERT_TRUE(ground);
  EXPECT_NEAR(ground->distance, 5, 1e-5);
  EXPECT_FALSE(scene.first_solid({0, -11, 1}, {0, 1, 0}, 9.9 * m)) << "farther than asked";
  EXPECT_FALSE(scene.first_solid({0, -11, 1}, {0, -1, 0.01}, 500.0 * m)) << "nothing there";
}

/// A site of random boxes and fences, and targets all over it.
struct Crowd {
  Site site = open_ground();
  std::vector<float> x, y, z;

  Crowd(unsigned seed, size_t count) {
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> place{-40, 40}, size{1, 6}, turn{0, 6.28};
    for (int i = 0; i < 40; ++i)
      site.solids.push_back({.kind = SolidKind::kBox,
                             .at = {place(random), place(random)},
                             .heading = Angle{turn(random)},
                             .height = Length{size(random)},
                             .size_across = Length{size(random)},
                             .size_along = Length{size(random)}});
    for (int i = 0; i < 10; ++i)
      site.veils.push_back(
          {.line = {{place(random), place(random)}, {place(random), place(random)}}, .height = 4.0 * m, .summer = 0.7});
    for (size_t i = 0; i < count; ++i) {
      x.push_back(static_cast<float>(place(random)));
      y.push_back(static_cast<float>(place(random)));
      z.push_back(static_cast<float>(0.3 * size(random)));
    }
  }
};

constexpr SitePoint kEye{0.5, 0.25, 4.5};

TEST(PassedFrom, ScatteredAndOrderedTargetsGetTheSameAnswer) {
  constexpr unsigned kSeed = 41;
  const Crowd crowd{kSeed, 4000};
  const Scene scene{crowd.site, Leaves::kOn};
  std::vector<float> scattered(4000), ordered(4000);
  scene.passed_from(kEye, {crowd.x, crowd.y, crowd.z}, scattered);
  std::vector<size_t> order(4000);
  std::iota(order.begin(), order.end(), size_t{0});
  std::sort(order.begin(), order.end(), [&](size_t a, size_t b) { return crowd.x[a] < crowd.x[b]; });
  std::vector<float> x, y, z;
  for (const size_t i : order) {
    x.push_back(crowd.x[i]);
    y.push_back(crowd.y[i]);
    z.push_back(crowd.z[i]);
  }
  scene.passed_from(kEye, {x, y, z}, ordered);
  int hidden = 0, veiled = 0;
  for (size_t k = 0; k < order.size(); ++k) {
    EXPECT_EQ(ordered[k], scattered[order[k]]) << "seed " << kSeed << " target " << order[k];
    hidden += ordered[k] == 0;
    veiled += ordered[k] > 0 && ordered[k] < 1;
  }
  EXPECT_GT(hidden, 400) << "the crowd must hide some";
  EXPECT_GT(veiled, 200);
  EXPECT_LT(hidden, 3600);
}

TEST(PassedFrom, AnyNumberOfTargetsGetsTheAnswersOfEachAlone) {
  constexpr unsigned kSeed = 42;
  const Crowd crowd{kSeed, 33};
  const Scene scene{crowd.site, Leaves::kOn};
  std::vector<float> alone;
  for (size_t i = 0; i < 33; ++i)
    alone.push_back(static_cast<float>(scene.passed({kEye, {crowd.x[i], crowd.y[i], crowd.z[i]}})));
  for (size_t count = 1; count <= 33; ++count) {
    std::vector<float> fraction(count + 1, -7.0F);
    scene.passed_from(
        kEye, {std::span{crowd.x}.first(count), std::span{crowd.y}.first(count), std::span{crowd.z}.first(count)},
        std::span{fraction}.first(count));
    for (size_t i = 0; i < count; ++i) EXPECT_EQ(fraction[i], alone[i]) << count << " targets, the " << i << "th";
    EXPECT_EQ(fraction[count], -7.0F) << "nothing is written past the end";
  }
  scene.passed_from(kEye, {}, {});
}

TEST(Scene, MovesWithItsAnswers) {
  Scene first{with(kFence), Leaves::kOn};
  Scene second{std::move(first)};
  EXPECT_NEAR(second.passed({{0.3, -9, 1}, {0.2, 9, 1.2}}), 0.6, 1e-6);
  second = Scene{open_ground(), Leaves::kOn};
  EXPECT_EQ(second.passed({{0.3, -9, 1}, {0.2, 9, 1.2}}), 1);
}

/// Random points as a structure of arrays.
struct Cloud {
  std::vector<float> x, y, z;

  Cloud(size_t count, unsigned seed, float low, float high) : x(count), y(count), z(count) {
    std::mt19937 random{seed};
    std::uniform_real_distribution<float> across{-20, 20}, up{low, high};
    for (size_t i = 0; i < count; ++i) x[i] = across(random), y[i] = across(random), z[i] = up(random);
  }
  Targets targets() const { return {x, y, z}; }
  SitePoint at(size_t i) const {
    return {static_cast<double>(x[i]), static_cast<double>(y[i]), static_cast<double>(z[i])};
  }
};

Site with_a_block_and_a_fence() {
  Site site = open_ground();
  site.solids = {
      {.kind = SolidKind::kBox, .at = {3, 2}, .height = 3.0 * m, .size_across = 6.0 * m, .size_along = 2.0 * m},
      {.kind = SolidKind::kWall, .line = {{-8, -6}, {4, -9}}, .height = 2.0 * m}};
  Veil fence;
  fence.line = {{-12, 5}, {12, 8}};
  fence.height = 2.5 * m;
  fence.summer = fence.winter = 0.6;
  site.veils = {fence};
  return site;
}

geom::Mesh passer_by() {
  geom::Mesh board;
  board.vertices = {{-5, 4, 0.01}, {-3, 4, 0.01}, {-3, 4, 1.8}, {-5, 4, 1.8}};
  board.triangles = {{0, 1, 2}, {0, 2, 3}};
  return board;
}

TEST(Scene, StretchesWithTheirOwnBeginningsAreTheSameInPackets) {
  const Scene standing{with_a_block_and_a_fence(), Leaves::kOn}, visited{standing, passer_by()};
  const Cloud from{333, 1, 0.1F, 3}, to{333, 2, 0.1F, 6};
  for (const Scene* scene : {&standing, &visited}) {
    std::vector<float> fraction(333);
    scene->passed(from.targets(), to.targets(), fraction);
    int stopped = 0;
    for (size_t i = 0; i < fraction.size(); ++i) {
      EXPECT_EQ(static_cast<double>(fraction[i]), scene->passed({from.at(i), to.at(i)})) << i;
      if (fraction[i] == 0) ++stopped;
    }
    EXPECT_GT(stopped, 10);
  }
}

TEST(Scene, FirstSurfacesAreTheSameInPackets) {
  const Scene standing{with_a_block_and_a_fence(), Leaves::kOn}, visited{standing, passer_by()};
  Cloud directions{777, 3, -10, 4};
  for (size_t i = 0; i < directions.x.size(); ++i) {
    const geom::Vec3 unit = geom::unit(directions.at(i));
    directions.x[i] = static_cast<float>(unit.x), directions.y[i] = static_cast<float>(unit.y);
    directions.z[i] = static_cast<float>(unit.z);
  }
  const SitePoint eye{-2, 12, 3};
  Hits hits, veils;
  for (const Meets meets : {Meets::kAll, Meets::kStanding, Meets::kVisitor}) {
    visited.first_solids(eye, directions.targets(), Length{200}, meets, hits);
    visited.first_veils(eye, directions.targets(), Length{200}, veils);
    ASSERT_EQ(hits.size(), 777U);
    int visitors = 0, veiled = 0;
    for (size_t i = 0; i < hits.size(); ++i) {
      const auto one = visited.first_solid(eye, directions.at(i), Length{200}, meets);
      ASSERT_EQ(hits.distance[i] < Hits::kNothing, one.has_value()) << i;
      const auto veil = visited.first_veil(eye, directions.at(i), Length{200});
      ASSERT_EQ(veils.distance[i] < Hits::kNothing, veil.has_value()) << i;
      if (veil) {
        ++veiled;
        const VeilHit same = visited.veil_hit(veils, i, directions.at(i));
        EXPECT_NEAR(same.distance, veil->distance, 1e-4);
        EXPECT_EQ(same.veil, veil->veil);
        EXPECT_EQ(same.passed, veil->passed);
        EXPECT_LT(dot(same.normal, directions.at(i)), 0) << "to the side the ray came from";
      }
      if (!one) continue;
      const Hit same = visited.solid_hit(hits, i, directions.at(i));
      EXPECT_NEAR(same.distance, one->distance, 1e-4 * one->distance);
      EXPECT_NEAR(geom::norm(same.normal - one->normal), 0, 1e-6);
      EXPECT_EQ(same.solid, one->solid);
      EXPECT_EQ(same.triangle, one->triangle);
      EXPECT_TRUE(one->solid == kVisitor || meets != Meets::kVisitor);
      if (one->solid == kVisitor) {
        ++visitors;
        EXPECT_NEAR(same.second, one->second, 1e-3);
        EXPECT_NEAR(same.third, one->third, 1e-3);
      }
    }
    EXPECT_EQ(visitors > 0, meets != Meets::kStanding);
    EXPECT_GT(veiled, 10);
  }
}

TEST(Scene, AVisitorHidesAndStandsAsideWhenAsked) {
  const Scene standing{with_a_block_and_a_fence(), Leaves::kOn}, visited{standing, passer_by()};
  const SitePoint before{-4, 1, 1}, behind{-4, 4.5, 1};
  EXPECT_EQ(standing.passed({before, behind}), 1);
  EXPECT_EQ(visited.passed({before, behind}), 0);
  const auto hit = visited.first_solid(before, {0, 1, 0}, Length{100});
  ASSERT_TRUE(hit);
  EXPECT_EQ(hit->solid, kVisitor);
  EXPECT_NEAR(hit->distance, 3, 1e-5);
  const auto past = visited.first_solid(before, geom::unit({0, 1, -0.1}), Length{100}, Meets::kStanding);
  ASSERT_TRUE(past);
  EXPECT_EQ(past->solid, -1) << "the ground beyond";
}

}  // namespace
}  // namespace sightfall::site
