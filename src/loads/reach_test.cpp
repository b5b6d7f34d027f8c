// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/reach.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

// Two rules that are not the same: one out for four up is 75.96 degrees, a quarter of the working length 75.52.
TEST(Reach, TheTwoLadderRulesDiffer) {
  const double up = std::atan(Length{4} / foot_out(Length{4})) * 180 / std::numbers::pi;
  const double along = std::acos(foot_out_of_length(Length{4}) / Length{4}) * 180 / std::numbers::pi;
  EXPECT_NEAR(up, 75.96, 0.01);
  EXPECT_NEAR(along, 75.52, 0.01);
  // OSHA's example worked out: 4 m of ladder stand 1.0 m out and reach 3.873 m up.
  EXPECT_NEAR(std::sqrt(16 - std::pow(foot_out_of_length(Length{4}).in(m), 2)), 3.873, 1e-3);
}

TEST(Reach, BelowThreeMetresAHandReachesIt) {
  EXPECT_THAT(access_words(Length{2.9}, 1.0 * kg, false), Contains(HasSubstr("within reach of a hand")));
  EXPECT_THAT(access_words(Length{3.1}, 1.0 * kg, false), Not(Contains(HasSubstr("within reach of a hand"))));
}

TEST(Reach, FromTheGroundNoLadderIsNamed) {
  EXPECT_THAT(access_words(Length{1.8}, 1.0 * kg, false), Not(Contains(HasSubstr("ladder"))));
}

TEST(Reach, OnAPoleALadderAsksForARest) {
  EXPECT_THAT(access_words(Length{4}, 1.0 * kg, true), Contains(HasSubstr("no ladder leans on a bare pole")));
  EXPECT_THAT(access_words(Length{4}, 1.0 * kg, false), Not(Contains(HasSubstr("bare pole"))));
  EXPECT_THAT(access_words(Length{12}, 1.0 * kg, true), Not(Contains(HasSubstr("bare pole"))));
  EXPECT_THAT(access_words(Length{1.8}, 1.0 * kg, true), Not(Contains(HasSubstr("ladder"))));
}

TEST(Reach, HeavyOrHighAsksForALift) {
  EXPECT_THAT(access_words(Length{4}, 1.0 * kg, false), Contains(HasSubstr("1.0 m out for 4.0 m up")));
  EXPECT_THAT(access_words(Length{4}, 1.0 * kg, false), Contains(HasSubstr("30 minutes in one position")));
  EXPECT_THAT(access_words(Length{4}, 11.0 * kg, false), Contains(HasSubstr("a lift or a scaffold")));
  EXPECT_THAT(access_words(Length{9.5}, 1.0 * kg, false), Contains(HasSubstr("a lift or a scaffold")));
  EXPECT_THAT(access_words(Length{4}, 1.0 * kg, false), Contains(HasSubstr("local codes and licensed trades decide")));
}

}  // namespace
}  // namespace sightfall::loads
