// SPDX-License-Identifier: GPL-3.0-or-later
// Outlines: areas by pencil, what is valid and what is not, containment, triangles that cover the outline exactly.
#include "geom/polygon.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

namespace sightfall::geom {
namespace {

using namespace sightfall::units;
using ::testing::HasSubstr;

const Ring kSquare{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
const Ring kHole{{2, 2}, {2, 5}, {5, 5}, {5, 2}};
/// A square of 4 with a quarter cut out of its north-east corner.
const Ring kCorner{{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};

Ring backwards(Ring ring) {
  std::reverse(ring.begin(), ring.end());
  return ring;
}

/// A ring around the origin that is simple by construction: rising bearings, any radii.
Ring star(std::mt19937& random, int corners) {
  std::uniform_real_distribution<double> radius{1, 10};
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double bearing = 2 * std::numbers::pi * i / corners, far = radius(random);
    ring.push_back({far * std::cos(bearing), far * std::sin(bearing)});
  }
  return ring;
}

Outline star_with_hole(std::mt19937& random) {
  Outline outline{star(random, 5 + static_cast<int>(random() % 40)), {}};
  Ring hole;
  for (const PlanPoint p : outline.outer) hole.push_back(0.4 * p);
  if (random() % 2 == 0) hole = backwards(hole);
  outline.holes.push_back(hole);
  return outline;
}

double area_of(const std::array<PlanPoint, 3>& t) { return cross(t[1] - t[0], t[2] - t[0]) / 2; }

bool strictly_inside(const std::array<PlanPoint, 3>& t, PlanPoint p) {
  return cross(t[1] - t[0], p - t[0]) > 0 && cross(t[2] - t[1], p - t[1]) > 0 && cross(t[0] - t[2], p - t[2]) > 0;
}

TEST(Area, ByPencil) {
  EXPECT_DOUBLE_EQ(signed_area(kSquare).in(m2), 100);
  EXPECT_DOUBLE_EQ(signed_area(backwards(kSquare)).in(m2), -100);
  EXPECT_DOUBLE_EQ(area({kCorner, {}}).in(m2), 12);
  EXPECT_DOUBLE_EQ(area({kSquare, {kHole}}).in(m2), 91);
  EXPECT_DOUBLE_EQ(area({backwards(kSquare), {kHole}}).in(m2), 91);
  EXPECT_DOUBLE_EQ(area({kSquare, {backwards(kHole)}}).in(m2), 91);
  EXPECT_DOUBLE_EQ(signed_area({}).in(m2), 0);
}

TEST(Flaw, NoneInASimpleOutline) {
  EXPECT_EQ(flaw({kSquare, {}}), std::nullopt);
  EXPECT_EQ(flaw({backwards(kSquare), {kHole}}), std::nullopt);
  EXPECT_EQ(flaw({kCorner, {}}), std::nullopt);
}

TEST(Flaw, SelfCrossingSaysWhere) {
  const auto found = flaw({{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, {}});
  ASSERT_TRUE(found.has_value());
  EXPECT_THAT(*found, HasSubstr("Self-intersection at (5.0"));
  EXPECT_THAT(*found, HasSubstr(", 5.0"));
}

TEST(Flaw, EveryKindIsFound) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(flaw({{}, {}}).has_value()) << "no points";
  EXPECT_TRUE(flaw({{{0, 0}, {1, 1}}, {}}).has_value()) << "two points";
  EXPECT_TRUE(flaw({{{0, 0}, {1, 1}, {2, 2}}, {}}).has_value()) << "on one line";
  EXPECT_TRUE(flaw({{{0, 0}, {0, 0}, {0, 0}}, {}}).has_value()) << "one point thrice";
  EXPECT_TRUE(flaw({{{0, 0}, {1, nan}, {2, 0}}, {}}).has_value()) << "not a number";
  EXPECT_TRUE(flaw({kSquare, {{{2, 2}, {3, 3}}}}).has_value()) << "a hole of two points";
  EXPECT_TRUE(flaw({kSquare, {{{20, 20}, {21, 20}, {21, 21}}}}).has_value()) << "a hole outside";
  EXPECT_TRUE(flaw({kSquare, {{{5, 5}, {15, 5}, {15, 6}}}}).has_value()) << "a hole across the edge";
  EXPECT_TRUE(flaw({kSquare, {kHole, kHole}}).has_value()) << "the same hole twice";
}

TEST(Contains, InsideEdgeAndHole) {
  const Outline outline{kSquare, {kHole}};
  EXPECT_TRUE(contains(outline, {1, 1}));
  EXPECT_FALSE(contains(outline, {3, 3})) << "in the hole";
  EXPECT_FALSE(contains(outline, {11, 5}));
  EXPECT_FALSE(contains(outline, {-1, 0})) << "on an edge's line, beyond its end";
  for (const PlanPoint corner : kSquare) EXPECT_TRUE(contains(outline, corner));
  EXPECT_TRUE(contains(outline, {10, 5})) << "on the outer edge";
  EXPECT_TRUE(contains(outline, {2, 3})) << "on the hole's edge";
  EXPECT_TRUE(contains(outline, {5, 5})) << "on the hole's corner";
}

TEST(Contains, ConcaveNotch) {
  EXPECT_TRUE(contains({kCorner, {}}, {1, 3}));
  EXPECT_FALSE(contains({kCorner, {}}, {3, 3}));
  EXPECT_TRUE(contains({kCorner, {}}, {2, 2}));
}

TEST(Contains, ShareOfRandomPointsIsTheShareOfTheArea) {
  constexpr unsigned kSeed = 3;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> along{-10, 10};
  constexpr int kPoints = 20000;
  for (int i = 0; i < 5; ++i) {
    const Outline outline = star_with_hole(random);
    int inside = 0;
    for (int k = 0; k < kPoints; ++k) inside += contains(outline, {along(random), along(random)}) ? 1 : 0;
    const double share = area(outline).in(m2) / 400, sigma = std::sqrt(share * (1 - share) / kPoints);
    EXPECT_NEAR(static_cast<double>(inside) / kPoints, share, 5 * sigma);
  }
}

TEST(Bounds, HoldEveryPoint) {
  const Box2 box = bounds(kCorner);
  EXPECT_EQ(box.low, (PlanPoint{0, 0}));
  EXPECT_EQ(box.high, (PlanPoint{4, 4}));
  EXPECT_EQ(box.centre(), (PlanPoint{2, 2}));
  EXPECT_EQ(box.grown(1).low, (PlanPoint{-1, -1}));
  EXPECT_TRUE(bounds({}).empty());
  EXPECT_FALSE(box.empty());
}

TEST(LengthOf, Polyline) {
  EXPECT_DOUBLE_EQ(length({{0, 0}, {3, 4}, {3, 10}}).in(m), 11);
  EXPECT_DOUBLE_EQ(length({{1, 1}}).in(m), 0);
  EXPECT_DOUBLE_EQ(length({}).in(m), 0);
}

TEST(Triangles, CoverTheOutlineExactlyAndRunAnticlockwise) {
  constexpr unsigned kSeed = 4;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  for (int i = 0; i < 50; ++i) {
    const Outline outline = star_with_hole(random);
    const auto parts = triangles(outline);
    EXPECT_EQ(parts.size(), 2 * outline.outer.size()) << "n + h corners and one hole: n + h triangles";
    double total = 0;
    for (const auto& t : parts) {
      EXPECT_GT(area_of(t), 0);
      EXPECT_TRUE(contains(outline, (1.0 / 3) * (t[0] + t[1] + t[2])));
      total += area_of(t);
    }
    EXPECT_NEAR(total, area(outline).in(m2), 1e-9);
  }
}

TEST(Triangles, EachPointInsideIsInExactlyOne) {
  constexpr unsigned kSeed = 5;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> along{-10, 10};
  const Outline outline = star_with_hole(random);
  const auto parts = triangles(outline);
  for (int k = 0; k < 5000; ++k) {
    const PlanPoint p{along(random), along(random)};
    const auto hits = std::count_if(parts.begin(), parts.end(), [&](const auto& t) { return strictly_inside(t, p); });
    EXPECT_EQ(hits, contains(outline, p) ? 1 : 0) << p.x << ", " << p.y;
  }
}

/// A square with up to three holes on whole metres, turned, so that rings often touch.
Outline crowded(std::mt19937& random) {
  const auto below = [&](unsigned n) { return static_cast<double>(random() % n); };
  Outline outline{{{0, 0}, {20, 0}, {20, 20}, {0, 20}}, {}};
  for (unsigned holes = 1 + random() % 3; holes > 0; --holes) {
    const PlanPoint corner{below(19), below(19)};
    Ring hole;
    for (unsigned points = 3 + random() % 2; points > 0; --points)
      hole.push_back(corner + PlanPoint{below(7), below(7)});
    outline.holes.push_back(hole);
  }
  const double turn = 0.1 * below(60), c = std::cos(turn), s = std::sin(turn);
  const auto turned = [&](PlanPoint& p) { p = {c * p.x - s * p.y, s * p.x + c * p.y}; };
  std::for_each(outline.outer.begin(), outline.outer.end(), turned);
  for (Ring& hole : outline.holes) std::for_each(hole.begin(), hole.end(), turned);
  return outline;
}

double area_of(const std::vector<std::array<PlanPoint, 3>>& parts) {
  double total = 0;
  for (const auto& t : parts) total += area_of(t);
  return total;
}

TEST(Triangles, RingsMayTouchInOnePoint) {
  const std::vector<Outline> touching{
      {kSquare, {{{5, 0}, {6, 3}, {4, 3}}}},  // a hole's corner, the middle of the outer edge
      {kSquare, {{{2, 2}, {8, 2}, {8, 4}, {2, 4}}, {{5, 4}, {6, 7}, {4, 7}}}},  // the middle of another hole's edge
      {{{0, 0}, {7, 3}, {3, 10}}, {{{3.5, 1.5}, {4, 3}, {3, 3}}}},              // on a slanting edge
  };
  for (const Outline& outline : touching) {
    ASSERT_EQ(flaw(outline), std::nullopt);
    EXPECT_NEAR(area_of(triangles(outline)), area(outline).in(m2), 1e-9);
  }
}

TEST(Triangles, CoverWhateverHasNoFlaw) {
  constexpr unsigned kSeed = 6;
  SCOPED_TRACE(kSeed);
  std::mt19937 random{kSeed};
  int sound = 0;
  for (int i = 0; i < 3000; ++i) {
    const Outline outline = crowded(random);
    if (flaw(outline)) continue;
    ++sound;
    EXPECT_NEAR(area_of(triangles(outline)), area(outline).in(m2), 1e-9);
  }
  EXPECT_GT(sound, 500);
}

TEST(Grown, MitredByPencil) {
  EXPECT_NEAR(area(grown({kSquare, {kHole}}, 1.0 * m)).in(m2), 144, 1e-9) << "square, its hole dropped";
  // The notch's inner corner stays a right angle: a square of 6 less one of 2.
  EXPECT_NEAR(area(grown({kCorner, {}}, 1.0 * m)).in(m2), 32, 1e-9);
  EXPECT_NEAR(area(grown({backwards(kSquare), {}}, 1.0 * m)).in(m2), 144, 1e-9) << "either direction";
}

}  // namespace
}  // namespace sightfall::geom
