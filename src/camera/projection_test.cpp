// SPDX-License-Identifier: GPL-3.0-or-later
// Projection by pencil, there and back over the picture, and its derivatives against central differences.
#include "camera/projection.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

namespace sightfall::camera {
namespace {

using namespace units;
using geom::ImagePoint;
using geom::Vec3;

Projector limited(Projector p, Angle limit) {
  p.largest = monotone_to(p, limit);
  return p;
}

Projector brown(const std::array<double, 5>& k) {
  return limited({.columns = 1921, .rows = 1081, .focal_px = 1400, .k = k}, 80.0 * deg);
}

Projector fisheye(const std::array<double, 5>& k, double focal_px = 800) {
  return limited({.mapping = Mapping::kFisheye, .columns = 1921, .rows = 1081, .focal_px = focal_px, .k = k},
                 100.0 * deg);
}

struct Named {
  std::string name;
  Projector projector;
};

std::vector<Named> every_form() {
  return {{"pinhole", brown({})},
          {"barrel", brown({-0.25, 0.06, 0, 0, -0.004})},
          {"pincushion", brown({0.1, 0.02, 0, 0, 0.01})},
          {"barrel, decentred", brown({-0.2, 0.05, 0.002, -0.003, 0})},
          {"equidistant", fisheye({})},
          {"fisheye", fisheye({-0.04, 0.006, -0.003, 0.0004})},
          {"fisheye that stretches its rim", fisheye({0.05, 0.004, 0.001, 0})}};
}

TEST(ImagePoint, PinholeByPencil) {
  const Projector p = brown({});
  const auto at = image_point(p, {1, -0.5, 10});
  ASSERT_TRUE(at);
  EXPECT_NEAR(at->u, 960 + 140, 1e-9) << "right of the middle";
  EXPECT_NEAR(at->v, 540 - 70, 1e-9) << "y runs down, so a point above the axis is higher in the picture";
  EXPECT_FALSE(image_point(p, {0, 0, -10})) << "behind the camera";
  EXPECT_FALSE(image_point(p, {1, 0, 0})) << "beside the camera";
  EXPECT_FALSE(image_point(p, {6, 0, 1})) << "80.5 degrees off the axis, farther than the largest angle";
  EXPECT_TRUE(image_point(p, {5, 0, 1})) << "78.7 degrees: out of the picture, but a point all the same";
}

TEST(ImagePoint, PinholeHasNothingBehindItWhateverItsLimit) {
  Projector p = brown({});
  p.largest = 120.0 * deg;
  EXPECT_FALSE(image_point(p, {1, 0, 0}));
  EXPECT_FALSE(image_point(p, {1, 0, -0.1}));
}

TEST(ImagePoint, BrownByPencil) {
  // x = 0.2, y = 0.1: r2 = 0.05; radial = 1 + 0.05 k1 + 0.0025 k2 + 0.000125 k3.
  const Projector p = brown({-0.2, 0.4, 0.01, -0.02, 0.8});
  const double radial = 1 - 0.01 + 0.001 + 0.0001;
  const double x = 0.2 * radial + 2 * 0.01 * 0.02 - 0.02 * (0.05 + 0.08);
  const double y = 0.1 * radial + 0.01 * (0.05 + 0.02) - 2 * 0.02 * 0.02;
  const auto at = image_point(p, {2, 1, 10});
  ASSERT_TRUE(at);
  EXPECT_NEAR(at->u, 960 + 1400 * x, 1e-9);
  EXPECT_NEAR(at->v, 540 + 1400 * y, 1e-9);
}

TEST(ImagePoint, FisheyeByPencil) {
  const double quarter = std::numbers::pi / 2;
  const auto side = image_point(fisheye({}), {-3, 0, 0});
  ASSERT_TRUE(side) << "a fisheye sees at right angles to its axis";
  EXPECT_NEAR(side->u, 960 - 800 * quarter, 1e-9);
  EXPECT_NEAR(side->v, 540, 1e-9);
  const auto behind = image_point(fisheye({}), {0, 1, -0.1});
  ASSERT_TRUE(behind) << "and a little behind";
  EXPECT_NEAR(behind->v, 540 + 800 * (quarter + std::atan(0.1)), 1e-9);
  EXPECT_FALSE(image_point(fisheye({}), {0, 1, -0.2})) << "101.3 degrees, past the largest angle";
  const double t = std::numbers::pi / 4;
  const auto bent = image_point(fisheye({-0.04, 0.006, -0.003, 0.0004}), {0, 2, 2});
  ASSERT_TRUE(bent);
  const double t2 = t * t;
  EXPECT_NEAR(bent->v,
              540 + 800 * t * (1 - 0.04 * t2 + 0.006 * t2 * t2 - 0.003 * t2 * t2 * t2 + 0.0004 * t2 * t2 * t2 * t2),
              1e-9);
  const auto ahead = image_point(fisheye({}), {0, 0, 5});
  ASSERT_TRUE(ahead);
  EXPECT_NEAR(ahead->u, 960, 1e-12);
}

TEST(InPicture, EndsAtTheOuterEdgeOfTheLastPixels) {
  const Projector p = brown({});
  EXPECT_TRUE(in_picture(p, {-0.5, -0.5}));
  EXPECT_TRUE(in_picture(p, {1920.5, 1080.5}));
  EXPECT_FALSE(in_picture(p, {-0.51, 500}));
  EXPECT_FALSE(in_picture(p, {1920.51, 500}));
  EXPECT_FALSE(in_picture(p, {500, -0.51}));
  EXPECT_FALSE(in_picture(p, {500, 1080.51}));
}

TEST(RayCamera, PixelToRayToPixelOverThePicture) {
  for (const auto& [name, p] : every_form()) {
    int found = 0;
    for (int i = 0; i <= 48; ++i)
      for (int j = 0; j <= 36; ++j) {
        const ImagePoint at{-0.5 + p.columns * i / 48.0, -0.5 + p.rows * j / 36.0};
        const auto ray = ray_camera(p, at);
        ASSERT_TRUE(ray) << name << " at " << at.u << ", " << at.v;
        EXPECT_NEAR(norm(*ray), 1, 1e-12);
        const auto back = image_point(p, 7.0 * *ray);
        ASSERT_TRUE(back) << name << " at " << at.u << ", " << at.v;
        EXPECT_LT(std::hypot(back->u - at.u, back->v - at.v), kRoundTripError.si()) << name;
        ++found;
      }
    EXPECT_EQ(found, 49 * 37) << name;
  }
}

TEST(RayCamera, RayToPixelToRayIsTheSameRay) {
  std::mt19937 random{11};
  std::uniform_real_distribution<double> angle{0, 1}, turn{0, 2 * std::numbers::pi};
  for (const auto& [name, p] : every_form())
    for (int i = 0; i < 500; ++i) {
      // A decentred form folds at different angles round the axis, so keep well within the least of them.
      const double theta = angle(random) * 0.7 * p.largest.si(), phi = turn(random);
      const Vec3 ray{std::sin(theta) * std::cos(phi), std::sin(theta) * std::sin(phi), std::cos(theta)};
      const auto at = image_point(p, ray);
      ASSERT_TRUE(at) << name;
      const auto back = ray_camera(p, *at);
      ASSERT_TRUE(back) << name << " theta " << theta;
      EXPECT_LT(norm(*back - ray), 1e-8) << name << " theta " << theta << " phi " << phi;
    }
}

TEST(RayCamera, NoRayFallsPastTheLargestAngle) {
  const Projector p = fisheye({});
  const double rim = 800 * p.largest.si();
  EXPECT_TRUE(ray_camera(p, {960 + rim - 0.01, 540}));
  EXPECT_FALSE(ray_camera(p, {960 + rim + 0.01, 540}));
  const Projector barrel = brown({-0.25, 0, 0, 0, 0});
  // x (1 - x^2 / 4) is greatest at x = 2 / sqrt(3), where it is 0.7698; no ray falls farther out.
  EXPECT_TRUE(ray_camera(barrel, {960 + 1400 * 0.769, 540}));
  EXPECT_FALSE(ray_camera(barrel, {960 + 1400 * 0.771, 540}));
}

/// d(u,v)/d(axis) by a central difference.
ImagePoint slope(const Projector& p, Vec3 at, Vec3 axis) {
  const double step = 1e-5 * norm(at);
  const auto ahead = image_point(p, at + step * axis), back = image_point(p, at + -step * axis);
  EXPECT_TRUE(ahead && back);
  return {(ahead->u - back->u) / (2 * step), (ahead->v - back->v) / (2 * step)};
}

TEST(Jacobian, AgreesWithCentralDifferences) {
  constexpr unsigned kSeed = 12;
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> share{0, 1}, turn{0, 2 * std::numbers::pi}, far{0.5, 200};
  for (const auto& [name, p] : every_form())
    for (int i = 0; i < 300; ++i) {
      const double theta = 0.9 * share(random) * p.largest.si(), phi = turn(random), d = far(random);
      const Vec3 at{d * std::sin(theta) * std::cos(phi), d * std::sin(theta) * std::sin(phi), d * std::cos(theta)};
      const PointJacobian j = jacobian(p, at);
      const ImagePoint x = slope(p, at, {1, 0, 0}), y = slope(p, at, {0, 1, 0}), z = slope(p, at, {0, 0, 1});
      const double close = 1e-5 * p.focal_px / (d * std::cos(std::min(theta, 1.4)));
      EXPECT_LT(norm(j.u - Vec3{x.u, y.u, z.u}), close) << name << " seed " << kSeed << " case " << i;
      EXPECT_LT(norm(j.v - Vec3{x.v, y.v, z.v}), close) << name << " seed " << kSeed << " case " << i;
    }
}

TEST(Jacobian, IsContinuousOnTheAxis) {
  for (const auto& [name, p] : every_form()) {
    const PointJacobian on = jacobian(p, {0, 0, 20}), near = jacobian(p, {1e-6, -2e-6, 20});
    EXPECT_NEAR(on.u.x, p.focal_px / 20, 1e-9) << name;
    EXPECT_NEAR(on.v.y, p.focal_px / 20, 1e-9) << name;
    EXPECT_LT(norm(on.u - near.u), 1e-4) << name;
    EXPECT_LT(norm(on.v - near.v), 1e-4) << name;
  }
}

TEST(Jacobian, DoesNotGrowAlongTheRay) {
  for (const auto& [name, p] : every_form()) {
    const Vec3 at{2, -1, 7};
    const PointJacobian j = jacobian(p, at);
    EXPECT_NEAR(dot(j.u, at), 0, 1e-9) << name << ": a point moved along its ray stays where it is in the picture";
    EXPECT_NEAR(dot(j.v, at), 0, 1e-9) << name;
    const PointJacobian twice = jacobian(p, 2.0 * at);
    EXPECT_LT(norm(j.u - 2.0 * twice.u), 1e-9) << name << ": twice as far, half as many pixels a metre";
  }
}

TEST(SurfaceDensity, OfAPinholeByPencil) {
  const PointJacobian j = jacobian(brown({}), {0, 0, 20});
  const SurfaceDensity facing = surface_density(j, {1, 0, 0}, {0, 1, 0});
  EXPECT_NEAR(facing.least, 70, 1e-9);
  EXPECT_NEAR(facing.across, 70, 1e-9);
  EXPECT_NEAR(facing.up, 70, 1e-9);
  EXPECT_NEAR(facing.determinant, 4900, 1e-9);
  const double tilt = 60 * std::numbers::pi / 180;
  const SurfaceDensity leaning = surface_density(j, {1, 0, 0}, {0, std::cos(tilt), std::sin(tilt)});
  EXPECT_NEAR(leaning.least, 35, 1e-9) << "foreshortened by the cosine";
  EXPECT_NEAR(leaning.up, 35, 1e-9);
  EXPECT_NEAR(leaning.across, 70, 1e-9);
  const SurfaceDensity edge_on = surface_density(j, {1, 0, 0}, {0, 0, 1});
  EXPECT_NEAR(edge_on.least, 0, 1e-12);
}

/// The least |J d| over directions d of the surface.
double least_over_directions(const PointJacobian& j, Vec3 across, Vec3 up) {
  double least = 1e300;
  for (int i = 0; i < 20000; ++i) {
    const double a = std::numbers::pi * i / 20000;
    const Vec3 d = std::cos(a) * across + std::sin(a) * up;
    least = std::min(least, std::hypot(dot(j.u, d), dot(j.v, d)));
  }
  return least;
}

TEST(SurfaceDensity, IsTheLeastOverAllDirections) {
  constexpr unsigned kSeed = 13;
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> any{-1, 1};
  for (const auto& [name, p] : every_form())
    for (int i = 0; i < 20; ++i) {
      const Vec3 normal = geom::unit(Vec3{any(random), any(random), any(random)});
      const Vec3 across = geom::unit(cross(normal, std::abs(normal.x) < 0.5 ? Vec3{1, 0, 0} : Vec3{0, 1, 0}));
      const Vec3 up = cross(normal, across);
      const PointJacobian j = jacobian(p, {3 * any(random), 3 * any(random), 8});
      const SurfaceDensity density = surface_density(j, across, up);
      EXPECT_NEAR(density.least, least_over_directions(j, across, up), 1e-4 * p.focal_px / 8)
          << name << " seed " << kSeed << " case " << i;
      const Vec3 turned_across = 0.6 * across + 0.8 * up, turned_up = -0.8 * across + 0.6 * up;
      const SurfaceDensity turned = surface_density(j, turned_across, turned_up);
      EXPECT_NEAR(turned.least, density.least, 1e-9 * p.focal_px) << name << ": whichever pair spans the surface";
      EXPECT_NEAR(turned.determinant, density.determinant, 1e-9 * p.focal_px * p.focal_px) << name;
    }
}

TEST(Views, OfAPinholeByPencil) {
  const Projector p = brown({});
  EXPECT_NEAR(horizontal_view(p).si(), 2 * std::atan(1921 / 2800.0), 1e-12);
  EXPECT_NEAR(vertical_view(p).si(), 2 * std::atan(1081 / 2800.0), 1e-12);
  const Projector round = fisheye({});
  EXPECT_NEAR(horizontal_view(round).si(), 1921 / 800.0, 1e-12);
  EXPECT_NEAR(vertical_view(round).si(), 1081 / 800.0, 1e-12);
  Projector circle = fisheye({}, 400);
  circle.largest = 90.0 * deg;
  EXPECT_NEAR(horizontal_view(circle).in(deg), 180, 1e-9) << "no ray reaches the picture's edge: the circle's width";
  EXPECT_NEAR(vertical_view(circle).si(), 1081 / 400.0, 1e-12);
}

TEST(RadialScale, IsTheJacobianAlongAndAcrossTheRadius) {
  for (const auto& [name, p] : every_form()) {
    if (p.k[2] != 0 && p.mapping == Mapping::kBrown) continue;  // decentred: not radial
    for (const double share : {0.0, 0.1, 0.4, 0.7, 0.9}) {
      const double theta = share * p.largest.si();
      const PointJacobian j = jacobian(p, {std::sin(theta), 0, std::cos(theta)});
      const RadialScale scale = radial_scale(p, Angle{theta});
      EXPECT_NEAR(scale.along, dot(j.u, Vec3{std::cos(theta), 0, -std::sin(theta)}), 1e-6 * p.focal_px) << name;
      EXPECT_NEAR(scale.across, j.v.y, 1e-6 * p.focal_px) << name;
    }
  }
}

TEST(MonotoneTo, StopsJustBeforeTheMappingFolds) {
  // x (1 + k1 x^2) turns at x = 1 / sqrt(-3 k1).
  const Projector p{.columns = 100, .rows = 100, .focal_px = 100, .k = {-0.3, 0, 0, 0, 0}};
  const double fold = std::atan(1 / std::sqrt(0.9));
  const Angle limit = 89.0 * deg;
  const double found = monotone_to(p, limit).si();
  EXPECT_LT(found, fold);
  EXPECT_GT(found, fold - limit.si() / 1000);
  EXPECT_EQ(monotone_to(p, 30.0 * deg), 30.0 * deg) << "it grows all the way";
  // theta (1 + k1 theta^2) turns at theta = 1 / sqrt(-3 k1).
  const Projector round{
      .mapping = Mapping::kFisheye, .columns = 100, .rows = 100, .focal_px = 100, .k = {-0.2, 0, 0, 0, 0}};
  EXPECT_NEAR(monotone_to(round, 170.0 * deg).si(), 1 / std::sqrt(0.6), 170 * deg.si() / 1000);
}

}  // namespace
}  // namespace sightfall::camera
