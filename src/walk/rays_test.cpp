// SPDX-License-Identifier: GPL-3.0-or-later
// Rays taken between nodes against the lens's own, for each kind of lens; a row of them; the rim of a fisheye's circle.
#include "walk/rays.h"

#include <gtest/gtest.h>

#include <random>

#include "need/test_project.h"

namespace sightfall::walk {
namespace {

using namespace units;

struct Lens {
  const char* name;
  camera::Projector projector;
};

class RaysOf : public testing::TestWithParam<Lens> {
 protected:
  need::Station station() const {
    const need::Project project = need::plain_project();
    need::Station station = need::station_of(project, project.cameras.front());
    station.lens.projector = GetParam().projector;
    station.pose = geom::pose_of({3, 4, 5}, 30 * deg, 20 * deg, 3 * deg);
    return station;
  }
};

TEST_P(RaysOf, FallWithinTheirErrorOfThePixel) {
  const need::Station station = this->station();
  const camera::Projector& p = station.lens.projector;
  const Rays rays{station};
  std::mt19937 random{4};
  std::uniform_real_distribution<double> u{-0.5, p.columns - 0.5}, v{-0.5, p.rows - 0.5};
  int rayed = 0;
  for (int i = 0; i < 20000; ++i) {
    const geom::ImagePoint at{u(random), v(random)};
    const auto ray = rays.through(at);
    ASSERT_EQ(ray.has_value(), camera::ray_camera(p, at).has_value()) << at.u << " " << at.v;
    if (!ray) continue;
    ++rayed;
    EXPECT_NEAR(geom::norm(*ray), 1, 1e-12);
    const auto back = camera::image_point(p, station.pose.camera_from_site * *ray);
    if (!back) continue;  // on the very rim
    const double error = kRayError.si() * (p.mapping == camera::Mapping::kFisheye ? 1 : 0.2);
    EXPECT_LT(std::hypot(back->u - at.u, back->v - at.v), error) << at.u << " " << at.v;
  }
  EXPECT_GT(rayed, 10000);
}

TEST_P(RaysOf, RowsAreTheSameRays) {
  const need::Station station = this->station();
  const Rays rays{station};
  for (const Raster raster : {Raster{0, 0, 400, 300, 1}, Raster{101, 57, 500, 250, 5}, Raster{390, 290, 10, 10, 1}})
    for (const int row : {0, 7, raster.rows - 1}) {
      std::vector<float> x(static_cast<size_t>(raster.columns)), y(x), z(x);
      if (!rays.row(raster, 0, row, raster.columns, x.data(), y.data(), z.data())) continue;
      for (int c = 0; c < raster.columns; ++c) {
        const auto one = rays.through(raster.at(c, row));
        ASSERT_TRUE(one);
        const auto i = static_cast<size_t>(c);
        EXPECT_NEAR(x[i], one->x, 2e-7);
        EXPECT_NEAR(y[i], one->y, 2e-7);
        EXPECT_NEAR(z[i], one->z, 2e-7);
      }
    }
}

INSTANTIATE_TEST_SUITE_P(
    EveryLens, RaysOf,
    testing::Values(Lens{"pinhole", {camera::Mapping::kBrown, 1920, 1080, 1200, {}, Angle{1.2}}},
                    Lens{"barrel",
                         {camera::Mapping::kBrown, 1920, 1080, 1100, {-0.2, 0.04, 0.001, -0.001, 0}, Angle{1.2}}},
                    Lens{"fisheye", {camera::Mapping::kFisheye, 1600, 1600, 560, {0.01, -0.015, 0, 0}, Angle{1.62}}}),
    [](const auto& info) { return std::string{info.param.name}; });

}  // namespace
}  // namespace sightfall::walk
