// SPDX-License-Identifier: GPL-3.0-or-later
// Distances on the WGS84 ellipsoid from its radii of curvature, integrated here, against the site frame.
//   Source   NGA.STND.0036_1.0.0_WGS84 (2014): a = 6378137 m, 1/f = 298.257223563; the radii of curvature of the
//            meridian and the prime vertical are textbook formulae (Bomford, Geodesy)
#include "import/map_frame.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::import {
namespace {

using namespace sightfall::units;

constexpr double kSemiMajor = 6378137, kFlattening = 1 / 298.257223563;
constexpr double kEccentricity2 = kFlattening * (2 - kFlattening);
constexpr const char* kDegrees = "EPSG:4326";

double prime_vertical(double latitude) {
  return kSemiMajor / std::sqrt(1 - kEccentricity2 * std::pow(std::sin(latitude), 2));
}

double meridian_radius(double latitude) {
  return kSemiMajor * (1 - kEccentricity2) / std::pow(1 - kEccentricity2 * std::pow(std::sin(latitude), 2), 1.5);
}

double meridian_arc(double from, double to) {
  constexpr int kSteps = 1000;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) sum += meridian_radius(from + (i + 0.5) / kSteps * (to - from));
  return sum * (to - from) / kSteps;
}

site::Anchor anchor_at(double latitude_deg, double longitude_deg, double turn_deg = 0) {
  site::Anchor anchor;
  anchor.latitude = latitude_deg * deg;
  anchor.longitude = longitude_deg * deg;
  anchor.turn = turn_deg * deg;
  return anchor;
}

MapFrame frame_at(const site::Anchor& anchor, const char* crs = kDegrees) {
  Result<MapFrame> frame = MapFrame::between(crs, anchor);
  EXPECT_TRUE(frame) << to_line(frame.error());
  return std::move(*frame);
}

geom::PlanPoint placed(const MapFrame& frame, geom::PlanPoint point) {
  frame.to_site({&point, 1});
  return point;
}

TEST(MapFrame, north_is_the_arc_of_the_meridian) {
  for (const double latitude : {-45.0, 0.0, 47.0, 65.0}) {
    const geom::PlanPoint p = placed(frame_at(anchor_at(latitude, 9.5)), {9.5, latitude + 0.1});
    EXPECT_NEAR(p.x, 0, 1e-6);
    EXPECT_NEAR(p.y, meridian_arc((latitude * deg).si(), ((latitude + 0.1) * deg).si()), 1e-4) << latitude;
  }
}

TEST(MapFrame, east_is_the_arc_of_the_parallel) {
  for (const double latitude : {-45.0, 0.0, 47.0, 65.0}) {
    const double phi = (latitude * deg).si();
    const geom::PlanPoint p = placed(frame_at(anchor_at(latitude, 9.5)), {9.51, latitude});
    const double east = prime_vertical(phi) * std::cos(phi) * (0.01 * deg).si();
    EXPECT_NEAR(p.x, east, 1e-3) << latitude;
    EXPECT_NEAR(p.y, east * east * std::tan(phi) / (2 * prime_vertical(phi)), 1e-4) << "the parallel bends to the pole";
  }
}

TEST(MapFrame, lengths_at_the_edge_of_reach_are_within_the_stated_error) {
  const double latitude = 47, phi = (latitude * deg).si();
  const MapFrame frame = frame_at(anchor_at(latitude, 9.5));
  const double away = (kMostReach.in(m) / (prime_vertical(phi) * std::cos(phi))) * rad / deg;
  const double step = 0.001;
  const geom::PlanPoint a = placed(frame, {9.5 + away, latitude}), b = placed(frame, {9.5 + away, latitude + step});
  const double stretch = norm(b - a) / meridian_arc(phi, phi + (step * deg).si()) - 1;
  EXPECT_GT(stretch, 4e-6) << "half the square of the distance over the earth's radius";
  EXPECT_LT(stretch, kMostScaleError);
}

TEST(MapFrame, a_turned_frame_has_true_north_at_its_turn) {
  const geom::PlanPoint north = placed(frame_at(anchor_at(47, 9.5, 30)), {9.5, 47.01});
  EXPECT_NEAR(std::atan2(north.x, north.y), (30 * deg).si(), 1e-9) << "clockwise from the y axis";
  const geom::PlanPoint east = placed(frame_at(anchor_at(47, 9.5, 90)), {9.501, 47});
  EXPECT_LT(east.y, 0) << "true north lies along x, so east points down";
}

TEST(MapFrame, there_and_back_again) {
  constexpr double kThereAndBack =
      2e-3;  // the Swiss datum's shift by seven parameters is not its own inverse to 1.3 mm
  for (const char* crs : {kDegrees, "EPSG:32632", "EPSG:2056"}) {
    const MapFrame frame = frame_at(anchor_at(47.14, 9.52, -73), crs);
    std::vector<geom::PlanPoint> points{{0, 0}, {5000, -3000}, {-10, 19'000}};
    const std::vector<geom::PlanPoint> before = points;
    frame.to_map(points);
    frame.to_site(points);
    for (size_t i = 0; i < points.size(); ++i) EXPECT_LT(norm(points[i] - before[i]), kThereAndBack) << crs << " " << i;
  }
}

TEST(MapFrame, the_date_line_is_no_border) {
  const geom::PlanPoint p = placed(frame_at(anchor_at(-17, 179.999)), {-179.999, -17});
  EXPECT_NEAR(p.x, prime_vertical((17 * deg).si()) * std::cos((17 * deg).si()) * (0.002 * deg).si(), 0.01);
  const auto anchor = anchor_for({}, kDegrees, {{179.9, -17}, {-179.9, -17}});
  ASSERT_TRUE(anchor);
  EXPECT_NEAR(std::abs(anchor->longitude.in(deg)), 180, 1e-6);
  EXPECT_NEAR(anchor->latitude.in(deg), -17, 1e-3);
}

TEST(MapFrame, places_off_the_earth_become_nan) {
  EXPECT_TRUE(std::isnan(placed(frame_at(anchor_at(52, 4)), {85'000, 446'000}).x));
  EXPECT_FALSE(anchor_for({}, kDegrees, {{85'000, 446'000}}));
}

TEST(MapFrame, a_map_is_named_by_its_number) {
  EXPECT_EQ(crs_named("EPSG:28992"), "EPSG:28992");
  for (const char* name : {"", "EPSG:", "EPSG:999999", "EPSG:12345678901", "28992", "/etc/passwd", "http://localhost/",
                           "EPSG:-1", "EPSG:4326;"}) {
    const auto refused = crs_named(name);
    ASSERT_FALSE(refused) << name;
    EXPECT_NE(refused.error().text.find("EPSG:28992"), std::string::npos) << "the error shows how one is written";
  }
}

TEST(MapFrame, text_that_is_no_map_is_an_error) {
  EXPECT_FALSE(MapFrame::between("PROJCRS[nonsense", anchor_at(0, 0)));
}

TEST(MapFrame, places_read_as_people_write_them) {
  EXPECT_EQ(place_text(anchor_at(-7.995184, -34.871077)), "7.995184 S 34.871077 W");
}

}  // namespace
}  // namespace sightfall::import
