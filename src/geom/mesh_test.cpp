// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes: closed surfaces (each edge once in each direction), volumes and areas by pencil.
#include "geom/mesh.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace sightfall::geom {
namespace {

const Ring kSquare{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
const Ring kHoleClockwise{{2, 2}, {2, 5}, {5, 5}, {5, 2}};

using Corner = std::tuple<double, double, double>;

Corner corner(Vec3 p) { return {p.x, p.y, p.z}; }

/// How often each directed edge occurs; vertices at the same place are one.
std::map<std::pair<Corner, Corner>, int> directed_edges(const Mesh& mesh) {
  std::map<std::pair<Corner, Corner>, int> edges;
  for (const auto& t : mesh.triangles)
    for (size_t k = 0; k < 3; ++k) ++edges[{corner(mesh.vertices[t[k]]), corner(mesh.vertices[t[(k + 1) % 3]])}];
  return edges;
}

/// Edges that do not have exactly one twin in the other direction: none on a closed, consistently turned surface.
int open_edges(const Mesh& mesh) {
  const auto edges = directed_edges(mesh);
  return static_cast<int>(std::count_if(edges.begin(), edges.end(), [&](const auto& edge) {
    const auto twin = edges.find({edge.first.second, edge.first.first});
    return edge.second != 1 || twin == edges.end() || twin->second != 1;
  }));
}

/// Edges that do not belong to exactly two triangles, whichever way these turn.
int unpaired_edges(const Mesh& mesh) {
  std::map<std::pair<Corner, Corner>, int> edges;
  for (const auto& [edge, count] : directed_edges(mesh)) edges[std::minmax(edge.first, edge.second)] += count;
  return static_cast<int>(std::count_if(edges.begin(), edges.end(), [](const auto& e) { return e.second != 2; }));
}

double volume(const Mesh& mesh) {
  double six_times = 0;
  for (const auto& t : mesh.triangles)
    six_times += dot(mesh.vertices[t[0]], cross(mesh.vertices[t[1]], mesh.vertices[t[2]]));
  return six_times / 6;
}

double area(const Mesh& mesh) {
  double twice = 0;
  for (const auto& t : mesh.triangles)
    twice += norm(cross(mesh.vertices[t[1]] - mesh.vertices[t[0]], mesh.vertices[t[2]] - mesh.vertices[t[0]]));
  return twice / 2;
}

TEST(Extruded, IsClosedWithVolumeAndAreaByPencil) {
  const Mesh block = extruded({kSquare, {}}, 1, 4);
  EXPECT_EQ(open_edges(block), 0);
  EXPECT_NEAR(volume(block), 300, 1e-9);
  EXPECT_NEAR(area(block), 2 * 100 + 40 * 3, 1e-9);
}

TEST(Extruded, CourtyardHasInnerWalls) {
  const Mesh block = extruded({kSquare, {kHoleClockwise}}, 0, 2);
  EXPECT_EQ(open_edges(block), 0);
  EXPECT_NEAR(volume(block), 182, 1e-9);
  EXPECT_NEAR(area(block), 2 * 91 + (40 + 12) * 2, 1e-9);
}

TEST(Extruded, IsClosedWhicheverWayTheRingsRun) {
  Ring outer = kSquare, hole = kHoleClockwise;
  std::reverse(outer.begin(), outer.end());
  EXPECT_EQ(unpaired_edges(extruded({outer, {hole}}, 0, 2)), 0);
  std::reverse(hole.begin(), hole.end());
  EXPECT_EQ(unpaired_edges(extruded({outer, {hole}}, 0, 2)), 0);
  EXPECT_NEAR(area(extruded({outer, {hole}}, 0, 2)), 286, 1e-9);
}

TEST(Extruded, OpeningsAreCutOut) {
  const double whole = area(extruded({kSquare, {}}, 0, 3));
  const auto cut = [&](const std::vector<Opening>& openings) {
    return whole - area(extruded({kSquare, {}}, 0, 3, openings));
  };
  EXPECT_NEAR(cut({{0, 2, 1, 0, 2}}), 2, 1e-9) << "a door";
  EXPECT_NEAR(cut({{1, 2, 3, 1, 1}}), 3, 1e-9) << "a window";
  EXPECT_NEAR(cut({{0, 2, 1, 0, 2}, {0, 5, 2, 1, 1.5}, {2, 0, 10, 0, 3}}), 2 + 3 + 30, 1e-9) << "several";
  EXPECT_NEAR(cut({{0, 2, 2, 0, 2}, {0, 3, 2, 0, 2}}), 6, 1e-9) << "overlapping side by side";
  EXPECT_NEAR(cut({{0, 2, 2, 0, 2}, {0, 2, 2, 1, 2}}), 6, 1e-9) << "overlapping one above the other";
  EXPECT_NEAR(cut({{0, 9, 5, 0, 2}}), 2, 1e-9) << "clipped at the edge's end";
  EXPECT_NEAR(cut({{0, 2, 1, 2, 5}}), 1, 1e-9) << "clipped at the top";
  EXPECT_NEAR(cut({{0, 2, 1, 4, 1}}), 0, 1e-9) << "wholly above the top";
}

TEST(Extruded, OpeningIsWhereItWasAskedFor) {
  const Mesh block = extruded({kSquare, {}}, 0, 3, {{1, 2, 3, 1, 1}});
  // Edge 1 runs north along x = 10; nothing of the wall may be left in 2 < y < 5, 1 < z < 2.
  for (const auto& t : block.triangles) {
    const Vec3 centre = (1.0 / 3) * (block.vertices[t[0]] + block.vertices[t[1]] + block.vertices[t[2]]);
    EXPECT_FALSE(centre.x == 10 && centre.y > 2 && centre.y < 5 && centre.z > 1 && centre.z < 2);
  }
}

TEST(Wall, StraightIsABox) {
  const Mesh straight = wall({{0, 0}, {10, 0}}, {1, 1}, 2, 0.5);
  EXPECT_EQ(open_edges(straight), 0);
  EXPECT_NEAR(volume(straight), 10, 1e-9);
  EXPECT_NEAR(area(straight), 2 * (10 * 2 + 10 * 0.5 + 2 * 0.5), 1e-9);
}

TEST(Wall, RoundACornerIsClosedAndMitred) {
  const Mesh corner = wall({{0, 0}, {10, 0}, {10, 10}}, {0, 0, 0}, 2, 0.5);
  EXPECT_EQ(open_edges(corner), 0);
  // The mitre gives outside what it takes inside: the middle line's length counts.
  EXPECT_NEAR(volume(corner), 20 * 2 * 0.5, 1e-9);
}

TEST(Wall, FollowsItsGround) {
  const Mesh sloping = wall({{0, 0}, {10, 0}}, {0, 4}, 2, 0.5);
  EXPECT_EQ(open_edges(sloping), 0);
  EXPECT_NEAR(volume(sloping), 10, 1e-9);
}

TEST(Wall, WithoutThicknessIsOneSheet) {
  const Mesh sheet = wall({{0, 0}, {3, 4}, {3, 10}}, {0, 1, 2}, 2, 0);
  EXPECT_EQ(sheet.triangles.size(), 4U);
  EXPECT_NEAR(area(sheet), 5 * 2 + 6 * 2, 1e-9);
}

TEST(Wall, SharpCornerStaysWithinItsLongestMitre) {
  const Mesh hairpin = wall({{0, 0}, {100, 0}, {0, 1}}, {0, 0, 0}, 2, 0.5);
  for (const Vec3& p : hairpin.vertices) EXPECT_LE(p.x, 100 + 4 * 0.25 + 1e-9);
}

TEST(Box, StandsOnItsBaseAndTurnsClockwise) {
  const Mesh upright = box({1, 2, 3}, {4, 6, 2}, 0);
  EXPECT_EQ(open_edges(upright), 0);
  EXPECT_NEAR(volume(upright), 48, 1e-9);
  const Mesh turned = box({0, 0, 0}, {2, 10, 1}, std::numbers::pi / 2);
  const auto east = std::max_element(turned.vertices.begin(), turned.vertices.end(),
                                     [](const Vec3& a, const Vec3& b) { return a.x < b.x; });
  EXPECT_NEAR(east->x, 5, 1e-9) << "headed east, its length runs east";
  EXPECT_NEAR(volume(turned), 20, 1e-9);
  const Mesh skew = box({0, 0, 0}, {2, 10, 1}, std::numbers::pi / 4);
  const auto north_east = std::max_element(skew.vertices.begin(), skew.vertices.end(),
                                           [](const Vec3& a, const Vec3& b) { return a.x + a.y < b.x + b.y; });
  EXPECT_NEAR(north_east->x + north_east->y, 5 * std::numbers::sqrt2, 1e-9) << "headed north-east";
}

TEST(Ellipsoid, IsClosedAndInscribed) {
  const Vec3 centre{5, -3, 7}, radii{2, 3, 4};
  const Mesh crown = ellipsoid(centre, radii);
  EXPECT_EQ(open_edges(crown), 0);
  for (const Vec3& p : crown.vertices) {
    const Vec3 q = p - centre;
    EXPECT_NEAR(norm({q.x / radii.x, q.y / radii.y, q.z / radii.z}), 1, 1e-12);
  }
  const double exact = 4.0 / 3 * std::numbers::pi * radii.x * radii.y * radii.z;
  EXPECT_LT(volume(crown), exact);
  EXPECT_GT(volume(crown), 0.97 * exact);
}

TEST(HeightGrid, LiesOnItsHeightsAndFacesUp) {
  const auto plane = [](int c, int r) { return 1 + 0.5 * c - 0.25 * r; };
  const Mesh ground = height_grid({100, 200}, 2, 5, 4, plane);
  ASSERT_EQ(ground.vertices.size(), 20U);
  EXPECT_EQ(ground.triangles.size(), 24U);
  EXPECT_EQ(ground.vertices[0], (Vec3{100, 200, 1}));
  EXPECT_EQ(ground.vertices[19], (Vec3{108, 206, plane(4, 3)}));
  for (const auto& t : ground.triangles)
    EXPECT_GT(cross(plan(ground.vertices[t[1]]) - plan(ground.vertices[t[0]]),
                    plan(ground.vertices[t[2]]) - plan(ground.vertices[t[0]])),
              0);
  // Slopes 0.25 east and -0.125 north: the area is that of the plan times the length of the normal.
  EXPECT_NEAR(area(ground), 8 * 6 * std::sqrt(1 + 0.25 * 0.25 + 0.125 * 0.125), 1e-9);
  EXPECT_EQ(open_edges(ground), 2 * (4 + 3)) << "only its rim is open";
}

TEST(Mesh, AppendKeepsBothParts) {
  Mesh both = box({0, 0, 0}, {1, 1, 1}, 0);
  both.append(box({5, 0, 0}, {2, 2, 2}, 0));
  EXPECT_EQ(open_edges(both), 0);
  EXPECT_NEAR(volume(both), 9, 1e-9);
}

}  // namespace
}  // namespace sightfall::geom
