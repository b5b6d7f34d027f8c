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
    laid.reach = reach_of(laid.length, *laid.cable, cables);
    judge_run(laid, cables, buildings);
  }
};

Bearing<Length> reach(double low, double nominal, double high, const std::string& cable = "pairs, outdoor") {
  const std::vector<site::Cable> cables = plain_cables();
  return reach_of({Length{low}, Length{nominal}, Length{high}}, need::the_named(cables, cable), cables);
}

TEST(RunRules, PairsReachAHundredMetres) {
  EXPECT_EQ(reach(80, 90, 100).held, Held::kMet);
  EXPECT_EQ(reach(90, 95, 100.1).held, Held::kMarginal);
  EXPECT_EQ(reach(100.1, 110, 120).held, Held::kMissed);
}

TEST(RunRules, BeyondItTheRemedyNamesTheFibreThatReaches) {
  EXPECT_THAT(reach(101, 110, 120).remedy,
              HasSubstr("at least 101 m of 100 m: use \"fibre\", which carries no power, or a switch on the way"));
  EXPECT_THAT(reach(90, 95, 120).remedy, HasSubstr("measure the run"));
  EXPECT_THAT(reach(600, 610, 620).remedy, HasSubstr("use fibre,"));  // the one of the table reaches 550 m
  EXPECT_THAT(reach(10, 10, 10).remedy, IsEmpty());
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
  EXPECT_EQ(Judged(20, "pairs, indoor", true, false).laid.held, Held::kMarginal);
  EXPECT_EQ(Judged(20, "pairs, indoor", false, false).laid.held, Held::kMet);
}

TEST(RunRules, AThinUnshieldedTailOutdoorsIsFlagged) {
  EXPECT_THAT(Judged(2, "thin tail", true, true).laid.flags, Contains(HasSubstr("thin and unshielded")));
  EXPECT_THAT(Judged(2, "thin tail", false, false).laid.flags, IsEmpty());
}

TEST(RunRules, CopperOutdoorsIsToBeProtectedAgainstSurges) {
  const Judged open(20, "pairs, outdoor", true, true, false);
  EXPECT_THAT(open.laid.flags, ElementsAre(HasSubstr("protect both ends against surges")));
  EXPECT_EQ(open.laid.held, Held::kMet);
  EXPECT_THAT(Judged(20, "pairs, outdoor", true, true, true).laid.flags, IsEmpty());
  EXPECT_THAT(Judged(20, "fibre", true, true, false).laid.flags, IsEmpty());
}

TEST(RunRules, CopperBetweenBuildingsAsksForFibreWhereEarthsDiffer) {
  const Pair both{{"shop", "shed"}};
  const Judged open(20, "pairs, outdoor", true, true, false, both);
  EXPECT_EQ(open.laid.held, Held::kMarginal);
  EXPECT_THAT(open.laid.flags, ElementsAre(::testing::AllOf(HasSubstr("from \"shop\" to \"shed\""),
                                                            HasSubstr("use \"fibre\""), HasSubstr("otherwise"))));
  const Judged closed(20, "pairs, outdoor", true, true, true, both);
  EXPECT_EQ(closed.laid.held, Held::kMet);
  EXPECT_THAT(closed.laid.flags, ElementsAre(HasSubstr("use \"fibre\"")));
  EXPECT_THAT(Judged(20, "conductors", true, true, false, both).laid.flags,
              ElementsAre(HasSubstr("feed each from its own")));
  EXPECT_THAT(Judged(20, "fibre", true, true, false, both).laid.flags, IsEmpty());
}

}  // namespace
}  // namespace sightfall::loads
