// SPDX-License-Identifier: GPL-3.0-or-later
// What installers know of one common camera: common practice, no published source. The answers come from the range card
// with the table of assumptions (data/typical.json). docs/decisions.md tells the one constant that was changed after it
// was held against the facts of the night, and every fact before and after.
//   By day   3840 px across behind 12 mm, 23 degrees wide: little of a person at 80 m, coarse but usable at 61 m, good
//            enough to recognise at about 46 m, very good at 30 m; soft nearer than about 12 m when set for far ground
//   By night with infrared claimed to 80 m, 12.5 W at most (a 50 m version 9.5 W): hardly any detail at 80 m, grainy at
//            about 61 m, people become recognisable at about 46 m, good at 30 m; with fixed power a subject nearer than
//            about 9 m burns out and adaptive power brings it back; infrared is strongest in the middle of the picture;
//            a 1/3 s shutter shows a still night sky and smears anyone who walks
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "card/card.h"
#include "file/project.h"
#include "need/cautions.h"
#include "need/illumination.h"
#include "need/test_project.h"

namespace sightfall::card {
namespace {

using namespace units;
using detail::Limit;

/// This set of figures describes one camera of the trade and stands here alone.
camera::Sheet long_lens() {
  camera::Sheet sheet;
  sheet.name = "trade";
  sheet.columns = 3840;
  sheet.rows = 2160;
  sheet.focal = {12.0 * mm, 12.0 * mm};
  sheet.view = camera::Ends<Angle>{23.0 * deg, 23.0 * deg};
  sheet.f_number = camera::Ends<double>{1.6, 1.6};
  sheet.lens_class = camera::LensClass::kStandard;
  sheet.frame_rates = {25};
  return sheet;
}

/// The first edition's table first: the facts speak its language.
std::vector<detail::LevelTable> first_edition() {
  auto tables = file::standard_level_tables();
  std::stable_partition(tables.begin(), tables.end(), [](const auto& table) { return table.name == "2014"; });
  return tables;
}

RangeCard card_of(const camera::Sheet& sheet, const std::vector<double>& metres, std::optional<Length> focus = {}) {
  CardRequest request{.sheet = sheet,
                      .setting = {},
                      .marks = {},
                      .tables = first_edition(),
                      .typical = file::default_typical(),
                      .materials = file::default_materials()};
  request.setting.focus = focus;
  for (const double metre : metres) request.marks.push_back(metre * m);
  return range_card(request);
}

double least(const char* level) {
  const auto tables = first_edition();
  return tables.front().find(level)->least.in(px / m);
}

double delivered(const Mark& mark) { return mark.day.delivered.nominal.in(px / m); }
double by_night(const Mark& mark) { return mark.night.delivered.nominal.in(px / m); }

/// The same camera with its infrared, of which the sheet states only the reach and the largest draw of all.
camera::Sheet with_infrared(double reach = 80, double draw = 12.5) {
  camera::Sheet sheet = long_lens();
  sheet.infrared = camera::Infrared{.reach = reach * m};
  sheet.power.largest = draw * W;
  return sheet;
}

TEST(TradeFacts, DensitiesOfTheLongLens) {
  const RangeCard card = card_of(long_lens(), {30, 46, 61, 80});
  ASSERT_EQ(card.marks.size(), 4U);
  const std::array<double, 4> expected{315, 205, 155, 118};
  for (size_t i = 0; i < 4; ++i)
    EXPECT_NEAR(card.marks[i].density.in(px / m), expected[i], 0.5) << card.marks[i].distance.in(m) << " m";
}

TEST(TradeFacts, WhatTheLongLensShowsOfAPersonByDay) {
  const RangeCard card = card_of(long_lens(), {30, 46, 61, 80});
  ASSERT_EQ(card.marks.size(), 4U);
  EXPECT_GE(delivered(card.marks[0]), 0.9 * least("identify")) << "very good at 30 m: near or above identify";
  EXPECT_GE(delivered(card.marks[1]), least("recognise")) << "46 m";
  EXPECT_GE(delivered(card.marks[2]), least("observe")) << "61 m: coarse but usable";
  EXPECT_LT(delivered(card.marks[2]), least("recognise")) << "61 m: but not to recognise";
  EXPECT_LT(delivered(card.marks[3]), least("recognise")) << "80 m: little";
  EXPECT_LT(delivered(card.marks[3]), delivered(card.marks[2]));
  EXPECT_EQ(card.marks[1].day.levels.front(), "recognise");
  EXPECT_EQ(card.marks[2].day.levels.front(), "observe");
}

TEST(TradeFacts, SoftNearerThanAboutTwelveMetresWhenSetForFarGround) {
  for (const double far : {61.0, 80.0}) {
    const RangeCard card = card_of(long_lens(), {6, 8, 10, 12, 30, 46}, far * m);
    ASSERT_EQ(card.marks.size(), 6U);
    for (size_t i = 0; i < 4; ++i) {
      const Mark& mark = card.marks[i];
      EXPECT_EQ(mark.day.limit, Limit::kFocus) << mark.distance.in(m) << " m, focus at " << far << " m";
      EXPECT_LT(delivered(mark), mark.density.in(px / m) / 2) << mark.distance.in(m) << " m, focus at " << far << " m";
    }
    EXPECT_GT(delivered(card.marks[4]), card.marks[4].density.in(px / m) / 2) << "30 m is not soft";
    EXPECT_NE(card.marks[5].day.limit, Limit::kFocus) << "46 m is not limited by focus";
  }
}

TEST(TradeFacts, WhatTheLongLensShowsOfAPersonByInfrared) {
  const RangeCard card = card_of(with_infrared(), {30, 46, 61, 80});
  ASSERT_EQ(card.marks.size(), 4U);
  EXPECT_GE(by_night(card.marks[0]), 0.9 * least("recognise")) << "30 m is good: near or above recognise";
  EXPECT_GE(by_night(card.marks[1]), least("observe")) << "46 m: people become recognisable";
  EXPECT_LT(by_night(card.marks[1]), least("recognise")) << "46 m";
  EXPECT_GE(card.marks[1].night.delivered.high.in(px / m), least("recognise")) << "46 m: its range touches recognise";
  EXPECT_LT(by_night(card.marks[2]), by_night(card.marks[1])) << "61 m is lower";
  EXPECT_LE(card.marks[2].night.noise_ratio, 5) << "61 m is grainy";
  EXPECT_LE(by_night(card.marks[3]), least("observe")) << "80 m shows hardly any detail";
  const RangeCard weaker = card_of(with_infrared(50, 9.5), {30, 46, 61});
  for (size_t i = 0; i < 3; ++i) EXPECT_LT(by_night(weaker.marks[i]), by_night(card.marks[i])) << i;
}

TEST(TradeFacts, FixedInfraredBurnsOutANearSubjectAndAdaptiveBringsItBack) {
  camera::Sheet sheet = with_infrared();
  const RangeCard fixed = card_of(sheet, {9, 30});
  EXPECT_EQ(fixed.marks[0].night.limit, Limit::kClipping) << "9 m";
  EXPECT_EQ(by_night(fixed.marks[0]), 0);
  EXPECT_NE(fixed.marks[1].night.limit, Limit::kClipping) << "30 m";
  ASSERT_TRUE(fixed.clipping.fixed);
  EXPECT_GT(fixed.clipping.fixed->in(m), 9) << "bright parts go first";
  EXPECT_LT(fixed.clipping.fixed->in(m), 27) << "within a factor of three of the 9 m at which nothing is left";
  EXPECT_FALSE(fixed.clipping.adaptive) << "adaptive power leaves no such distance";
  sheet.infrared->adaptive = true;
  const RangeCard adaptive = card_of(sheet, {9});
  EXPECT_GT(by_night(adaptive.marks[0]), least("recognise"));
  EXPECT_LT(adaptive.marks[0].night.power, 1);
}

/// A face 61 m from the lens by night that crosses the picture.
detail::Signal crossing_by_night(double shutter, double speed, double* delivered) {
  need::Project project;
  project.settings.typical = file::default_typical();
  project.settings.materials = file::default_materials();
  project.settings.typical.speed_walker.value = Ranged<double>::exact(speed);
  site::Condition night;
  night.light = site::NamedLight::kDarkNight;
  const need::Lit lit{project, night};
  camera::Camera camera;
  camera.shutter = Time{shutter};
  const need::Station station = need::in_condition(
      need::station_at(with_infrared(), camera, {0, 0, 1.6}, project.settings.typical), lit.lighting());
  const need::Need face;
  const need::SampleView view = lit.views(station, face, {{{0, 61, 1.6}, {1, 0}, 0, 0}}).front();
  const detail::Values values = detail::nominal(need::subject_inputs(station, face, project.settings.typical));
  *delivered = detail::delivered(station.constants, view.seen, values);
  return detail::signal_of(station.constants, view.seen, values);
}

TEST(TradeFacts, ASlowShutterShowsAStillNightAndSmearsAWalker) {
  double still = 0, usual = 0, walking = 0;
  const detail::Signal slow = crossing_by_night(1.0 / 3, 0, &still), fast = crossing_by_night(1.0 / 25, 0, &usual);
  crossing_by_night(1.0 / 3, 1.4, &walking);
  EXPECT_GT(slow.subject / slow.deviation, 2 * fast.subject / fast.deviation) << "more light on what stands still";
  EXPECT_GE(still, usual);
  EXPECT_LT(walking, 0.2 * still) << "a walker smears over 72 px";
}

TEST(TradeFacts, InfraredIsStrongestInTheMiddleOfThePicture) {
  camera::Sheet sheet = with_infrared();
  need::Project project;
  project.settings.typical = file::default_typical();
  project.settings.materials = file::default_materials();
  const need::Station station = need::station_at(sheet, {}, {0, 0, 1.6}, project.settings.typical);
  ASSERT_TRUE(station.infrared);
  const double edge = std::cos((11.5 * deg).si());
  EXPECT_LT(need::own_light(*station.infrared, edge, 30), 0.55 * need::own_light(*station.infrared, 1, 30));
}

TEST(TradeFacts, NominalFormatDisagreesWithTheStatedAngle) {
  camera::Sheet sheet = long_lens();
  const auto format = camera::nominal_format("1/2.5");
  ASSERT_TRUE(format);
  const auto view_on = [&](Length width) { return 2 * std::atan(width / (2 * sheet.focal.wide)) / deg.si(); };
  EXPECT_NEAR(view_on(format->width), 27.0, 0.05) << "with the 4:3 table's width";
  EXPECT_NEAR(view_on(camera::width_on_format(*format, 3840, 2160)), 29.2, 0.05) << "16:9 on the same diagonal";

  sheet.optical_format = "1/2.5";
  EXPECT_NEAR(camera::horizontal_view(camera::lens_at(sheet, {.focal = sheet.focal.wide}).projector).in(deg), 23, 1e-9)
      << "the stated angle wins";
  const auto claims = audit(sheet);
  const bool told = std::any_of(claims.begin(), claims.end(), [](const Claim& claim) {
    return claim.holds == Holds::kNo && claim.stated == "23 degrees" &&
           claim.computed == "27.0 degrees or 29.2 degrees";
  });
  EXPECT_TRUE(told) << "the audit names the disagreement and both widths";
}

TEST(TradeFacts, WideLensGivesNeitherFacesNorPlatesAtTwentyFiveMetres) {
  camera::Sheet sheet = long_lens();
  sheet.active_width = camera::lens_at(sheet, {.focal = sheet.focal.wide}).active_width;
  sheet.focal = {2.8 * mm, 2.8 * mm};
  sheet.view.reset();
  const RangeCard card = card_of(sheet, {25});
  ASSERT_EQ(card.marks.size(), 1U);
  EXPECT_LT(delivered(card.marks[0]), least("recognise")) << "no face that is known, let alone identified";
  // Characters are 79 mm high (UK regulations of 2001, second-hand); fifteen pixels of height is little to read by.
  EXPECT_LT(card.marks[0].density.in(px / m) * 0.079, 15);
}

TEST(TradeFacts, CamerasWithinReachOfAHandAreFlagged) {
  EXPECT_NEAR(need::kReachOfHand.in(m), 3.0, 1e-12) << "below about 3 m";
  for (const auto& [height, flagged] : {std::pair{2.4, true}, std::pair{2.9, true}, std::pair{3.2, false}}) {
    need::Project project;
    project.site.mounts = {{.name = "post", .height = height * m}};
    project.catalogue = {long_lens()};
    project.cameras = {{.name = "low", .sheet = "trade", .mount = "post"}};
    project.settings.typical = file::default_typical();
    const std::vector<need::Station> stations{need::station_of(project, project.cameras.front())};
    const auto cautions = need::cautions_of(project, stations);
    const bool told = std::any_of(cautions.begin(), cautions.end(), [](const need::Caution& caution) {
      return caution.text.find("reach") != std::string::npos;
    });
    EXPECT_EQ(told, flagged) << height << " m";
  }
}

}  // namespace
}  // namespace sightfall::card
