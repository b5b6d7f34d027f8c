// SPDX-License-Identifier: GPL-3.0-or-later
// Laws of what hides what that hold on any site, tried on random ones. Each failure prints its seed.
#include <gtest/gtest.h>

#include <cmath>

#include "chance.h"
#include "site/scene.h"

namespace sightfall::site {
namespace {

using namespace units;
using physics::Chance;

/// A crowd of boxes and fences on a square of 80 m.
Site crowd(Chance& chance) {
  Site site;
  site.boundary = {{-60, -60}, {60, -60}, {60, 60}, {-60, 60}};
  const auto place = [&] { return geom::PlanPoint{chance.between(-40, 40), chance.between(-40, 40)}; };
  for (int i = 0; i < 30; ++i)
    site.solids.push_back({.kind = SolidKind::kBox,
                           .at = place(),
                           .heading = Angle{chance.between(0, 6)},
                           .height = Length{chance.between(1, 6)},
                           .size_across = Length{chance.between(1, 8)},
                           .size_along = Length{chance.between(1, 8)}});
  for (int i = 0; i < 8; ++i)
    site.veils.push_back(
        {.line = {place(), place()}, .height = Length{chance.between(2, 5)}, .summer = 0.6, .winter = 0.8});
  return site;
}

Sightline sightline(Chance& chance) {
  const auto place = [&] {
    return geom::SitePoint{chance.between(-45, 45), chance.between(-45, 45), chance.between(0.5, 5)};
  };
  return {place(), place()};
}

TEST(SightLaws, LightGoesBothWays) {
  Chance chance{16};
  const Scene scene{crowd(chance), Leaves::kOn};
  int hidden = 0;
  for (int i = 0; i < 3000; ++i) {
    const Sightline there = sightline(chance);
    const double passed = scene.passed(there);
    EXPECT_NEAR(scene.passed({there.to_site, there.from_site}), passed, 1e-6) << "seed 16 case " << i;
    hidden += passed == 0;
  }
  EXPECT_GT(hidden, 500);
  EXPECT_LT(hidden, 2900);
}

TEST(SightLaws, MoreInTheWayNeverLetsMoreThrough) {
  Chance chance{17};
  const Site full = crowd(chance);
  Site fewer = full;
  fewer.solids.resize(15);
  fewer.veils.resize(4);
  const Scene scene{full, Leaves::kOn}, fewer_scene{fewer, Leaves::kOn}, winter{full, Leaves::kOff};
  int dimmed = 0;
  for (int i = 0; i < 3000; ++i) {
    const Sightline line = sightline(chance);
    EXPECT_LE(scene.passed(line), fewer_scene.passed(line)) << "seed 17 case " << i;
    EXPECT_LE(scene.passed(line), winter.passed(line)) << "bare branches pass more: seed 17 case " << i;
    dimmed += scene.passed(line) < fewer_scene.passed(line);
  }
  EXPECT_GT(dimmed, 300);
}

TEST(SightLaws, TurningTheWholeSiteChangesNothing) {
  Chance chance{18};
  const Site site = crowd(chance);
  Site turned = site;
  const auto turn = [](geom::PlanPoint p) { return geom::PlanPoint{p.y, -p.x}; };  // a quarter clockwise
  for (auto& solid : turned.solids) {
    solid.at = turn(solid.at);
    solid.heading = solid.heading + 90.0 * deg;
  }
  for (auto& veil : turned.veils)
    for (auto& point : veil.line) point = turn(point);
  const Scene scene{site, Leaves::kOn}, turned_scene{turned, Leaves::kOn};
  int differing = 0;
  for (int i = 0; i < 3000; ++i) {
    const Sightline line = sightline(chance);
    const auto turned_point = [&](geom::SitePoint p) { return geom::SitePoint{p.y, -p.x, p.z}; };
    const double there = turned_scene.passed({turned_point(line.from_site), turned_point(line.to_site)});
    differing += std::abs(there - scene.passed(line)) > 1e-6;
  }
  EXPECT_LE(differing, 1) << "of 3000, but for a ray that grazes an edge within single precision; seed 18";
}

}  // namespace
}  // namespace sightfall::site
