// SPDX-License-Identifier: GPL-3.0-or-later
// Level tables of both editions of the standard, and what their densities mean on faces, plates and movers.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "camera/projection.h"
#include "detail/delivered.h"
#include "detail/test_ample.h"
#include "file/project.h"

namespace sightfall {
namespace {

using namespace units;
using geom::Vec3;

const detail::LevelTable* table_of(const std::string& name) {
  for (const detail::LevelTable& table : file::standard_level_tables())
    if (table.name == name) return &table;
  return nullptr;
}

struct Row {
  const char* level;
  double px_per_m, mm_per_px;
};

void expect_levels(const std::string& name, const std::vector<Row>& rows) {
  const detail::LevelTable* table = table_of(name);
  ASSERT_NE(table, nullptr) << name;
  ASSERT_EQ(table->levels.size(), rows.size());
  for (size_t i = 0; i < rows.size(); ++i) {
    EXPECT_EQ(table->levels[i].name, rows[i].level);
    EXPECT_NEAR(table->levels[i].least.in(px / m), rows[i].px_per_m, 1e-9) << rows[i].level;
    EXPECT_NEAR(1000 / table->levels[i].least.in(px / m), rows[i].mm_per_px, 5e-4) << rows[i].level;
  }
  EXPECT_NE(table->source.find(name), std::string::npos) << "the edition stands in the source";
  EXPECT_NE(table->source.find("second-hand"), std::string::npos) << "and that the paid text was not seen";
}

// IEC/EN 62676-4:2014 (withdrawn 9 October 2025), from memory and as public pages report it: the paid text was not
// seen.
TEST(Levels, OfTheFirstEdition) {
  expect_levels("2014", {{"monitor", 12.5, 80},
                         {"detect", 25, 40},
                         {"observe", 62.5, 16},
                         {"recognise", 125, 8},
                         {"identify", 250, 4},
                         {"inspect", 1000, 1}});
}

// IEC/EN 62676-4:2025 (edition 2, October 2025), likewise.
TEST(Levels, OfTheSecondEditionWhichIsTheDefault) {
  expect_levels("2025", {{"overview", 20, 50},
                         {"outline", 40, 25},
                         {"discern", 80, 12.5},
                         {"perceive", 125, 8},
                         {"characterise", 250, 4},
                         {"validate", 500, 2},
                         {"scrutinise", 1500, 0.667}});
  EXPECT_EQ(file::standard_level_tables().front().name, "2025");
}

/// A camera that has a density at a distance, so that an object there can be measured in its picture.
camera::Projector camera_with(PixelDensity density, Length distance) {
  return {.columns = 4001, .rows = 4001, .focal_px = density.si() * distance.si(), .largest = 80.0 * deg};
}

/// Pixels between the ends of an object of that size, square to the axis.
double pixels_across(PixelDensity density, Length size) {
  const Length distance = 12.0 * m;
  const camera::Projector p = camera_with(density, distance);
  const auto left = image_point(p, {-size.si() / 2, 0, distance.si()}),
             right = image_point(p, {size.si() / 2, 0, distance.si()});
  EXPECT_TRUE(left && right);
  return right->u - left->u;
}

void expect_pixels(Length size, const std::vector<double>& expected, double within) {
  const std::vector<double> densities{62.5, 125, 250, 500, 1000, 1500};
  for (size_t i = 0; i < densities.size(); ++i)
    EXPECT_NEAR(pixels_across(densities[i] * (px / m), size), expected[i], within) << densities[i] << " px/m";
}

// Dodgson, Variation and extrema of human interpupillary distance, Proc. SPIE 5291 (2004): mean 63 mm.
TEST(ObjectSize, EyesInPixels) {
  expect_pixels(63.0 * mm, {3.94, 7.88, 15.75, 31.5, 63.0, 94.5}, 0.006);
  // 90 px between the eyes (ICAO 9303 portraits, second-hand); 58.5 mm is the male 5th percentile of ANSUR II.
  EXPECT_NEAR(pixels_across(1428.6 * (px / m), 63.0 * mm), 90, 0.01);
  EXPECT_NEAR(pixels_across(1538.5 * (px / m), 58.5 * mm), 90, 0.01);
}

// ANSUR II (NATICK/TR-15/007): male mean head breadth 154.3 mm.
TEST(ObjectSize, HeadInPixels) { expect_pixels(154.3 * mm, {9.64, 19.29, 38.58, 77.2, 154.3, 231.5}, 0.06); }

// Road Vehicles (Display of Registration Marks) Regulations 2001 (UK), second-hand: characters 79 mm high, strokes 14
// mm.
TEST(ObjectSize, PlateInPixels) {
  expect_pixels(79.0 * mm, {4.94, 9.88, 19.75, 39.5, 79.0, 118.5}, 0.006);
  expect_pixels(14.0 * mm, {0.875, 1.75, 3.50, 7.0, 14.0, 21.0}, 0.001);
  EXPECT_NEAR(pixels_across(189.9 * (px / m), 79.0 * mm), 15, 0.01);
  EXPECT_NEAR(pixels_across(253.2 * (px / m), 79.0 * mm), 20, 0.01);
}

// A person of 1.70 m, from memory.
TEST(ObjectSize, PersonInPixels) { expect_pixels(1.70 * m, {106.25, 212.5, 425, 850, 1700, 2550}, 0.01); }

/// Metres under the table's own heights, which the same sources give.
TEST(ObjectSize, AssumedHeightsAreThoseOfTheSources) {
  const detail::Typical& typical = file::default_typical();
  EXPECT_NEAR(typical.height_plate.value.nominal, 0.079, 1e-9);
  EXPECT_NEAR(typical.height_plate.value.low, 0.064, 1e-9) << "a motorcycle's";
  EXPECT_NEAR(typical.height_person.value.nominal, 1.70, 1e-9);
  // ANSUR II: women's 5th percentile 1525 mm, men's 95th 1870 mm.
  EXPECT_NEAR(typical.height_person.value.low, 1.525, 0.01);
  EXPECT_NEAR(typical.height_person.value.high, 1.870, 0.01);
}

// Geometry, from memory: the vertical of an upright subject under a camera tilted by a is shortened to cos a.
TEST(Foreshortening, OfAnUprightSubjectUnderATiltedCamera) {
  struct Tilt {
    double degrees, cosine;
  };
  for (const auto& [degrees, cosine] :
       {Tilt{10, 0.9848}, Tilt{15, 0.9659}, Tilt{20, 0.9397}, Tilt{30, 0.8660}, Tilt{45, 0.7071}}) {
    const double a = degrees * deg.si();
    const auto j = jacobian(camera_with(250.0 * (px / m), 12.0 * m), {0, 0, 12});
    // Seen from above, the subject's vertical leans away from the camera: y down, z along the axis.
    const auto on = surface_density(j, {1, 0, 0}, {0, -std::cos(a), -std::sin(a)});
    EXPECT_NEAR(on.up / 250, cosine, 1e-4) << degrees;
    EXPECT_NEAR(on.least / 250, cosine, 1e-4) << degrees;
    EXPECT_NEAR(on.across / 250, 1, 1e-9) << degrees;
  }
}

/// What the kernel delivers of a mover at a density, everything else being ideal.
double delivered_of_mover(double density, double motion_density, Speed speed, Time shutter) {
  std::array<double, detail::kInputCount> v{};
  const auto set = [&](detail::Input input, double value) { v[static_cast<size_t>(input)] = value; };
  set(detail::Input::kThreshold, 0.2);
  set(detail::Input::kContrast, detail::kReferenceContrast);
  set(detail::Input::kLensBlur, detail::kReferenceBlur);
  set(detail::Input::kFNumber, 1e-6);
  set(detail::Input::kDensityFactor, 1);
  set(detail::Input::kFocus, 12);
  set(detail::Input::kShutter, shutter.si());
  set(detail::Input::kSpeed, speed.si());
  detail::set_ample_light(v);
  const detail::CameraConstants camera{.focal = 8e-3, .pitch = 2e-6};
  const detail::Seen seen{
      .density = density, .depth = 12, .motion_density = motion_density, .others = detail::kAmpleRate};
  return delivered(camera, seen, detail::Values{v});
}

/// The same from the length of the path alone.
double delivered_of_path(double density, double path_px) {
  const double nu =
      detail::resolved_frequency({.lens = detail::kReferenceBlur, .motion = path_px}, detail::kReferenceContrast, 0.2);
  return density * nu / detail::reference_frequency(0.2);
}

// Kinematics, from memory: v t cos q. 30 miles an hour is 13.4112 m/s.
TEST(MotionBlur, OfAVehicleAndAWalker) {
  struct Mover {
    double speed, shutter, path_px;
  };
  for (const auto& [speed, shutter, path_px] :
       {Mover{13.4112, 1.0 / 500, 6.71}, Mover{13.4112, 1.0 / 1000, 3.35}, Mover{1.4, 1.0 / 50, 7.0}}) {
    const double found = delivered_of_mover(250, 250, speed * (m / s), shutter * s);
    EXPECT_NEAR(found / delivered_of_path(250, path_px), 1, 0.002) << speed << " m/s at " << shutter << " s";
  }
}

TEST(MotionBlur, CountsWhatCrossesThePicture) {
  const auto j = jacobian(camera_with(250.0 * (px / m), 12.0 * m), {0, 0, 12});
  for (const double q : {0.0, 30.0, 60.0}) {
    const Vec3 heading{std::cos(q * deg.si()), 0, -std::sin(q * deg.si())};
    const double motion_density = std::hypot(dot(j.u, heading), dot(j.v, heading));
    const double found = delivered_of_mover(250, motion_density, 13.4112 * (m / s), 1.0 / 1000 * s);
    EXPECT_NEAR(found / delivered_of_path(250, 3.3528 * std::cos(q * deg.si())), 1, 1e-6) << q << " degrees";
  }
}

}  // namespace
}  // namespace sightfall
