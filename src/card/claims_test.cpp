// SPDX-License-Identifier: GPL-3.0-or-later
// The audit of a sheet: each claim that agrees, disagrees, depends or is unknown, by pencil.
#include "card/claims.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "camera/lens.h"
#include "need/test_project.h"

namespace sightfall::card {
namespace {

using testing::HasSubstr;

/// 10 mm of pixels behind 10 mm: 53.13 degrees.
camera::Sheet sheet_with_view(double degrees) {
  camera::Sheet sheet = need::plain_sheet();
  sheet.frame_rates.clear();
  sheet.view = camera::Ends<Angle>{degrees * units::deg, degrees * units::deg};
  return sheet;
}

Claim angle_of(const camera::Sheet& sheet) { return audit(sheet).at(0); }

TEST(AngleClaim, AgreesWithinFivePercent) {
  const Claim claim = angle_of(sheet_with_view(53));
  EXPECT_EQ(claim.holds, Holds::kYes);
  EXPECT_EQ(claim.claim, "angle of view at 5 mm");
  EXPECT_EQ(claim.stated, "53 degrees");
  EXPECT_EQ(claim.computed, "53.1 degrees");
  EXPECT_THAT(claim.assumption, HasSubstr("the stated active width"));
}

TEST(AngleClaim, TurnsAtFivePercent) {
  EXPECT_EQ(angle_of(sheet_with_view(53.13 / 1.049)).holds, Holds::kYes);
  EXPECT_EQ(angle_of(sheet_with_view(53.13 / 1.051)).holds, Holds::kNo);
  EXPECT_EQ(angle_of(sheet_with_view(53.13 / 0.951)).holds, Holds::kYes);
  EXPECT_EQ(angle_of(sheet_with_view(53.13 / 0.949)).holds, Holds::kNo);
}

TEST(AngleClaim, SaysThatTheStatedAngleIsUsedWhenTheyDisagree) {
  EXPECT_THAT(angle_of(sheet_with_view(70)).assumption, HasSubstr("the stated angle is used"));
}

/// The nominal 1/2.5 inch format behind 5 mm, without a stated width.
camera::Sheet on_format(double view_degrees, int columns, int rows) {
  camera::Sheet sheet = sheet_with_view(view_degrees);
  sheet.active_width.reset();
  sheet.optical_format = "1/2.5";
  sheet.columns = columns;
  sheet.rows = rows;
  return sheet;
}

double degrees_of(Length width) { return (2 * std::atan2(width.si() / 2, 5e-3) * units::rad).in(units::deg); }

TEST(AngleClaim, DependsWhereTheShapeOfTheFormatDecides) {
  const auto format = camera::nominal_format("1/2.5");
  ASSERT_TRUE(format);
  const double table = degrees_of(format->width), wide = degrees_of(camera::width_on_format(*format, 3840, 2160));
  ASSERT_GT(wide / table, 1.06);  // 16:9 on the diagonal of 4:3 is wider by 9 %
  const Claim claim = angle_of(on_format(wide, 3840, 2160));
  EXPECT_EQ(claim.holds, Holds::kDepends);
  EXPECT_THAT(claim.computed, HasSubstr(" or "));
  EXPECT_THAT(claim.assumption, HasSubstr("the nominal table width of 1/2.5 in"));
  EXPECT_EQ(angle_of(on_format(0.8 * table, 3840, 2160)).holds, Holds::kNo);
  EXPECT_EQ(angle_of(on_format(table, 2560, 1920)).holds, Holds::kYes) << "4:3 pixels leave nothing open";
}

TEST(AngleClaim, IsUnknownWithNothingToHoldItAgainst) {
  camera::Sheet sheet = sheet_with_view(53);
  sheet.active_width.reset();
  const Claim claim = angle_of(sheet);
  EXPECT_EQ(claim.holds, Holds::kUnknown);
  EXPECT_EQ(claim.computed, "");
  EXPECT_THAT(claim.assumption, HasSubstr("neither an active width nor an optical format"));
}

TEST(AngleClaim, IsUnknownForALensThatIsNotRectilinear) {
  for (const auto projection : {camera::Projection::kDistorted, camera::Projection::kFisheye}) {
    camera::Sheet sheet = sheet_with_view(53);
    sheet.projection = projection;
    EXPECT_EQ(angle_of(sheet).holds, Holds::kUnknown);
    EXPECT_THAT(angle_of(sheet).assumption, HasSubstr("not rectilinear"));
  }
  camera::Sheet measured = sheet_with_view(53);
  measured.distortion = camera::Distortion{{-0.1, 0, 0, 0, 0}};
  EXPECT_EQ(angle_of(measured).holds, Holds::kUnknown);
}

TEST(AngleClaim, OneForEachEndOfAZoom) {
  camera::Sheet sheet = sheet_with_view(53);
  sheet.focal = {Length{5e-3}, Length{20e-3}};
  sheet.view->tele = 20 * units::deg;  // 2 atan(2.5 / 20) = 14.25 degrees
  const std::vector<Claim> claims = audit(sheet);
  ASSERT_EQ(claims.size(), 2U);
  EXPECT_EQ(claims[0].claim, "angle of view (short end) at 5 mm");
  EXPECT_EQ(claims[0].holds, Holds::kYes);
  EXPECT_EQ(claims[1].claim, "angle of view (long end) at 20 mm");
  EXPECT_EQ(claims[1].holds, Holds::kNo);
  EXPECT_EQ(claims[1].computed, "14.3 degrees");
}

TEST(FrameRateClaim, IsHeldAgainstTheReadout) {
  camera::Sheet sheet = need::plain_sheet();
  sheet.frame_rates = {15, 30};
  const auto claim = [&] { return audit(sheet).at(0); };
  EXPECT_EQ(claim().claim, "frame rate");
  EXPECT_EQ(claim().stated, "30 a second");
  EXPECT_EQ(claim().holds, Holds::kUnknown);
  sheet.readout = Time{0.03};
  EXPECT_EQ(claim().holds, Holds::kYes);
  EXPECT_EQ(claim().computed, "at most 33 a second");
  sheet.readout = Time{0.04};
  EXPECT_EQ(claim().holds, Holds::kNo);
}

TEST(InWords, NamesTheAnswers) {
  EXPECT_EQ(in_words(Holds::kYes), "yes");
  EXPECT_EQ(in_words(Holds::kNo), "no");
  EXPECT_EQ(in_words(Holds::kDepends), "depends");
  EXPECT_EQ(in_words(Holds::kUnknown), "unknown");
}

}  // namespace
}  // namespace sightfall::card
