// SPDX-License-Identifier: GPL-3.0-or-later
// A switch, a camera and a cable between: classes, losses and budgets by pencil.
#include "loads/power.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/copper.h"
#include "loads/loads.h"
#include "loads/poe.h"
#include "loads/test_power.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

TEST(Power, TwelveAndAHalfWattsPassClassThreeByAHairAndTheMarginIsSaid) {
  const PowerLoads answer = Wired{}.loads();
  ASSERT_THAT(answer.ports, SizeIs(1));
  const PortLoad& port = answer.ports.front();
  EXPECT_EQ(port.power_class, 3);
  EXPECT_EQ(port.device.held, Held::kMet);
  EXPECT_NEAR(port.device.margin()->in(W), 0.45, 1e-9);
  EXPECT_THAT(port.device.remedy, HasSubstr("12.50 W of 12.95 W: it passes by a hair, 0.45 W are left"));
  EXPECT_EQ(answer.held, Held::kMet);
}

TEST(Power, ThirteenWattsAreRefusedAndTheRightClassIsNamed) {
  Wired wired;
  wired.project.catalogue.front().power.largest = 13.0 * W;
  const PowerLoads answer = wired.loads();
  EXPECT_EQ(answer.ports.front().device.held, Held::kMissed);
  EXPECT_THAT(answer.ports.front().device.remedy, HasSubstr("class 4"));
  EXPECT_EQ(answer.held, Held::kMissed);
}

/// 50 m, two conductors each way: 3.34 ohm; a device of 12.5 W behind it at 44 V.
TEST(Power, TheCablesLossIsAddedAtThePort) {
  const PortLoad port = Wired{}.loads().ports.front();
  const auto device = fed(44.0 * V, 3.34 * ohm, 12.5 * W);
  EXPECT_NEAR(port.lost.nominal.in(W), device->lost.in(W), 1e-9);
  EXPECT_NEAR(port.at_port.load.nominal.in(W), 12.5 + device->lost.in(W), 1e-9);
  EXPECT_NEAR(port.voltage.nominal.in(V), device->at_device.in(V), 1e-9);
}

TEST(Power, ALongerCableNeverLosesLess) {
  for (double metres = 10; metres < 300; metres += 10)
    EXPECT_LT(Wired{}.loads(metres).ports.front().lost.nominal, Wired{}.loads(metres + 10).ports.front().lost.nominal);
}

TEST(Power, BeyondTheLongestChannelThePortFallsShort) {
  EXPECT_EQ(Wired{}.loads(400).ports.front().at_port.held, Held::kMissed);  // 26.7 ohm: 16.1 W at the port
}

TEST(Power, AFeedsBudgetHoldsAllItsPorts) {
  Wired wired;
  wired.project.site.feeds.front().ports.budget = 12.0 * W;
  const PowerLoads answer = wired.loads();
  EXPECT_EQ(answer.feeds.front().budget.held, Held::kMissed);
  EXPECT_EQ(answer.feeds.front().set_aside, 15.4 * W);
  wired.project.site.feeds.front().ports.budget = 13.5 * W;  // enough as measured, not as set aside
  const PowerLoads tight = wired.loads();
  EXPECT_EQ(tight.feeds.front().budget.held, Held::kMet);
  EXPECT_THAT(tight.feeds.front().budget.remedy, HasSubstr("sets power aside by class needs 15.4 W"));
  wired.project.site.feeds.front().ports.budget.reset();
  EXPECT_EQ(wired.loads().feeds.front().budget.held, Held::kUnknown);
}

TEST(Power, WhatIsToBeLaidAsFibreTakesNothingFromTheFeedsBudget) {
  Wired wired;
  const PowerLoads copper = wired.loads();
  site::Cable fibre;
  fibre.name = "fibre";
  fibre.medium = site::CableMedium::kFibre;
  wired.cabling.runs.front().instead = &fibre;
  const PowerLoads answer = power(wired.project, wired.cabling);
  EXPECT_EQ(answer.ports.front().held, Held::kMissed);
  EXPECT_EQ(answer.feeds.front().set_aside, 0.0 * W);
  EXPECT_EQ(answer.feeds.front().budget.load.high, 0.0 * W);
  EXPECT_GT(answer.a_year.nominal, 0.9 * copper.a_year.nominal);
}

TEST(Power, APortWithoutPowerFeedsNothing) {
  Wired wired;
  wired.project.site.runs.front().port = 5;  // the first four are powered
  const PowerLoads answer = wired.loads();
  EXPECT_THAT(answer.ports, IsEmpty());
  EXPECT_THAT(answer.unfed, ElementsAre("eye"));
  EXPECT_EQ(answer.held, Held::kUnknown);
}

TEST(Power, ASheetThatNamesAnotherSupplyIsUnknown) {
  Wired wired;
  wired.project.catalogue.front().power.supply = "12 V DC";
  const PowerLoads answer = wired.loads();
  EXPECT_EQ(answer.ports.front().held, Held::kUnknown);
  EXPECT_THAT(answer.ports.front().device.remedy, HasSubstr("12 V DC"));
}

TEST(Power, WhereThePortIsTheLowerOneItIsThePortThatIsNamed) {
  Wired wired;
  wired.project.catalogue.front().power.supply = "PoE class 4";
  wired.project.catalogue.front().power.largest = 20.0 * W;
  wired.project.site.feeds.front().ports.power_class = 3;
  EXPECT_THAT(wired.loads().ports.front().device.remedy, HasSubstr("a port of class 4: this one gives class 3"));
}

/// A sheet may name the amendment of IEEE 802.3 instead of a class, or class 0, which may draw what class 3 may.
TEST(Power, AnAmendmentOrClassZeroBoundsWhatADeviceMayDraw) {
  Wired wired;
  wired.project.catalogue.front().power.largest = 20.0 * W;
  for (const char* words : {"802.3af", "PoE class 0"}) {
    wired.project.catalogue.front().power.supply = words;
    EXPECT_EQ(wired.loads().ports.front().held, Held::kMissed) << words;
  }
  wired.project.catalogue.front().power.supply = "802.3at";
  EXPECT_EQ(wired.loads().ports.front().held, Held::kMet);
}

TEST(Power, OfADeviceThatIsRefusedNoOtherCableIsNamed) {
  Wired wired;
  wired.project.catalogue.front().power.largest = 20.0 * W;
  Loads loads;
  loads.power = wired.loads();
  const auto asks = asks_of(loads);
  ASSERT_FALSE(asks.empty());
  EXPECT_THAT(asks.front().remedy, HasSubstr("class 4"));
  EXPECT_THAT(asks.front().remedy, Not(HasSubstr("thicker cable")));
  wired.project.catalogue.front().power.largest = 12.5 * W;
  loads.power = wired.loads(400);
  EXPECT_THAT(asks_of(loads).front().remedy, HasSubstr("thicker cable"));
}

TEST(Power, WhatFallsShortOnTheWayIsNotSaidToPassByAHair) {
  Wired wired;
  const PortLoad port = wired.loads(400).ports.front();
  EXPECT_EQ(port.device.held, Held::kMet);
  EXPECT_THAT(port.device.remedy, IsEmpty());
  EXPECT_THAT(port.at_port.remedy, HasSubstr("a shorter or thicker cable"));
}

TEST(Power, WhatIsLeftOutIsSaid) {
  Wired wired;
  wired.project.site.feeds.front().draw.reset();
  wired.project.catalogue.front().power.largest.reset();
  const auto cautions = wired.loads().cautions;
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("states no draw of its own"))));
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("states no largest draw"))));
  EXPECT_THAT(cautions, Not(Contains(Field(&Caution::text, HasSubstr("hangs outdoors")))));
  wired.project.site.feeds.front().outdoors = true;
  EXPECT_THAT(wired.loads().cautions, Contains(Field(&Caution::text, HasSubstr("hangs outdoors: in a box"))));
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("half of the hours are taken as dark"))));
}

TEST(Power, InfraredCountsByNightAndNotWhenItIsOff) {
  Wired wired;
  wired.project.catalogue.front().infrared = camera::Infrared{.draw = 4.0 * W};
  EXPECT_EQ(wired.loads().draws.front().by_day.nominal, 5.0 * W);
  EXPECT_EQ(wired.loads().draws.front().by_night.nominal, 9.0 * W);
  wired.project.cameras.front().infrared = camera::InfraredUse::kOff;
  EXPECT_EQ(wired.loads().draws.front().by_night.nominal, 5.0 * W);
}

TEST(Power, AStatedHeaterOrMotorIsInTheHighEndOfEnergyAndBatteryHours) {
  Wired wired;
  camera::PowerDraw& stated = wired.project.catalogue.front().power;
  stated.largest.reset();
  const Ranged<Energy> still = wired.loads().a_year;
  stated.heater = 6.0 * W, stated.motor = 2.0 * W;
  const PowerLoads answer = wired.loads();
  const Draw& draw = answer.draws.front();
  EXPECT_EQ(draw.by_night.nominal, 5.0 * W);
  EXPECT_EQ(draw.by_night.high, 13.0 * W);
  EXPECT_EQ(draw.by_day.high, 13.0 * W);
  EXPECT_EQ(draw.largest.high, 13.0 * W);
  EXPECT_GT(answer.a_year.high, still.high + 8.0 * W * (365.25 * day));
  EXPECT_NEAR(answer.a_year.low / still.low, 1, 1e-3);
  stated.largest = 9.0 * W;  // which it never draws more than
  EXPECT_EQ(wired.loads().draws.front().by_night.high, 9.0 * W);
}

TEST(Power, WhatNoSheetStatesIsEstimatedInARange) {
  Wired wired;
  wired.project.settings.typical.body_draw.value = {2, 4, 8};
  wired.project.catalogue.front().power = {};
  const Draw draw = wired.loads().draws.front();
  EXPECT_EQ(draw.largest.low, 2.0 * W);
  EXPECT_EQ(draw.largest.high, 8.0 * W);
}

}  // namespace
}  // namespace sightfall::loads
