// SPDX-License-Identifier: GPL-3.0-or-later
// The ground's height, the site's extent and its surfaces: planes are met, solids stand on their ground, volumes are
// closed.
#include "site/ground.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>
#include <tuple>

namespace sightfall::site {
namespace {

using namespace units;
using geom::Mesh;
using geom::PlanPoint;
using geom::Vec3;

Terrain plane(double east_slope, double north_slope) {
  Terrain t{.south_west = {-20, -10}, .step = 5.0 * m, .columns = 9, .rows = 7, .heights = {}};
  for (int r = 0; r < t.rows; ++r)
    for (int c = 0; c < t.columns; ++c) t.heights.push_back(3 + east_slope * (5 * c - 20) + north_slope * (5 * r - 10));
  return t;
}

Terrain rough(unsigned seed) {
  Terrain t = plane(0, 0);
  std::mt19937 random{seed};
  std::uniform_real_distribution<double> height{0, 8};
  for (double& h : t.heights) h = height(random);
  return t;
}

/// Height of a mesh above a plan point: the triangle that holds it.
double mesh_height(const Mesh& mesh, PlanPoint at) {
  for (const auto& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]], b = mesh.vertices[t[1]], c = mesh.vertices[t[2]];
    const double whole = cross(plan(b) - plan(a), plan(c) - plan(a));
    if (std::abs(whole) < 1e-12) continue;
    const double u = cross(plan(c) - plan(b), at - plan(b)) / whole, v = cross(plan(a) - plan(c), at - plan(c)) / whole;
    if (u >= -1e-12 && v >= -1e-12 && 1 - u - v >= -1e-12) return u * a.z + v * b.z + (1 - u - v) * c.z;
  }
  ADD_FAILURE() << "no triangle under " << at.x << ", " << at.y;
  return 0;
}

struct Span {
  Vec3 low{1e9, 1e9, 1e9}, high{-1e9, -1e9, -1e9};
};

Span span_of(const Mesh& mesh) {
  Span s;
  for (const Vec3& v : mesh.vertices) {
    s.low = {std::min(s.low.x, v.x), std::min(s.low.y, v.y), std::min(s.low.z, v.z)};
    s.high = {std::max(s.high.x, v.x), std::max(s.high.y, v.y), std::max(s.high.z, v.z)};
  }
  return s;
}

/// Edges that do not belong to exactly two triangles, by position.
int open_edges(const Mesh& mesh) {
  using Corner = std::tuple<double, double, double>;
  std::map<std::pair<Corner, Corner>, int> edges;
  const auto corner = [&](uint32_t i) {
    const Vec3& v = mesh.vertices[i];
    return Corner{std::round(v.x * 1e7), std::round(v.y * 1e7), std::round(v.z * 1e7)};
  };
  for (const auto& t : mesh.triangles)
    for (size_t k = 0; k < 3; ++k) ++edges[std::minmax(corner(t[k]), corner(t[(k + 1) % 3]))];
  return static_cast<int>(std::count_if(edges.begin(), edges.end(), [](const auto& e) { return e.second != 2; }));
}

TEST(GroundHeight, OfFlatGroundIsZero) { EXPECT_EQ(ground_height({}, {123, -45}).si(), 0); }

TEST(GroundHeight, MeetsAPlaneExactly) {
  const Terrain t = plane(0.1, -0.25);
  for (double x = -20; x <= 20; x += 0.7)
    for (double y = -10; y <= 20; y += 0.9)
      EXPECT_NEAR(ground_height(t, {x, y}).si(), 3 + 0.1 * x - 0.25 * y, 1e-12) << x << ' ' << y;
}

TEST(GroundHeight, IsTheHeightOfTheTrianglesThatRaysMeet) {
  constexpr unsigned kSeed = 31;
  Site site;
  site.terrain = rough(kSeed);
  const Mesh mesh = terrain_mesh(site);
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> x{-20, 20}, y{-10, 20};
  for (int i = 0; i < 1000; ++i) {
    const PlanPoint at{x(random), y(random)};
    EXPECT_NEAR(ground_height(site.terrain, at).si(), mesh_height(mesh, at), 1e-9)
        << "seed " << kSeed << " at " << at.x << ' ' << at.y;
  }
}

TEST(GroundHeight, GoesOnBeyondTheGridAtItsEdge) {
  const Terrain t = rough(32);
  EXPECT_EQ(ground_height(t, {-500, 3}), ground_height(t, {-20, 3}));
  EXPECT_EQ(ground_height(t, {500, 3}), ground_height(t, {20, 3}));
  EXPECT_EQ(ground_height(t, {4, -99}), ground_height(t, {4, -10}));
  EXPECT_EQ(ground_height(t, {99, 99}), ground_height(t, {20, 20}));
}

TEST(AboveGround, AddsToTheGround) {
  const geom::SitePoint p = above_ground(plane(0.1, 0), {10, 5}, 1.6 * m);
  EXPECT_EQ(p.x, 10);
  EXPECT_EQ(p.y, 5);
  EXPECT_NEAR(p.z, 3 + 1 + 1.6, 1e-12);
}

TEST(Extent, HoldsEverythingDescribed) {
  EXPECT_TRUE(extent({}).empty());
  Site site;
  const auto expect = [&](double x0, double y0, double x1, double y1, const char* what) {
    const geom::Box2 box = extent(site);
    EXPECT_EQ(box.low, (PlanPoint{x0, y0})) << what;
    EXPECT_EQ(box.high, (PlanPoint{x1, y1})) << what;
  };
  site.mounts.push_back({.at = {1, 2}});
  expect(1, 2, 1, 2, "a mount");
  site.solids.push_back({.outline = {{{0, 0}, {3, 0}, {3, 4}}, {}}});
  expect(0, 0, 3, 4, "a building");
  site.solids.push_back({.kind = SolidKind::kWall, .line = {{-5, 1}, {2, 1}}});
  expect(-5, 0, 3, 4, "a wall");
  site.solids.push_back({.kind = SolidKind::kBox, .at = {0, 9}});
  expect(-5, 0, 3, 9, "a box");
  site.veils.push_back({.line = {{0, -7}, {1, 0}}});
  expect(-5, -7, 3, 9, "a fence");
  site.veils.push_back({.kind = VeilKind::kTree, .at = {20, 0}});
  expect(-5, -7, 20, 9, "a tree");
  site.places.push_back({.outline = {{{0, 0}, {30, 0}, {0, 1}}, {}}});
  expect(-5, -7, 30, 9, "a zone");
  site.places.push_back({.kind = PlaceKind::kRoute, .line = {{0, 0}, {0, 40}}});
  expect(-5, -7, 30, 40, "a route");
  site.neighbours.push_back({.at = {-60, 0}});
  expect(-60, -7, 30, 40, "a window");
  site.boundary = {{-70, -80}, {90, -80}, {90, 100}};
  expect(-70, -80, 90, 100, "the boundary");
  site.terrain = plane(0, 0);
  site.terrain.south_west = {-100, -90};
  expect(-100, -90, 90, 100, "the ground's grid");
}

TEST(TerrainMesh, FlatGroundReachesFarBeyondTheSite) {
  Site site;
  EXPECT_TRUE(terrain_mesh(site).triangles.empty());
  site.mounts.push_back({.at = {10, 20}});
  const Span s = span_of(terrain_mesh(site));
  EXPECT_EQ(s.low, (Vec3{-990, -980, 0}));
  EXPECT_EQ(s.high, (Vec3{1010, 1020, 0}));
}

TEST(SolidMesh, StandsOnTheLowestGroundUnderIt) {
  const Terrain t = plane(0.1, 0);
  Solid building{.outline = {{{0, 0}, {10, 0}, {10, 5}, {0, 5}}, {}}, .height = 4.0 * m};
  EXPECT_NEAR(span_of(solid_mesh(t, building)).low.z, 3, 1e-12) << "ground at x = 0";
  EXPECT_NEAR(span_of(solid_mesh(t, building)).high.z, 7, 1e-12);
  building.base = 1.5 * m;
  EXPECT_NEAR(span_of(solid_mesh(t, building)).low.z, 1.5, 1e-12) << "a base that is stated";
  EXPECT_NEAR(span_of(solid_mesh(t, building)).high.z, 5.5, 1e-12);
}

TEST(SolidMesh, RoofIsASlabAboveItsOutline) {
  const Solid roof{.kind = SolidKind::kRoof,
                   .outline = {{{0, 0}, {10, 0}, {10, 5}, {0, 5}}, {}},
                   .height = 4.0 * m,
                   .thickness = 0.3 * m,
                   .overhang = 0.5 * m};
  const Mesh mesh = solid_mesh({}, roof);
  const Span s = span_of(mesh);
  EXPECT_NEAR(s.low.z, 4, 1e-9);
  EXPECT_NEAR(s.high.z, 4.3, 1e-9);
  EXPECT_NEAR(s.low.x, -0.5, 1e-9);
  EXPECT_NEAR(s.high.y, 5.5, 1e-9);
  EXPECT_EQ(open_edges(mesh), 0);
}

TEST(SolidMesh, BoxAndVehicleAreTurnedAboutTheirCentre) {
  for (const SolidKind kind : {SolidKind::kBox, SolidKind::kVehicle}) {
    const Solid box{.kind = kind,
                    .at = {10, 20},
                    .heading = 90.0 * deg,
                    .height = 2.0 * m,
                    .size_across = 2.0 * m,
                    .size_along = 6.0 * m};
    const Span s = span_of(solid_mesh({}, box));
    EXPECT_NEAR(s.low.x, 7, 1e-9) << "headed east, its length runs east";
    EXPECT_NEAR(s.high.x, 13, 1e-9);
    EXPECT_NEAR(s.low.y, 19, 1e-9);
    EXPECT_NEAR(s.high.z, 2, 1e-9);
    EXPECT_EQ(open_edges(solid_mesh({}, box)), 0);
  }
}

TEST(SolidMesh, WallFollowsTheGroundBetweenItsCorners) {
  Terrain ridge = plane(0, 0);
  for (int r = 0; r < ridge.rows; ++r)
    for (int c = 0; c < ridge.columns; ++c)
      ridge.heights[static_cast<size_t>(r * ridge.columns + c)] = 4 - std::abs(c - 4);  // crest along x = 0
  Solid wall{.kind = SolidKind::kWall, .line = {{-20, 0}, {20, 0}}, .height = 2.0 * m, .thickness = 0.2 * m};
  const Mesh mesh = solid_mesh(ridge, wall);
  EXPECT_NEAR(span_of(mesh).high.z, 6, 1e-9) << "over the crest, though its corners are low";
  EXPECT_NEAR(span_of(mesh).low.z, 0, 1e-9);
  EXPECT_EQ(open_edges(mesh), 0);
  wall.base = 1.0 * m;
  EXPECT_NEAR(span_of(solid_mesh(ridge, wall)).high.z, 3, 1e-9) << "level on a stated base";
}

TEST(VeilMesh, VolumesAreClosedAndSheetsAreNot) {
  const Terrain t = rough(33);
  const Veil hedge{
      .kind = VeilKind::kHedge, .line = {{-15, 0}, {5, 0}, {5, 12}}, .height = 2.0 * m, .thickness = 0.8 * m};
  EXPECT_EQ(open_edges(veil_mesh(t, hedge)), 0);
  const Veil tree{
      .kind = VeilKind::kTree, .at = {3, 4}, .height = 9.0 * m, .crown_radius = 2.5 * m, .crown_base = 3.0 * m};
  EXPECT_EQ(open_edges(veil_mesh(t, tree)), 0);
  Veil fence{.kind = VeilKind::kMesh, .line = {{0, 0}, {3, 4}}, .height = 2.0 * m, .thickness = 1.0 * m};
  EXPECT_EQ(veil_mesh({}, fence).triangles.size(), 2U) << "a single sheet, whatever its thickness";
  fence.kind = VeilKind::kRailing;
  EXPECT_EQ(veil_mesh({}, fence).triangles.size(), 2U);
}

TEST(VeilMesh, TreesCrownHangsOverItsGround) {
  const Terrain t = plane(0.1, 0);
  const Veil tree{
      .kind = VeilKind::kTree, .at = {10, 4}, .height = 9.0 * m, .crown_radius = 2.5 * m, .crown_base = 3.0 * m};
  const Span s = span_of(veil_mesh(t, tree));
  EXPECT_NEAR(s.low.z, 4 + 3, 1e-9);
  EXPECT_NEAR(s.high.z, 4 + 9, 1e-9);
  EXPECT_NEAR(s.high.x, 12.5, 1e-9);
}

TEST(FractionPerCrossing, IsTheRootForAVolumeThatIsCrossedTwice) {
  for (const VeilKind kind : {VeilKind::kMesh, VeilKind::kRailing, VeilKind::kHedge, VeilKind::kTree}) {
    const Veil veil{.kind = kind, .summer = 0.09, .winter = 0.49};
    const bool volume = kind == VeilKind::kHedge || kind == VeilKind::kTree;
    EXPECT_NEAR(fraction_per_crossing(veil, Leaves::kOn), volume ? 0.3 : 0.09, 1e-12);
    EXPECT_NEAR(fraction_per_crossing(veil, Leaves::kOff), volume ? 0.7 : 0.49, 1e-12);
  }
}

}  // namespace
}  // namespace sightfall::site
