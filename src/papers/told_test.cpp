// SPDX-License-Identifier: GPL-3.0-or-later
// Figures in words.
#include "papers/told.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;

TEST(Told, NumbersAreAsFineAsAskedFor) {
  EXPECT_EQ(number(12.345), "12.3");
  EXPECT_EQ(number(12.5, 0), "12");
  EXPECT_EQ(number(-0.01), "0.0");
  EXPECT_EQ(number(-0.6, 0), "-1");
  EXPECT_EQ(number(std::numeric_limits<double>::infinity()), "infinite");
}

TEST(Told, ARangeIsLeftOutWhereItSaysNothing) {
  EXPECT_EQ(ranged({11, 12.34, 14.2}), "12.3 (11.0 to 14.2)");
  EXPECT_EQ(ranged({12.31, 12.34, 12.32}), "12.3");
}

TEST(Told, ShuttersAsFractions) {
  EXPECT_EQ(shutter(0.02 * s), "1/50 s");
  EXPECT_EQ(shutter(2.0 * s), "2 s");
}

TEST(Told, ThePlansNorthBesideTrueAndMagneticNorth) {
  need::Project project;
  EXPECT_THAT(north_words(project), HasSubstr("was not entered. A compass shows magnetic north"));
  project.site.anchor.emplace();
  EXPECT_THAT(north_words(project), HasSubstr("The plan's north is true north."));
  project.site.anchor->turn = 3 * deg;
  EXPECT_THAT(north_words(project), HasSubstr("True north is 3.0 deg clockwise of the plan's."));
}

TEST(Told, WhatIsTapedIsAsFineAsATapeIsRead) {
  EXPECT_EQ(taped_words(Length{12.34}, need::Units::kMetres), "12.3 m");
  EXPECT_EQ(taped_words(Length{12.34}, need::Units::kFeet), "40 ft 6 in");  // 485.8 in
}

TEST(Told, PlacesInTheUsersUnits) {
  EXPECT_EQ(place_on_plan({3.048, -1}, need::Units::kMetres), "3.0 m east, -1.0 m north");
  EXPECT_EQ(place_on_plan({3.048, 0}, need::Units::kFeet), "10.0 ft east, 0.0 ft north");
}

TEST(Told, WhatIsNotMetIsSaidLoud) {
  EXPECT_EQ(verdict_word(need::Answer::kMet), "met");
  EXPECT_EQ(verdict_word(need::Answer::kMissed), "MISSED");
}

TEST(Told, ADashWhereNothingHoldsBack) {
  EXPECT_EQ(limit_words(detail::Limit::kNone), "-");
  EXPECT_EQ(limit_words(detail::Limit::kOutOfView), "out of view");
}

TEST(Told, WhatSeveralShareIsSaidOfEach) {
  EXPECT_EQ(caution_words(Said{{"door", "gate"}, "hangs outdoors"}), "Each of door, gate: hangs outdoors");
  EXPECT_EQ(caution_words(Said{{"door"}, "hangs outdoors"}), "door: hangs outdoors");
}

TEST(Told, ACautionWithoutAnObjectHasNoColon) {
  EXPECT_EQ(caution_words({"", "look out"}), "look out");
  EXPECT_EQ(caution_words({"gate", "look out"}), "gate: look out");
}

}  // namespace
}  // namespace sightfall::papers
