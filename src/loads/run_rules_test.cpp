// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/run_rules.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/test_cabling.h"

namespace sightfall::loads {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

using Pair = std::optional<std::pair<std::string, std::string>>;

/// A run of so many metres that has been judged.
struct Judged {
  site::Run run;
  std::vector<site::Cable> cables = plain_cables();
  LaidRun laid;

  Judged(double metres, const std::string& cable, bool outdoors, bool in_sun, bool surge_protected = true,
         const Pair& buildings = {}) {
    run.surge_protected = surge_protected;
    laid.run = &run;
    laid.cable = &need::the_named(cables, cable);
    laid.length = Ranged<Length>::exact(Length{metres});
    laid.outdoors = outdoors;
    laid.in_sun = in_sun;
    judge(buildings);
  }
  /// Outdoors, from a port that gives power or from one that gives none.
  Judged(const Ranged<Length>& length, bool powered, const Pair& buildings = {}) {
    laid.run = &run;
    laid.cable = &need::the_named(cables, "pairs, outdoor");
    laid.length = length;
    laid.outdoors = laid.in_sun = true;
    laid.powered = powered;
    judge(buildings);
  }
  void judge(const Pair& buildings) {
    laid.reach = reach_of(laid.length, *laid.cable);
    judge_run(laid, cables, buildings);
  }
  std::string instead() const { return laid.instead != nullptr ? laid.instead->name : ""; }
};

Ranged<Length> metres(double low, double nominal, double high) { return {Length{low}, Length{nominal}, Length{high}}; }

Bearing<Length> reach(double low, double nominal, double high, const std::string& cable = "pairs, outdoor") {
  return reach_of(metres(low, nominal, high), need::the_named(plain_cables(), cable));
}

TEST(RunRules, PairsReachAHundredMetres) {
  EXPECT_EQ(reach(80, 90, 100).held, Held::kMet);
  EXPECT_EQ(reach(90, 95, 100.1).held, Held::kMarginal);
  EXPECT_EQ(reach(100.1, 110, 120).held, Held::kMissed);
}

TEST(RunRules, BeyondItTheFibreThatReachesIsLaidInstead) {
  const Judged fed(metres(101, 110, 120), true);
  EXPECT_EQ(fed.instead(), "fibre");
  EXPECT_EQ(fed.laid.reach.remedy, "at least 101 m of 100 m: use \"fibre\", which carries no power");
  EXPECT_EQ(fed.laid.otherwise, "a switch on the way, so that no part is longer than 100 m");
  EXPECT_THAT(fed.laid.flags, IsEmpty());  // surges are copper's
  EXPECT_EQ(Judged(metres(101, 110, 120), false).laid.reach.remedy, "at least 101 m of 100 m: use \"fibre\"");
  const Judged beyond_the_table(metres(600, 610, 620), true);  // its fibre reaches 550 m
  EXPECT_EQ(beyond_the_table.laid.instead, nullptr);
  EXPECT_THAT(beyond_the_table.laid.reach.remedy, HasSubstr("use fibre,"));
}

TEST(RunRules, WhatMayBeTooLongIsMeasuredBeforeAnotherCableIsChosen) {
  const Judged maybe(metres(90, 95, 120), true);
  EXPECT_EQ(maybe.laid.instead, nullptr);
  EXPECT_EQ(maybe.laid.reach.remedy, "90 to 120 m of 100 m: measure the run and state its length");
  EXPECT_THAT(maybe.laid.otherwise, HasSubstr("\"fibre\", which carries no power, or a switch on the way, if it is"));
  EXPECT_THAT(Judged(metres(10, 10, 10), true).laid.reach.remedy, IsEmpty());
}

TEST(RunRules, ACordThatIsTooLongBecomesACableOfItsKind) {
  Judged judged(30, "pairs, indoor", false, false);
  site::Cable cord = pairs("cord", 6, false);
  cord.longest = Length{20};
  judged.laid = {};
  judged.laid.run = &judged.run;
  judged.laid.cable = &cord;
  judged.laid.length = Ranged<Length>::exact(Length{30});
  judged.judge({});
  EXPECT_EQ(judged.instead(), "pairs, indoor");
  EXPECT_THAT(judged.laid.otherwise, IsEmpty());
}

TEST(RunRules, ConductorsHaveNoLongestLengthOfTheirOwn) {
  EXPECT_EQ(reach(500, 600, 700, "conductors").held, Held::kMet);
  EXPECT_FALSE(reach(500, 600, 700, "conductors").capacity);
}

TEST(RunRules, WithinReachButWithoutRoomForCordsIsFlagged) {
  EXPECT_THAT(Judged(90, "pairs, outdoor", true, true).laid.flags, IsEmpty());
  const Judged longer(91, "pairs, outdoor", true, true);
  EXPECT_THAT(longer.laid.flags, ElementsAre(HasSubstr("beyond 90 m there is little room for cords")));
  EXPECT_EQ(longer.laid.held, Held::kMet);
  EXPECT_THAT(Judged(101, "pairs, outdoor", true, true).laid.flags, IsEmpty());  // its reach says it
}

TEST(RunRules, AnIndoorSheathInTheSunIsMissedAndTheRemedyIsItsTwin) {
  const Judged judged(20, "pairs, indoor", true, true);
  EXPECT_EQ(judged.laid.held, Held::kMissed);
  EXPECT_THAT(judged.laid.flags, ElementsAre(HasSubstr("use \"pairs, outdoor\"")));
  EXPECT_EQ(judged.instead(), "pairs, outdoor");
  EXPECT_EQ(Judged(20, "pairs, indoor", true, false).laid.held, Held::kMarginal);
  EXPECT_EQ(Judged(20, "pairs, indoor", false, false).laid.held, Held::kMet);
}

/// Of conductors the twin is as thick: a thin one, first in the table, would lose the voltage on the way.
TEST(RunRules, TheTwinForOutdoorsHasConductorsAsThick) {
  Judged judged(20, "pairs, indoor", true, true);
  judged.cables.insert(judged.cables.begin(), pairs("thin, outdoor", 5, true));
  judged.cables.front().resistance = Resistivity{0.2};
  LaidRun laid;
  laid.run = &judged.run, laid.cable = &need::the_named(judged.cables, "pairs, indoor");
  laid.length = metres(20, 20, 20), laid.outdoors = laid.in_sun = true;
  laid.reach = reach_of(laid.length, *laid.cable);
  judge_run(laid, judged.cables, {});
  ASSERT_NE(laid.instead, nullptr);
  EXPECT_EQ(laid.instead->name, "pairs, outdoor");
}

TEST(RunRules, AThinUnshieldedTailOutdoorsIsFlagged) {
  EXPECT_THAT(Judged(2, "thin tail", true, true).laid.flags, Contains(HasSubstr("thin and unshielded")));
  EXPECT_THAT(Judged(2, "thin tail", false, false).laid.flags, IsEmpty());
}

TEST(RunRules, CopperOutdoorsIsToBeProtectedAgainstSurges) {
  const Judged open(20, "pairs, outdoor", true, true, false);
  EXPECT_THAT(open.laid.flags, ElementsAre(HasSubstr("nothing is stated against surges: protect both ends")));
  EXPECT_EQ(open.laid.held, Held::kMet);
  EXPECT_THAT(Judged(20, "pairs, outdoor", true, true, true).laid.flags, IsEmpty());
  EXPECT_THAT(Judged(20, "fibre", true, true, false).laid.flags, IsEmpty());
}

TEST(RunRules, CopperBetweenBuildingsStaysWhereItCarriesPower) {
  const Pair both{{"shop", "shed"}};
  const Judged fed(metres(20, 20, 20), true, both);
  EXPECT_EQ(fed.laid.held, Held::kMarginal);
  EXPECT_EQ(fed.laid.instead, nullptr);
  EXPECT_THAT(fed.laid.flags,
              ElementsAre(::testing::AllOf(HasSubstr("from \"shop\" to \"shed\""), HasSubstr("protect both ends"))));
  EXPECT_EQ(fed.laid.otherwise, "where each has an earth of its own, \"fibre\", which carries no power");
  const Judged closed(20, "pairs, outdoor", true, true, true, both);
  EXPECT_EQ(closed.laid.held, Held::kMet);
  EXPECT_THAT(closed.laid.flags, ElementsAre(::testing::Not(HasSubstr("protect both ends"))));
  EXPECT_THAT(Judged(20, "conductors", true, true, false, both).laid.otherwise, HasSubstr("feed each from its own"));
  EXPECT_THAT(Judged(20, "fibre", true, true, false, both).laid.flags, IsEmpty());
}

TEST(RunRules, CopperBetweenBuildingsThatCarriesNoPowerBecomesFibre) {
  const Judged judged(metres(20, 20, 20), false, Pair{{"shop", "shed"}});
  EXPECT_EQ(judged.instead(), "fibre");
  EXPECT_EQ(judged.laid.held, Held::kMarginal);
  EXPECT_THAT(judged.laid.flags, ElementsAre(HasSubstr("need not carry power, so use \"fibre\"")));
  EXPECT_THAT(judged.laid.otherwise, HasSubstr("surges"));
}

}  // namespace
}  // namespace sightfall::loads
