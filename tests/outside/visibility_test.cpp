// SPDX-License-Identifier: GPL-3.0-or-later
// What rays through the scene see against the exact visibility polygons of CGAL, on random plans with and without
// buildings inside.
//   Method   The plan's outer ring is a wall, its holes are buildings, all far taller than eye and targets, which stand
//            at one height: what is seen is a matter of the plan alone. Corners, eyes and targets lie on multiples of
//            2^-10 m, so that rays (single precision) and polygons (exact) are given the very same plan.
//   Band     Near the polygon's edge rays may differ. The scene leaves the last 1e-4 of a stretch free, so that the
//            surface a subject touches does not hide it: a target behind a wall by less than that is seen. Beyond that
//            a millimetre is more than single precision loses at 100 m. Targets within kBandShare of their distance and
//            kBand of the edge are counted and left out.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "site/scene.h"
#include "visible_polygon.h"

namespace sightfall::outside {
namespace {

using namespace units;
using geom::Outline;
using geom::PlanPoint;
using geom::Ring;

constexpr double kBandShare = 1e-4, kBand = 1e-3;  // of the distance; m
constexpr Length kTall = 200.0 * m;
constexpr double kEyeHeight = 2;  // m

double on_lattice(double x) { return std::round(x * 1024) / 1024; }

class Plans {
 public:
  explicit Plans(unsigned seed) : random_{seed} {}

  double between(double low, double high) { return std::uniform_real_distribution<double>{low, high}(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution<int>{low, high}(random_); }

  /// A star-shaped ring: spiky enough to hide behind.
  Ring star(PlanPoint centre, double least, double most, int corners) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * (i + between(-0.3, 0.3)) / corners, radius = between(least, most);
      ring.push_back(
          {on_lattice(centre.x + radius * std::cos(angle)), on_lattice(centre.y + radius * std::sin(angle))});
    }
    return ring;
  }

  /// A plan without flaw; holes that would touch another ring are not added. One without any is spiky, to hide in.
  Outline plan(int holes) {
    Outline outline{star({0, 0}, holes > 0 ? 25 : 6, 60, whole(8, 24)), {}};
    for (int tries = 0; tries < 20 * holes && static_cast<int>(outline.holes.size()) < holes; ++tries) {
      Outline more = outline;
      more.holes.push_back(star({between(-40, 40), between(-40, 40)}, 1, 7, whole(3, 9)));
      if (!geom::flaw(more)) outline = std::move(more);
    }
    return outline;
  }

  PlanPoint point() { return {on_lattice(between(-60, 60)), on_lattice(between(-60, 60))}; }

 private:
  std::mt19937 random_;
};

double distance_to_edge(const Ring& ring, PlanPoint p) {
  double nearest = 1e300;
  for (size_t i = 0; i < ring.size(); ++i) {
    const PlanPoint a = ring[i], span = ring[(i + 1) % ring.size()] - a;
    const double square = dot(span, span);
    const double t = square > 0 ? std::clamp(dot(p - a, span) / square, 0.0, 1.0) : 0.0;
    nearest = std::min(nearest, norm(p - (a + t * span)));
  }
  return nearest;
}

double distance_to_edge(const Outline& outline, PlanPoint p) {
  double nearest = distance_to_edge(outline.outer, p);
  for (const Ring& hole : outline.holes) nearest = std::min(nearest, distance_to_edge(hole, p));
  return nearest;
}

site::Site site_of(const Outline& outline) {
  site::Site site;
  Ring closed = outline.outer;
  closed.push_back(closed.front());
  site.solids.push_back({.kind = site::SolidKind::kWall, .line = closed, .height = kTall});
  for (const Ring& hole : outline.holes) site.solids.push_back({.outline = {hole, {}}, .height = kTall});
  return site;
}

struct Count {
  int seen = 0, hidden = 0, in_band = 0, differing = 0;
};

void compare(const Outline& outline, PlanPoint eye, Plans& plans, const std::string& which, Count& count) {
  const Ring polygon = visible_polygon(outline, eye);
  ASSERT_GE(polygon.size(), 3U) << which;
  std::vector<float> x, y, z;
  std::vector<PlanPoint> targets;
  while (targets.size() < 400) {
    const PlanPoint p = plans.point();
    if (!contains(outline, p)) continue;
    targets.push_back(p);
    x.push_back(static_cast<float>(p.x));
    y.push_back(static_cast<float>(p.y));
    z.push_back(static_cast<float>(kEyeHeight));
  }
  std::vector<float> passed(targets.size());
  site::Scene{site_of(outline), site::Leaves::kOn}.passed_from({eye.x, eye.y, kEyeHeight}, {x, y, z}, passed);
  for (size_t i = 0; i < targets.size(); ++i) {
    if (distance_to_edge(polygon, targets[i]) < kBandShare * norm(targets[i] - eye) + kBand) {
      ++count.in_band;
      continue;
    }
    const bool exact = contains({polygon, {}}, targets[i]), ours = passed[i] > 0;
    (exact ? count.seen : count.hidden)++;
    count.differing += exact != ours;
    EXPECT_EQ(ours, exact) << which << " target " << targets[i].x << ", " << targets[i].y;
  }
}

Count run(unsigned first_seed, int plans_tried, int holes) {
  Count count;
  for (unsigned seed = first_seed; seed < first_seed + static_cast<unsigned>(plans_tried); ++seed) {
    Plans plans{seed};
    const Outline outline = plans.plan(holes);
    for (int eye = 0; eye < 3; ++eye) {
      PlanPoint at = plans.point();
      while (!contains(outline, at) || distance_to_edge(outline, at) < 0.05) at = plans.point();
      compare(outline, at, plans, "seed " + std::to_string(seed) + " eye " + std::to_string(eye), count);
    }
  }
  testing::Test::RecordProperty("seen", count.seen);
  testing::Test::RecordProperty("hidden", count.hidden);
  testing::Test::RecordProperty("in the band", count.in_band);
  std::printf("%d seen, %d hidden, %d within the band and left out, %d differing\n", count.seen, count.hidden,
              count.in_band, count.differing);
  return count;
}

TEST(ExactVisibility, InRandomCourts) {
  const Count count = run(100, 30, 0);
  EXPECT_GT(count.seen, 5000);
  EXPECT_GT(count.hidden, 5000);
  EXPECT_LT(count.in_band, (count.seen + count.hidden) / 100) << "the band must not swallow the check";
}

TEST(ExactVisibility, AmongBuildings) {
  const Count count = run(200, 30, 9);
  EXPECT_GT(count.seen, 5000);
  EXPECT_GT(count.hidden, 5000);
  EXPECT_LT(count.in_band, (count.seen + count.hidden) / 100);
}

TEST(ExactVisibility, PolygonOfAPlainRoomIsTheRoom) {
  // The reference itself, by pencil: all of a convex room is seen; a pillar's shadow is not.
  const Ring room{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  EXPECT_NEAR(geom::signed_area(visible_polygon({room, {}}, {3, 4})).in(m2), 100, 1e-9);
  const Ring pillar{{4, 4}, {6, 4}, {6, 6}, {4, 6}};
  const Ring seen = visible_polygon({room, {pillar}}, {5, 2});
  // Shadow: from the pillar's corners (4,4), (6,4) at slopes -1/2 and 1/2 to the wall y = 10 at x = 1 and 9.
  EXPECT_NEAR(geom::signed_area(seen).in(m2), 100 - (2.0 + 8.0) / 2 * 6, 1e-9);
}

}  // namespace
}  // namespace sightfall::outside
