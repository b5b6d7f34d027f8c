// SPDX-License-Identifier: GPL-3.0-or-later
// The rolling shutter's lean against its closed form, and bands against a lamp's light added up over each row's
// exposure.
#include "walk/rolling.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "detail/sensor.h"
#include "walk/test_yard.h"

namespace sightfall::walk {
namespace {

using namespace units;

geom::ImagePoint seen_at(const need::Station& station, geom::SitePoint at) {
  return camera::image_point(station.lens.projector, station.pose.camera_from_site * (at - station.pose.eye_site))
      .value();
}

TEST(Lean, APostThatCrossesLeansAsTheClosedFormSays) {
  const Yard yard{1920, 1080};
  const need::Station& station = yard.station;
  geom::Mesh post;
  for (const double up : {0.2, 1.0, 1.8}) post.add({0, 14, up});  // straight ahead of the camera
  const geom::SitePoint middle = post.vertices[1];
  const double still = seen_at(station, middle).v;
  const geom::Vec3 velocity{12, 0, 0};
  const double pixels_a_second = (seen_at(station, middle + 0.01 * velocity).u - seen_at(station, middle).u) / 0.01;
  const geom::Mesh upright = post;
  lean(post, station, velocity, 20 * ms, still);
  EXPECT_NEAR(geom::norm(post.vertices[1] - middle), 0, 1e-9) << "the row that it is told for";
  const auto top = seen_at(station, post.vertices[2]), foot = seen_at(station, post.vertices[0]);
  const double by_itself = (seen_at(station, upright.vertices[2]).u - seen_at(station, upright.vertices[0]).u);
  const double slope = detail::rolling_lean(pixels_a_second, 0.020, 1080);
  EXPECT_GT(std::abs(slope), 0.005);
  EXPECT_NEAR((foot.u - top.u + by_itself) / (foot.v - top.v), slope, 0.05 * slope);
}

TEST(Lean, WhatStandsStaysAsItIs) {
  const Yard yard{320, 240};
  const SubjectMesh person = Yard::walker_at(0, 12).mesh;
  geom::Mesh moved = person.mesh;
  lean(moved, yard.station, {0, 0, 0}, 30 * ms, 100);
  for (size_t i = 0; i < moved.vertices.size(); ++i) EXPECT_EQ(moved.vertices[i].x, person.mesh.vertices[i].x);
}

TEST(Bands, AreTheLampsLightOverEachRowsExposure) {
  constexpr double kRate = 100;
  for (const double exposed : {0.0005, 0.002, 0.007, 0.013}) {
    const RowTimes times{0.0031, 0.024, exposed, 240};
    const std::vector<float> swing = swing_by_row(times, kRate);
    ASSERT_EQ(swing.size(), 240);
    for (const size_t row : {size_t{0}, size_t{77}, size_t{239}}) {
      constexpr int kSteps = 2000;
      const double from = times.begin + times.readout * static_cast<double>(row) / 240;
      double sum = 0;
      for (int i = 0; i < kSteps; ++i)
        sum += std::cos(2 * std::numbers::pi * kRate * (from + exposed * (i + 0.5) / kSteps));
      EXPECT_NEAR(swing[row], sum / kSteps, 1e-4) << exposed << " s, row " << row;
    }
  }
}

TEST(Bands, TwoAndABitAtTwentyFourMillisecondsOfReadout) {
  const std::vector<float> swing = swing_by_row({0, 0.024, 0.001, 2160}, 100);
  int crests = 0;
  for (size_t i = 1; i + 1 < swing.size(); ++i)
    if (swing[i] > swing[i - 1] && swing[i] >= swing[i + 1]) ++crests;
  EXPECT_EQ(crests, 2);
  EXPECT_GT(*std::max_element(swing.begin(), swing.end()), 0.95F);
  EXPECT_LT(*std::min_element(swing.begin(), swing.end()), -0.95F);
}

TEST(Bands, NoneAtAWholeSwing) {
  for (const double exposed : {0.01, 0.02, 0.04})
    for (const float left : swing_by_row({0.001, 0.02, exposed, 50}, 100)) EXPECT_NEAR(left, 0, 1e-6) << exposed;
}

}  // namespace
}  // namespace sightfall::walk
