// SPDX-License-Identifier: GPL-3.0-or-later
// The range card by pencil: marks, the ends of focus and of each level's reach, a mount's height, laws.
#include "card/card.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "camera/focus.h"
#include "detail/delivered.h"
#include "need/test_project.h"

namespace sightfall::card {
namespace {

using need::kScale;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

CardRequest request() {
  CardRequest request;
  request.sheet = need::plain_sheet();
  request.setting.name = "eye";
  request.setting.focus = Length{20};
  request.typical = need::plain_typical();
  request.tables = {{"test", "test", {{"coarse", PixelDensity{25}}, {"fine", PixelDensity{100}}}},
                    {"other", "test", {{"only", PixelDensity{1000}}}}};
  return request;
}

CardRequest at_marks(std::vector<double> metres) {
  CardRequest asked = request();
  for (const double distance : metres) asked.marks.push_back(Length{distance});
  return asked;
}

const LevelReach& reach_of(const RangeCard& card, const std::string& level) {
  return *std::find_if(card.reach.begin(), card.reach.end(), [&](const LevelReach& r) { return r.level == level; });
}

TEST(CardMarks, AreByPencil) {
  const RangeCard card = range_card(at_marks({8, 10, 40, 160}));
  ASSERT_EQ(card.marks.size(), 4U);
  for (const Mark& mark : card.marks) {
    const double distance = mark.distance.si();
    EXPECT_NEAR(mark.width.si(), distance, 1e-9);  // a tangent of 0.5 to either side
    EXPECT_NEAR(mark.height.si(), 0.75 * distance, 1e-9);
    EXPECT_NEAR(mark.density.si(), kScale / distance, 1e-9);
    EXPECT_NEAR(mark.day.delivered.nominal.si(), kScale / distance, 1e-9);  // its lens is sharper than the reference
    EXPECT_EQ(mark.day.delivered.low, mark.day.delivered.nominal);
    EXPECT_EQ(mark.day.delivered.high, mark.day.delivered.nominal);
  }
  EXPECT_THAT(card.marks[0].day.levels, ElementsAre("fine", ""));
  EXPECT_THAT(card.marks[2].day.levels, ElementsAre("coarse", ""));
  EXPECT_THAT(card.marks[3].day.levels, ElementsAre("", ""));
  EXPECT_EQ(card.marks[3].day.limit, detail::Limit::kPixels);
  EXPECT_NEAR(card.horizontal_view.si(), 2 * std::atan(0.5), 1e-12);
  EXPECT_NEAR(card.vertical_view.si(), 2 * std::atan(0.375), 1e-12);
  EXPECT_EQ(card.camera, "eye");
  EXPECT_THAT(card.assumptions, IsEmpty());
}

TEST(CardMarks, ARangeOfTheViewIsARangeOfTheDensity) {
  CardRequest asked = at_marks({20});
  asked.typical.view_tolerance.value = {0.9, 1, 1.1};
  const Mark mark = range_card(asked).marks.front();
  EXPECT_NEAR(mark.day.delivered.low.si(), 90, 1e-6);
  EXPECT_NEAR(mark.day.delivered.nominal.si(), 100, 1e-6);
  EXPECT_NEAR(mark.day.delivered.high.si(), 110, 1e-6);
}

TEST(CardMarks, AWholeHeadNeedNotBeInThePictureForTheDensityOnTheAxis) {
  EXPECT_NEAR(range_card(at_marks({0.15})).marks.front().density.si(), kScale / 0.15, 1e-6);
}

TEST(CardMarks, DefaultOnesRiseAndHoldThoseOfTheTrade) {
  const std::vector<Length> marks = default_marks();
  EXPECT_TRUE(std::is_sorted(marks.begin(), marks.end()));
  for (const double metres : {30.0, 46.0, 61.0, 80.0})
    EXPECT_EQ(std::count(marks.begin(), marks.end(), Length{metres}), 1) << metres;
  EXPECT_EQ(range_card(request()).marks.size(), marks.size());
}

TEST(CardFocus, AtBothEndsTheBlurIsOnePixel) {
  for (const double focus : {2.0, 4.0, 20.0}) {
    CardRequest asked = request();
    asked.setting.focus = Length{focus};
    const RangeCard card = range_card(asked);
    const auto blur = [&](Length distance) {
      return camera::blur_circle({Length{5e-3}, 2}, card.focus, distance).si() / 2.5e-6;
    };
    EXPECT_DOUBLE_EQ(card.focus.si(), focus);
    EXPECT_NEAR(blur(card.one_pixel.near), 1, 1e-9);
    if (std::isinf(card.one_pixel.far.si())) {
      EXPECT_LE(blur(Length{1e9}), 1);
    } else {
      EXPECT_NEAR(blur(card.one_pixel.far), 1, 1e-9);
    }
    EXPECT_LT(card.one_pixel.near.si(), focus);
    EXPECT_GT(card.one_pixel.far.si(), focus);
  }
}

TEST(CardFocus, EndsByPencil) {
  // f^2 / (N c) = 25e-6 / (2 x 2.5e-6) = 5 m: set to 2 m, near 5 x 2 / (5 + 2), far 5 x 2 / (5 - 2), but for f itself.
  CardRequest asked = request();
  asked.setting.focus = Length{2};
  const RangeCard card = range_card(asked);
  EXPECT_NEAR(card.one_pixel.near.si(), 10.0 / 7, 0.01);
  EXPECT_NEAR(card.one_pixel.far.si(), 10.0 / 3, 0.01);
}

TEST(CardFocus, SeventyPercentIsWiderThanOnePixelAndHoldsAtItsEnds) {
  CardRequest asked = request();
  asked.setting.focus = Length{2};
  const RangeCard card = range_card(asked);
  EXPECT_LT(card.seventy_percent.near, card.one_pixel.near);
  EXPECT_GT(card.seventy_percent.far, card.one_pixel.far);
  for (const Length end : {card.seventy_percent.near, card.seventy_percent.far}) {
    const double disc = camera::blur_circle({Length{5e-3}, 2}, Length{2}, end).si() / 2.5e-6;
    const double kept =
        detail::resolved_frequency({.lens = detail::kReferenceBlur, .defocus = disc}, detail::kReferenceContrast, 0.2) /
        detail::reference_frequency(0.2);
    EXPECT_NEAR(kept, 0.7, 1e-3);
  }
}

TEST(CardFocus, SetToTheFarGroundTheFarEndIsInfinite) {
  EXPECT_TRUE(std::isinf(range_card(request()).one_pixel.far.si()));
  EXPECT_TRUE(std::isinf(range_card(request()).seventy_percent.far.si()));
}

TEST(CardReach, EndsWhereTheLevelIsDelivered) {
  CardRequest asked = request();
  asked.typical.contrast_face = need::exactly(0.6, "contrast");
  asked.sheet.lens_class = camera::LensClass::kStandard;  // less is delivered than the density
  asked.setting.focus = Length{0.5};
  const RangeCard card = range_card(asked);
  int told = 0;
  for (const LevelReach& reach : card.reach) {
    if (!reach.farthest) continue;
    const double least = reach.level == "coarse" ? 25 : reach.level == "fine" ? 100 : 1000;
    for (const Length end : {*reach.nearest, *reach.farthest}) {
      if (end <= Length{0.1}) continue;  // nearer is not looked for
      CardRequest again = asked;
      again.marks = {end};
      EXPECT_NEAR(range_card(again).marks.front().day.delivered.nominal.si(), least, 1e-3 * least) << reach.level;
      ++told;
    }
  }
  EXPECT_GE(told, 4);
}

TEST(CardReach, ByPencilAndNothingWhereNowhere) {
  const RangeCard card = range_card(request());
  ASSERT_EQ(card.reach.size(), 3U);
  EXPECT_NEAR(reach_of(card, "fine").farthest->si(), 20, 1e-6);
  EXPECT_NEAR(reach_of(card, "coarse").farthest->si(), 80, 1e-6);
  // 1000 px/m would be 2 m away, where a focus of 20 m leaves a blur of some pixels.
  EXPECT_FALSE(reach_of(card, "only").nearest);
  EXPECT_FALSE(reach_of(card, "only").farthest);
  EXPECT_EQ(reach_of(card, "only").table, "other");
}

TEST(CardReach, AHigherLevelReachesLessFar) {
  CardRequest asked = request();
  asked.tables = {{"many", "test", {}}};
  for (int i = 1; i <= 8; ++i) asked.tables[0].levels.push_back({std::to_string(i), PixelDensity{30.0 * i}});
  const RangeCard card = range_card(asked);
  for (size_t i = 1; i < card.reach.size(); ++i) EXPECT_LT(*card.reach[i].farthest, *card.reach[i - 1].farthest);
}

TEST(CardWithHeight, TheUpperEdgeLiesOnTheHorizonUnlessATiltIsGiven) {
  CardRequest asked = request();
  asked.height = Length{4};
  EXPECT_NEAR(range_card(asked).tilt.si(), std::atan(0.375), 1e-12);
  asked.tilt = Angle{0.1};
  EXPECT_DOUBLE_EQ(range_card(asked).tilt.si(), 0.1);
}

TEST(CardWithHeight, NearerThanThePictureOrTooSteepNothingIsSeen) {
  CardRequest asked = at_marks({2, 5, 6, 30});
  asked.height = Length{5};
  asked.tilt = Angle{std::atan(0.375)};
  // The lower edge looks 41 degrees down; a face is shown up to 30 degrees: 3.4 m lower, from 5.9 m on.
  const RangeCard card = range_card(asked);
  EXPECT_EQ(card.marks[0].density.si(), 0);
  EXPECT_EQ(card.marks[0].day.limit, detail::Limit::kOutOfView);
  EXPECT_EQ(card.marks[0].day.delivered.nominal.si(), 0);
  EXPECT_EQ(card.marks[1].day.limit, detail::Limit::kAngle);
  EXPECT_GT(card.marks[2].density.si(), 0);
  EXPECT_NEAR(reach_of(card, "fine").nearest->si(), 3.4 / std::tan(30 * units::deg.si()), 1e-3);
}

TEST(CardWithHeight, DistanceRunsAlongTheGround) {
  CardRequest asked = at_marks({16});
  asked.height = Length{1.6 + 12};
  asked.tilt = Angle{std::atan2(12, 16)};
  asked.typical.face_pitch = need::exactly(60, "pitch");
  const Mark mark = range_card(asked).marks.front();
  EXPECT_NEAR(mark.width.si(), 20, 1e-9);                       // the axis meets the face 20 m away
  EXPECT_NEAR(mark.density.si(), kScale / 20 * 16 / 20, 1e-9);  // and the face is foreshortened by the pitch
}

TEST(CardCautions, WithinReachOfAHandAndAtHeight) {
  CardRequest asked = request();
  EXPECT_THAT(range_card(asked).cautions, IsEmpty());
  asked.height = Length{1.9};
  EXPECT_THAT(range_card(asked).cautions, ElementsAre(HasSubstr("within reach of a hand")));
  asked.height = Length{2.9};
  EXPECT_THAT(range_card(asked).cautions, ElementsAre(HasSubstr("within reach"), HasSubstr("work at height")));
  asked.height = Length{3};
  EXPECT_THAT(range_card(asked).cautions, ElementsAre(HasSubstr("work at height")));
}

TEST(CardLaws, BeyondTheFocusDeliveredFallsWithDistance) {
  std::vector<double> marks;
  for (double d = 20; d < 400; d *= 1.05) marks.push_back(d);
  CardRequest asked = at_marks(marks);
  asked.sheet.lens_class = camera::LensClass::kStandard;
  const RangeCard card = range_card(asked);
  for (size_t i = 1; i < card.marks.size(); ++i)
    EXPECT_LT(card.marks[i].day.delivered.nominal, card.marks[i - 1].day.delivered.nominal);
}

TEST(CardLaws, DeliveredIsNeverMoreThanTheDensity) {
  const std::vector<CardRequest> all{request(), [] {
                                       CardRequest wide = request();
                                       wide.sheet.projection = camera::Projection::kFisheye;
                                       wide.height = Length{3};
                                       return wide;
                                     }()};
  for (const CardRequest& asked : all)
    for (const Mark& mark : range_card(asked).marks) {
      EXPECT_LE(mark.day.delivered.nominal.si(), mark.density.si() * (1 + 1e-9));
      EXPECT_LE(mark.day.delivered.low, mark.day.delivered.nominal);
      EXPECT_LE(mark.day.delivered.nominal, mark.day.delivered.high);
    }
}

TEST(CardLaws, AZoomsLongEndHasMoreDetail) {
  CardRequest asked = at_marks({30});
  asked.sheet.focal = {Length{5e-3}, Length{20e-3}};
  const double wide = range_card(asked).marks.front().density.si();
  EXPECT_NEAR(range_card(asked).focal.si(), 5e-3, 1e-12) << "the short end when none is set";
  asked.setting.focal = Length{20e-3};
  EXPECT_NEAR(range_card(asked).marks.front().density.si(), 4 * wide, 1e-9);
}

/// The plain camera with infrared of 10 W/sr, a full well and a gain as of ordinary cameras.
CardRequest by_infrared(std::vector<double> metres) {
  CardRequest asked = at_marks(std::move(metres));
  camera::Infrared lamp;
  lamp.intensity = RadiantIntensity{10};
  lamp.half_power = 60 * units::deg;
  asked.sheet.infrared = lamp;
  asked.sheet.sensor = camera::SensorFacts{.full_well = 10000, .largest_gain = 24};
  return asked;
}

TEST(CardNight, WithoutInfraredABlackNightShowsNothing) {
  const RangeCard card = range_card(at_marks({10}));
  EXPECT_FALSE(card.infrared);
  EXPECT_EQ(card.marks.front().night.delivered.nominal.si(), 0);
  EXPECT_EQ(card.marks.front().night.limit, detail::Limit::kNoise);
  EXPECT_FALSE(card.eye_distance);
}

TEST(CardNight, FallsFasterThanTheDay) {
  const RangeCard card = range_card(by_infrared({40, 160}));
  EXPECT_TRUE(card.infrared);
  EXPECT_TRUE(card.monochrome);
  const auto share = [](const Mark& mark) { return mark.night.delivered.nominal / mark.day.delivered.nominal; };
  EXPECT_GT(share(card.marks[0]), share(card.marks[1]));
  EXPECT_GT(card.marks[0].night.noise_ratio, 8 * card.marks[1].night.noise_ratio) << "a sixteenth of the light";
  EXPECT_LT(*card.reach_night.front().farthest, *card.reach.front().farthest);
}

TEST(CardNight, FixedPowerClipsNearByAndAdaptivePowerDoesNot) {
  const RangeCard card = range_card(by_infrared({10}));
  ASSERT_TRUE(card.clipping.fixed);
  EXPECT_FALSE(card.clipping.adaptive && *card.clipping.adaptive > 0.3 * *card.clipping.fixed);
  EXPECT_NEAR(card.clipping.largest_gain, 24, 1e-9);
  CardRequest stronger = by_infrared({10});
  stronger.sheet.infrared->intensity = RadiantIntensity{40};
  EXPECT_GT(*range_card(stronger).clipping.fixed, *card.clipping.fixed);
}

TEST(CardNight, EyeDistanceIsTheRootOfIntensityOverTheLimit) {
  const RangeCard card = range_card(by_infrared({10}));
  ASSERT_TRUE(card.eye_distance);
  EXPECT_NEAR(card.eye_distance->si(), std::sqrt(10.0 / 100), 1e-9);
  EXPECT_TRUE(card.glows) << "850 nm";
}

/// A lamp so strong that a face burns out some way off. Close to the lens it fills the picture, and automatic exposure
/// goes by it.
CardRequest burning_out(double strength) {
  CardRequest asked = by_infrared({10});
  asked.sheet.infrared->intensity = RadiantIntensity{strength};
  asked.tables = {{"test", "test", {{"fine", PixelDensity{100}}}}};
  return asked;
}

LevelReach reach_at(double strength) { return range_card(burning_out(strength)).reach_night.front(); }

/// A strength at which there is a gap.
double strong() {
  double strength = 100;
  while (strength < 1e4 && reach_at(strength).gaps.empty()) strength *= 1.3;
  return strength;
}

TEST(CardGaps, LieWhereTheLevelIsLostBetweenTheEndsOfItsReach) {
  CardRequest asked = burning_out(strong());
  const LevelReach reach = range_card(asked).reach_night.front();
  ASSERT_EQ(reach.gaps.size(), 1U);
  const auto [from, to] = reach.gaps.front();
  EXPECT_GT(from, *reach.nearest);
  EXPECT_LT(to, *reach.farthest);
  asked.marks = {0.99 * from, 1.01 * from, 0.5 * (from + to), 0.99 * to, 1.01 * to};
  std::vector<bool> reached;
  for (const Mark& mark : range_card(asked).marks) reached.push_back(mark.night.delivered.nominal >= PixelDensity{100});
  EXPECT_THAT(reached, ElementsAre(true, false, false, false, true));
}

TEST(CardGaps, ThereAreNoneByDayNorWhereNothingBurnsOut) {
  const RangeCard card = range_card(burning_out(strong()));
  EXPECT_TRUE(card.reach.front().farthest);
  EXPECT_THAT(card.reach.front().gaps, IsEmpty());
  EXPECT_TRUE(reach_at(1).farthest);
  EXPECT_THAT(reach_at(1).gaps, IsEmpty());
}

TEST(CardGaps, AreToldFromALengthOn) {
  // With the lamp's strength a gap opens from nothing: the first that is told is as long as one must be.
  double without = 1, with = strong();
  for (int i = 0; i < 20; ++i) {
    const double middle = (without + with) / 2;
    (reach_at(middle).gaps.empty() ? without : with) = middle;
  }
  const std::vector<Gap> first = reach_at(with).gaps;
  ASSERT_EQ(first.size(), 1U);
  const auto [from, to] = first.front();
  EXPECT_GE(to - from, std::max(kShortestGap, kShortestGapShare * from));
  EXPECT_LT((to - from).si(), 1);
}

TEST(CardCurve, SaysWhatTheMarksSay) {
  const std::vector<Mark> points = curve(by_infrared({}));
  ASSERT_EQ(points.size(), static_cast<size_t>(kCurvePoints));
  EXPECT_NEAR(points.front().distance.si(), kCurveNear.si(), 1e-9);
  EXPECT_NEAR(points.back().distance.si(), kCurveFar.si(), 1e-6);
  const Mark mark = range_card(by_infrared({points[40].distance.si()})).marks.front();
  EXPECT_EQ(points[40].day.delivered, mark.day.delivered);
  EXPECT_EQ(points[40].night.delivered, mark.night.delivered);
  for (size_t i = 2; i < points.size(); ++i)
    EXPECT_NEAR(points[i].distance / points[i - 1].distance, points[1].distance / points[0].distance, 1e-9);
}

TEST(CardNight, ALongShutterShowsAStillSceneButSmearsAWalker) {
  CardRequest walking = by_infrared({8});
  walking.sheet.infrared->intensity = RadiantIntensity{0.2};
  walking.setting.shutter = Time{1.0 / 3};
  walking.height = Length{4};  // from above, who comes nearer moves down the picture
  CardRequest still = walking;
  still.typical.speed_walker = need::exactly(0, "speed");
  const Seeing at_rest = range_card(still).marks.front().night, moving = range_card(walking).marks.front().night;
  EXPECT_GT(at_rest.delivered.nominal.si(), 100);
  EXPECT_LT(moving.delivered.nominal.si(), 0.5 * at_rest.delivered.nominal.si());
  EXPECT_EQ(moving.limit, detail::Limit::kMotion);
}

TEST(CardNight, AShorterShutterCostsNoise) {
  const RangeCard card = range_card(by_infrared({10}));
  ASSERT_EQ(card.shutters.size(), 2U);
  EXPECT_NEAR(card.shutters[0].shutter.si(), 1 / (125 * 1.4), 1e-12);
  EXPECT_NEAR(card.shutters[0].distance.si(), kScale / 125, 1e-9);
  EXPECT_LT(card.shutters[1].noise_ratio, card.shutters[0].noise_ratio);
}

}  // namespace
}  // namespace sightfall::card
