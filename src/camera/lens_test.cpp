// SPDX-License-Identifier: GPL-3.0-or-later
// What a sheet says and what follows where it is silent: which width wins, angles met at the picture's edge, zooms.
#include "camera/lens.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace sightfall::camera {
namespace {

using namespace units;

Sheet sheet_of(double focal_mm) {
  Sheet sheet;
  sheet.columns = 2560;
  sheet.rows = 1440;
  sheet.focal = {focal_mm * mm, focal_mm * mm};
  return sheet;
}

Sheet zoom_of(double wide_mm, double tele_mm, double wide_deg, double tele_deg) {
  Sheet sheet = sheet_of(wide_mm);
  sheet.focal.tele = tele_mm * mm;
  sheet.view = Ends<Angle>{wide_deg * deg, tele_deg * deg};
  return sheet;
}

void state_view(Sheet& sheet, double degrees) { sheet.view = Ends<Angle>{degrees * deg, degrees * deg}; }

Lens at(const Sheet& sheet, Length focal) { return lens_at(sheet, {.focal = focal}); }
Lens at_wide(const Sheet& sheet) { return at(sheet, sheet.focal.wide); }

double view_deg(const Lens& lens) { return horizontal_view(lens.projector).in(deg); }

TEST(ActiveWidth, StatedViewWinsOverStatedWidthOverFormat) {
  Sheet sheet = sheet_of(6);
  sheet.optical_format = "1/3";
  Lens lens = at_wide(sheet);
  EXPECT_EQ(lens.width_source, WidthSource::kNominalFormat);
  EXPECT_NEAR(lens.active_width.in(mm), 6.0 * 16 / std::hypot(16, 9), 1e-9) << "16:9 on the 6 mm diagonal of 4.8 x 3.6";

  sheet.active_width = 5.0 * mm;
  lens = at_wide(sheet);
  EXPECT_EQ(lens.width_source, WidthSource::kStatedWidth);
  EXPECT_NEAR(lens.active_width.in(mm), 5.0, 1e-12);
  EXPECT_NEAR(view_deg(lens), 2 * std::atan(5.0 / 12) / deg.si(), 1e-9);

  state_view(sheet, 50);
  lens = at_wide(sheet);
  EXPECT_EQ(lens.width_source, WidthSource::kStatedView);
  EXPECT_NEAR(lens.active_width.in(mm), 12 * std::tan(25 * deg.si()), 1e-9);
  EXPECT_NEAR(view_deg(lens), 50, 1e-9);
}

TEST(ActiveWidth, PitchIsTheWidthOverThePixels) {
  Sheet sheet = sheet_of(6);
  sheet.active_width = 5.12 * mm;
  const Lens lens = at_wide(sheet);
  EXPECT_NEAR(lens.pitch().in(um / px), 2.0, 1e-12);
  EXPECT_NEAR(lens.projector.focal_px, 6000 / 2.0, 1e-9) << "the focal length in pixels";
}

TEST(ActiveWidth, DistortedLensKeepsItsOwn) {
  Sheet sheet = sheet_of(2.8);
  sheet.projection = Projection::kDistorted;
  sheet.optical_format = "1/3";
  state_view(sheet, 98);
  EXPECT_NEAR(at_wide(sheet).active_width.in(mm), 6.0 * 16 / std::hypot(16, 9), 1e-9);
  sheet.active_width = 5.12 * mm;
  EXPECT_NEAR(at_wide(sheet).active_width.in(mm), 5.12, 1e-12);
  EXPECT_EQ(at_wide(sheet).width_source, WidthSource::kStatedView) << "what the density rests on is the stated view";
}

TEST(ActiveWidth, DistortedZoomWithoutItsOwnTakesThatOfItsLongEnd) {
  Sheet sheet = zoom_of(2.8, 12, 98, 24);
  sheet.projection = Projection::kDistorted;
  const double width_mm = 24 * std::tan(12 * deg.si());
  EXPECT_NEAR(at(sheet, 2.8 * mm).active_width.in(mm), width_mm, 1e-9);
  EXPECT_NEAR(at(sheet, 12.0 * mm).active_width.in(mm), width_mm, 1e-9);
  EXPECT_NEAR(view_deg(at(sheet, 2.8 * mm)), 98, 1e-6);
  EXPECT_NEAR(view_deg(at(sheet, 12.0 * mm)), 24, 1e-6);
}

Sheet distorted_of(double width_mm, double view_deg) {
  Sheet sheet = sheet_of(2.8);
  sheet.projection = Projection::kDistorted;
  sheet.active_width = width_mm * mm;
  state_view(sheet, view_deg);
  return sheet;
}

TEST(DistortedLens, MeetsTheStatedAngleAtThePicturesEdge) {
  for (const double width_mm : {4.8, 5.12, 5.6})
    for (const double view : {75.0, 82.0, 90.0, 98.0, 106.0, 112.0, 115.0, 120.0, 125.0, 135.0}) {
      const Lens lens = at_wide(distorted_of(width_mm, view));
      EXPECT_NEAR(view_deg(lens), view, 1e-6) << width_mm << " mm wide";
      EXPECT_NEAR(lens.active_width.in(mm), width_mm, 1e-12) << view << " degrees";
    }
}

TEST(DistortedLens, TooNarrowForItsAngleLetsTheAngleWin) {
  // 4.8 mm at 2.8 mm: 178 degrees on it would need a mapping that runs backwards before the edge.
  for (const double view : {160.0, 178.0}) {
    const Lens lens = at_wide(distorted_of(4.8, view));
    EXPECT_NEAR(view_deg(lens), view, 1e-6);
    EXPECT_EQ(lens.width_source, WidthSource::kStatedView);
    EXPECT_NEAR(lens.active_width.in(mm), 2.8 * view * deg.si(), 1e-9);
  }
}

TEST(DistortedLens, ReachesItsCornersWhileItsMappingGrows) {
  for (const double view : {75.0, 90.0, 98.0, 106.0, 115.0, 120.0}) {
    const Projector p = at_wide(distorted_of(5.12, view)).projector;
    EXPECT_TRUE(ray_camera(p, {-0.5, -0.5})) << view;
    EXPECT_TRUE(ray_camera(p, {p.columns - 0.5, p.rows - 0.5})) << view;
    double last = 0;
    for (int i = 0; i <= 100; ++i) {
      const Angle theta = (i / 100.0) * p.largest;
      EXPECT_GT(radial_scale(p, theta).along, 0) << view;
      const auto at = image_point(p, {std::sin(theta.si()), 0, std::cos(theta.si())});
      if (!at) continue;  // the last step may round past the limit
      EXPECT_GE(at->u, last);
      last = at->u;
    }
  }
}

TEST(Projection, FollowsFromTheStatedAngleWhereTheSheetIsSilent) {
  Sheet sheet = sheet_of(2);
  state_view(sheet, 109);
  EXPECT_EQ(at_wide(sheet).projector.mapping, Mapping::kBrown);
  EXPECT_NEAR(view_deg(at_wide(sheet)), 109, 1e-6);
  state_view(sheet, 112);
  EXPECT_EQ(at_wide(sheet).projector.mapping, Mapping::kFisheye);
  EXPECT_NEAR(view_deg(at_wide(sheet)), 112, 1e-6);
  EXPECT_NEAR(at_wide(sheet).active_width.in(mm), 2 * 112 * deg.si(), 1e-9)
      << "equidistant: the angle times the focal length";
  sheet.projection = Projection::kRectilinear;
  EXPECT_EQ(at_wide(sheet).projector.mapping, Mapping::kBrown) << "unless the sheet says";
}

TEST(Fisheye, OfHalfTheWorldHasBlackCorners) {
  Sheet sheet = sheet_of(1.6);
  sheet.columns = 4000;
  sheet.rows = 3000;
  sheet.projection = Projection::kFisheye;
  state_view(sheet, 180);
  const Projector p = at_wide(sheet).projector;
  EXPECT_NEAR(p.largest.in(deg), 90, 1e-9);
  EXPECT_FALSE(ray_camera(p, {0, 0})) << "outside the circle";
  EXPECT_TRUE(ray_camera(p, {p.centre_u(), 0}));
  EXPECT_FALSE(image_point(p, {1, 0, -0.01})) << "behind";
  Sheet cropped = sheet;
  state_view(cropped, 120);
  EXPECT_TRUE(ray_camera(at_wide(cropped).projector, {0, 0})) << "a narrower one fills its picture";
}

TEST(StatedDistortion, IsTakenAsItStands) {
  Sheet sheet = sheet_of(4);
  sheet.active_width = 5.12 * mm;
  sheet.distortion = Distortion{{-0.2, 0.03, 0.001, -0.002, 0.004}};
  Projector p = at_wide(sheet).projector;
  EXPECT_EQ(p.mapping, Mapping::kBrown);
  EXPECT_EQ(p.k, (std::array<double, 5>{-0.2, 0.03, 0.001, -0.002, 0.004}));
  sheet.distortion = Distortion{{-0.04, 0.006, -0.003, 0.0004}};
  p = at_wide(sheet).projector;
  EXPECT_EQ(p.mapping, Mapping::kFisheye);
  EXPECT_EQ(p.k, (std::array<double, 5>{-0.04, 0.006, -0.003, 0.0004, 0}));
  EXPECT_NEAR(at_wide(sheet).active_width.in(mm), 5.12, 1e-12);
  state_view(sheet, 70);
  EXPECT_NEAR(at_wide(sheet).active_width.in(mm), 5.12, 1e-12) << "beside a stated angle too: it is the lens's own";
}

TEST(Zoom, MeetsBothStatedEndsAndRunsBetweenThem) {
  const Sheet sheet = zoom_of(3, 12, 90, 26);
  EXPECT_NEAR(view_deg(at(sheet, 3.0 * mm)), 90, 1e-9);
  EXPECT_NEAR(view_deg(at(sheet, 12.0 * mm)), 26, 1e-9);
  double last = 91;
  for (double focal = 3; focal <= 12; focal += 0.25) {
    const Lens lens = at(sheet, focal * mm);
    EXPECT_LT(view_deg(lens), last) << focal;
    last = view_deg(lens);
    EXPECT_NEAR(stated_view(sheet, focal * mm)->in(deg), last, 1e-9) << focal;
    EXPECT_NEAR(lens.optics.focal.in(mm), focal, 1e-12);
  }
}

TEST(StatedView, IsKnownOnlyWhenStated) {
  EXPECT_FALSE(stated_view(sheet_of(4), 4.0 * mm));
  Sheet fixed = sheet_of(4);
  state_view(fixed, 80);
  EXPECT_NEAR(stated_view(fixed, 4.0 * mm)->in(deg), 80, 1e-12);
  const Sheet wide = zoom_of(1.2, 2.4, 180, 120);
  Sheet fisheye_zoom = wide;
  fisheye_zoom.projection = Projection::kFisheye;
  EXPECT_NEAR(stated_view(fisheye_zoom, 1.2 * mm)->in(deg), 180, 1e-9);
  EXPECT_NEAR(stated_view(fisheye_zoom, 2.4 * mm)->in(deg), 120, 1e-9);
  EXPECT_NEAR(stated_view(fisheye_zoom, 1.8 * mm)->in(deg), 150, 1e-9);
}

TEST(FNumber, SettingOverSheetOverGuess) {
  Sheet sheet = zoom_of(3, 12, 90, 26);
  EXPECT_EQ(lens_at(sheet, {.focal = 3.0 * mm, .f_number_if_unknown = 1.7}).optics.f_number, 1.7);
  EXPECT_FALSE(at(sheet, 3.0 * mm).f_number_stated);
  sheet.f_number = Ends<double>{1.4, 2.6};
  EXPECT_TRUE(at(sheet, 3.0 * mm).f_number_stated);
  EXPECT_NEAR(at(sheet, 3.0 * mm).optics.f_number, 1.4, 1e-12);
  EXPECT_NEAR(at(sheet, 7.5 * mm).optics.f_number, 2.0, 1e-12);
  EXPECT_NEAR(at(sheet, 12.0 * mm).optics.f_number, 2.6, 1e-12);
  EXPECT_EQ(lens_at(sheet, {.focal = 3.0 * mm, .f_number = 4.0}).optics.f_number, 4.0);
}

TEST(NominalFormat, EveryNameIsKnownOnceWithSixteenToNineteenMillimetresAnInch) {
  std::set<std::string> names;
  for (const std::string& name : known_formats()) {
    EXPECT_TRUE(names.insert(name).second) << name;
    const auto format = nominal_format(name);
    ASSERT_TRUE(format) << name;
    const size_t slash = name.find('/');
    const double inches = slash == std::string::npos
                              ? std::stod(name)
                              : std::stod(name.substr(0, slash)) / std::stod(name.substr(slash + 1));
    const double diagonal_mm = std::hypot(format->width.in(mm), format->height.in(mm));
    EXPECT_GT(diagonal_mm / inches, 15.5) << name;
    EXPECT_LT(diagonal_mm / inches, 19) << name;
  }
  EXPECT_GE(names.size(), 14U);
  EXPECT_FALSE(nominal_format("1/2.75"));
  EXPECT_FALSE(nominal_format(""));
}

TEST(WidthOnFormat, KeepsTheDiagonal) {
  const FormatSize format{4.8 * mm, 3.6 * mm};
  EXPECT_NEAR(width_on_format(format, 1600, 1200).in(mm), 4.8, 1e-12) << "its own shape";
  EXPECT_NEAR(width_on_format(format, 1920, 1080).in(mm), 6.0 * 16 / std::hypot(16, 9), 1e-12);
  EXPECT_NEAR(width_on_format(format, 1000, 1000).in(mm), 6.0 / std::sqrt(2), 1e-12);
}

}  // namespace
}  // namespace sightfall::camera
