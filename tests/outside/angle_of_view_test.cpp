// SPDX-License-Identifier: GPL-3.0-or-later
// Angles of view and optical formats as published.
#include <gtest/gtest.h>

#include <cmath>

#include "camera/lens.h"

namespace sightfall::camera {
namespace {

using namespace units;

Sheet sheet_of(double focal_mm, double width_mm) {
  Sheet sheet;
  sheet.columns = 3000;
  sheet.rows = 2000;
  sheet.focal = {focal_mm * mm, focal_mm * mm};
  sheet.active_width = width_mm * mm;
  return sheet;
}

double view_deg(double focal_mm, double width_mm) {
  const Sheet sheet = sheet_of(focal_mm, width_mm);
  return horizontal_view(lens_at(sheet, {.focal = sheet.focal.wide}).projector).in(deg);
}

// DGUV Information 215-612, annex 6: a frame 36 mm wide, angles rounded to whole degrees.
TEST(AngleOfView, OfTheThirtySixMillimetreFrame) {
  struct Row {
    double focal_mm, printed, exact;  // exact: 2 atan(w / 2 f), by pencil
  };
  for (const auto& [focal_mm, printed, exact] : {Row{24, 74, 73.7}, Row{28, 65, 65.5}, Row{35, 54, 54.4},
                                                 Row{50, 40, 39.6}, Row{85, 24, 23.9}, Row{100, 20, 20.4}}) {
    EXPECT_NEAR(view_deg(focal_mm, 36), printed, 0.51) << focal_mm << " mm";
    EXPECT_NEAR(view_deg(focal_mm, 36), exact, 0.051) << focal_mm << " mm";
  }
}

// 2 atan(w / 2 f), from memory.
TEST(AngleOfView, OfSmallSensors) {
  EXPECT_NEAR(view_deg(4.0, 4.8), 61.928, 1e-3);
  EXPECT_NEAR(view_deg(2.8, 4.8), 81.203, 1e-3);
  EXPECT_NEAR(view_deg(8.0, 6.4), 43.603, 1e-3);
}

double diagonal_mm(const std::string& format) {
  const auto size = nominal_format(format);
  EXPECT_TRUE(size) << format;
  return size ? std::hypot(size->width.in(mm), size->height.in(mm)) : 0;
}

// Encyclopaedia texts on image sensor formats: 6.4 x 4.8 mm has a diagonal of 8.0 mm and is called 1/2 inch; 1 inch has
// 16 mm. The name is not the diagonal: that is about 16 mm an inch of it, not 25.4.
TEST(OpticalFormat, DiagonalIsAboutSixteenMillimetresAnInch) {
  EXPECT_NEAR(diagonal_mm("1/2"), 8.0, 1e-9);
  EXPECT_NEAR(nominal_format("1/2")->width.in(mm), 6.4, 1e-12);
  EXPECT_NEAR(nominal_format("1/2")->height.in(mm), 4.8, 1e-12);
  EXPECT_NEAR(diagonal_mm("1"), 16, 1e-9);
  for (const std::string& format : known_formats()) {
    const size_t slash = format.find('/');
    const double inches = slash == std::string::npos
                              ? std::stod(format)
                              : std::stod(format.substr(0, slash)) / std::stod(format.substr(slash + 1));
    EXPECT_LT(diagonal_mm(format) / inches, 0.75 * 25.4) << format;
  }
}

// The same texts: format in inches = p sqrt(w^2 + h^2) / 16000, p the pixel pitch in micrometres.
TEST(OpticalFormat, FollowsFromPitchAndPixels) {
  Sheet sheet = sheet_of(8, 1);
  sheet.active_width.reset();
  for (const auto& [format, inches] : {std::pair{"1/2", 1.0 / 2}, std::pair{"1/1.8", 1 / 1.8},
                                       std::pair{"1/1.7", 1 / 1.7}, std::pair{"1/1.2", 1 / 1.2}, std::pair{"1", 1.0}}) {
    sheet.optical_format = format;
    for (const auto& [columns, rows] : {std::pair{1600, 1200}, std::pair{1920, 1080}}) {
      sheet.columns = columns;
      sheet.rows = rows;
      const double pitch_um = lens_at(sheet, {.focal = sheet.focal.wide}).pitch().in(um / px);
      EXPECT_NEAR(pitch_um * std::hypot(columns, rows) / 16000 / inches, 1, 0.01) << format;
    }
  }
}

}  // namespace
}  // namespace sightfall::camera
