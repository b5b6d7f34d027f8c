// SPDX-License-Identifier: GPL-3.0-or-later
// A switch, a camera and a cable between: classes, losses, budgets, supplies and batteries by pencil.
#include "loads/power.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/battery.h"
#include "loads/copper.h"
#include "loads/poe.h"
#include "need/test_project.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// One camera of class 3 on port 1 of a switch, 50 m of 66.8 ohm/km at 20 degrees; nothing is uncertain.
struct Wired {
  need::Project project = need::plain_project();
  site::Cable pairs, conductors;
  Cabling cabling;

  Wired() {
    pairs.name = "pairs";
    pairs.resistance = 66.8 * (ohm / km);
    conductors = pairs;
    conductors.medium = site::CableMedium::kConductors;
    conductors.resistance = 13.3 * (ohm / km);
    detail::Typical& typical = project.settings.typical;
    typical.conductor_temperature = need::exactly(20, "temperature");
    typical.supply_efficiency = need::exactly(0.8, "supply");
    typical.battery_efficiency = need::exactly(0.9, "battery");
    typical.battery_age = need::exactly(0.8, "age");
    typical.peukert_sealed = need::exactly(1.1, "Peukert");
    typical.body_draw = need::exactly(4, "body");
    camera::Sheet& sheet = project.catalogue.front();
    sheet.power.supply = "PoE class 3";
    sheet.power.typical = 5.0 * W;
    sheet.power.largest = 12.5 * W;
    site::Feed feed;
    feed.name = "switch";
    feed.ports = {8, {}, 4, 4, 60.0 * W};
    feed.draw = 10.0 * W;
    project.site.feeds = {feed};
    project.site.runs = {{.name = "C1", .from = "switch", .port = 1, .to = "eye", .cable = "pairs"}};
  }

  PowerLoads loads(double metres = 50) {
    cabling.runs.clear();
    for (const site::Run& run : project.site.runs) {
      LaidRun laid;
      laid.run = &run;
      laid.cable = run.cable == "pairs" ? &pairs : &conductors;
      laid.length = Ranged<Length>::exact(Length{metres});
      cabling.runs.push_back(laid);
    }
    return power(project, cabling);
  }
};

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
  EXPECT_THAT(tight.feeds.front().budget.remedy, HasSubstr("sets power aside by class needs 15 W"));
  wired.project.site.feeds.front().ports.budget.reset();
  EXPECT_EQ(wired.loads().feeds.front().budget.held, Held::kUnknown);
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

TEST(Power, WhatIsLeftOutIsSaid) {
  Wired wired;
  wired.project.site.feeds.front().draw.reset();
  wired.project.catalogue.front().power.largest.reset();
  const auto cautions = wired.loads().cautions;
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("states no draw of its own"))));
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("states no largest draw"))));
  EXPECT_THAT(cautions, Contains(Field(&Caution::text, HasSubstr("half of the hours are taken as dark"))));
}

TEST(Power, ASuppliesRunMayLoseATenth) {
  Wired wired;
  site::Feed supply;
  supply.kind = site::FeedKind::kSupply;
  supply.name = "twelve";
  supply.voltage = 12.0 * V;
  supply.rating = 30.0 * W;
  wired.project.site.feeds = {supply};
  wired.project.site.runs = {{.name = "P1", .from = "twelve", .to = "eye", .cable = "conductors"}};
  const SupplyRun run = wired.loads(20).supply_runs.front();  // 0.532 ohm
  const auto device = fed(12.0 * V, 0.532 * ohm, 12.5 * W);
  EXPECT_NEAR(run.drop.load.nominal.in(V), 12 - device->at_device.in(V), 1e-9);
  EXPECT_NEAR(run.drop.capacity->in(V), 1.2, 1e-12);
  EXPECT_EQ(run.drop.held, Held::kMet);
  EXPECT_EQ(wired.loads(60).supply_runs.front().drop.held, Held::kMissed);
  EXPECT_EQ(wired.loads(200).supply_runs.front().drop.held, Held::kMissed);  // cannot carry it at all
  EXPECT_GE(wired.loads(200).feeds.front().budget.load.nominal, 25.0 * W);   // and is not free either
  EXPECT_EQ(wired.loads(20).feeds.front().budget.held, Held::kMet);
}

TEST(Power, ABatteryLastsAsPeukertSays) {
  Wired wired;
  wired.project.site.feeds.front().battery = "cells";
  site::Feed battery;
  battery.kind = site::FeedKind::kBattery;
  battery.name = "cells";
  battery.voltage = 24.0 * V;
  battery.capacity = 18.0 * Ah;
  wired.project.site.feeds.push_back(battery);
  const PowerLoads answer = wired.loads();
  ASSERT_THAT(answer.batteries, SizeIs(1));
  // 5 W of camera with its cable's loss and 10 W of switch, through a supply of 0.8 and the battery's own 0.9.
  const double lost = answer.ports.front().lost.nominal.in(W) * (5 / 12.5) * (5 / 12.5), drawn = (15 + lost) / 0.8;
  EXPECT_GT(lost, 0.01);
  EXPECT_NEAR(answer.batteries.front().drawn.nominal.in(W), drawn / 0.9, 1e-9);
  EXPECT_NEAR(answer.batteries.front().lasts.nominal.in(hour),
              lasts(0.8 * 18 * Ah, 20.0 * hour, 1.1, drawn / 0.9 / 24 * A).in(hour), 1e-6);
  // Half a year each, day and night alike: no infrared.
  EXPECT_NEAR(answer.a_year.nominal.in(kWh), drawn * 365.25 * 24 / 1000, 1e-6);
}

TEST(Power, InfraredCountsByNightAndNotWhenItIsOff) {
  Wired wired;
  wired.project.catalogue.front().infrared = camera::Infrared{.draw = 4.0 * W};
  EXPECT_EQ(wired.loads().draws.front().by_day.nominal, 5.0 * W);
  EXPECT_EQ(wired.loads().draws.front().by_night.nominal, 9.0 * W);
  wired.project.cameras.front().infrared = camera::InfraredUse::kOff;
  EXPECT_EQ(wired.loads().draws.front().by_night.nominal, 5.0 * W);
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
