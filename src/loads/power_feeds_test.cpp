// SPDX-License-Identifier: GPL-3.0-or-later
// Supplies and their words, batteries and the hours wanted of them, and feeds that hang on other feeds, by pencil.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/battery.h"
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
using ::testing::SizeIs;

/// The camera on a supply that gives so many volts.
Wired supplied(double volts) {
  Wired wired;
  site::Feed supply;
  supply.kind = site::FeedKind::kSupply;
  supply.name = "supply";
  supply.voltage = volts * V;
  supply.rating = 30.0 * W;
  wired.project.site.feeds = {supply};
  wired.project.site.runs = {{.name = "P1", .from = "supply", .to = "eye", .cable = "conductors"}};
  wired.project.catalogue.front().power.supply.reset();
  return wired;
}

TEST(PowerSupplies, ASuppliesRunMayLoseATenth) {
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

/// A device of 12 V needs 10.8: of 13.8 V a run may lose 3, of 11 V no more than 0.2; of a wide range a quarter.
TEST(PowerSupplies, ARunMayLoseWhatLiesAboveTheLeastThatTheSheetBears) {
  const auto may_lose = [](double volts, const char* words) {
    Wired wired = supplied(volts);
    wired.project.catalogue.front().power.supply = words;
    return wired.loads(20).supply_runs.front().drop.capacity->in(V);
  };
  EXPECT_NEAR(may_lose(12, "12 V DC"), 1.2, 1e-9);
  EXPECT_NEAR(may_lose(13.8, "12 V DC"), 3, 1e-9);
  EXPECT_NEAR(may_lose(11, "12 V DC"), 0.2, 1e-9);
  EXPECT_NEAR(may_lose(12, "12 V DC +-25 %"), 3, 1e-9);
  EXPECT_NEAR(may_lose(24, "9-36 V DC"), 6, 1e-9);
  EXPECT_NEAR(may_lose(24, "12 V DC / 24 V AC"), 2.4, 1e-9);  // it bears neither
}

/// 60 m of 1.596 ohm, 12.5 W: 13.8 V reach the device as 12.1, and 11 V over 20 m as less than 10.8.
TEST(PowerSupplies, AFloatingBatterysVoltageReachesFartherAndAnEmptyOnesDoesNot) {
  Wired floating = supplied(13.8), low = supplied(11);
  floating.project.catalogue.front().power.supply = "12 V DC";
  low.project.catalogue.front().power.supply = "12 V DC";
  EXPECT_EQ(floating.loads(60).supply_runs.front().held, Held::kMet);
  EXPECT_EQ(low.loads(20).supply_runs.front().held, Held::kMissed);
}

TEST(PowerSupplies, ASheetOfAnotherVoltageIsMissedWithItsRemedy) {
  Wired wired = supplied(24);
  wired.project.catalogue.front().power.supply = "12 V DC";
  const PowerLoads answer = wired.loads(5);
  const SupplyRun& run = answer.supply_runs.front();
  EXPECT_EQ(run.drop.held, Held::kMet);
  EXPECT_EQ(run.held, Held::kMissed);
  EXPECT_THAT(run.mismatch, HasSubstr("\"12 V DC\" and the supply gives 24 V DC: a supply of the sheet's voltage"));
  EXPECT_EQ(answer.held, Held::kMissed);
  wired.project.catalogue.front().power.supply = "12-24 V DC";
  EXPECT_THAT(wired.loads(5).supply_runs.front().mismatch, IsEmpty());
  EXPECT_EQ(wired.loads(5).supply_runs.front().held, Held::kMet);
  wired.project.site.feeds.front().alternating = true;
  EXPECT_EQ(wired.loads(5).supply_runs.front().held, Held::kMissed);
}

TEST(PowerSupplies, ASheetThatNamesNoVoltageIsUnknown) {
  Wired wired = supplied(24);
  wired.project.catalogue.front().power.supply = "PoE class 3";
  const SupplyRun run = wired.loads(5).supply_runs.front();
  EXPECT_EQ(run.held, Held::kUnknown);
  EXPECT_THAT(run.mismatch, HasSubstr("\"PoE class 3\": find out whether it takes 24 V DC"));
}

/// 24 V AC, 20 m of 13.3 ohm/km (0.532 ohm), 12.5 W at a power factor of 0.5.
TEST(PowerSupplies, AlternatingCurrentLosesByItsPowerFactorAndIsRatedInApparentPower) {
  Wired wired = supplied(24);
  wired.project.site.feeds.front().alternating = true;
  wired.project.site.feeds.front().power_factor = 0.5;
  const PowerLoads answer = wired.loads(20);
  const auto device = fed(24.0 * V, 0.532 * ohm, 12.5 * W, 0.5);
  EXPECT_NEAR(answer.supply_runs.front().drop.load.nominal.in(V), 24 - device->at_device.in(V), 1e-9);
  EXPECT_NEAR(answer.supply_runs.front().lost.in(W), device->lost.in(W), 1e-9);
  EXPECT_TRUE(answer.feeds.front().apparent);
  EXPECT_NEAR(answer.feeds.front().budget.load.nominal.in(W), (12.5 + device->lost.in(W)) / 0.5, 1e-9);
  EXPECT_THAT(answer.cautions, Not(Contains(Field(&Caution::text, HasSubstr("power factor")))));
}

TEST(PowerSupplies, AnUnknownPowerFactorIsARangeAndIsSaid) {
  Wired wired = supplied(24);
  wired.project.site.feeds.front().alternating = true;
  const PowerLoads answer = wired.loads(20);
  const auto at = [&](double factor) { return 24 - fed(24.0 * V, 0.532 * ohm, 12.5 * W, factor)->at_device.in(V); };
  EXPECT_NEAR(answer.supply_runs.front().drop.load.high.in(V), at(kPowerFactor.low), 1e-9);
  EXPECT_NEAR(answer.supply_runs.front().drop.load.low.in(V), at(kPowerFactor.high), 1e-9);
  EXPECT_THAT(answer.cautions, Contains(Field(&Caution::text, HasSubstr("states no power factor"))));
}

TEST(PowerBatteries, ABatteryLastsAsPeukertSays) {
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

TEST(PowerBatteries, TheHoursWantedAreHeldAgainstTheCapacity) {
  Wired wired;
  wired.project.site.feeds.front().battery = "cells";
  site::Feed battery;
  battery.kind = site::FeedKind::kBattery;
  battery.name = "cells";
  battery.voltage = 24.0 * V;
  battery.capacity = 18.0 * Ah;
  wired.project.site.feeds.push_back(battery);
  EXPECT_TRUE(wired.loads().batteries.front().wanted.rule.empty());
  const Time lasts = wired.loads().batteries.front().lasts.nominal;
  const auto wanted = [&](Time hours) {
    wired.project.site.feeds.back().wanted = hours;
    return wired.loads();
  };
  EXPECT_EQ(wanted(0.99 * lasts).held, Held::kMet);
  const PowerLoads answer = wanted(1.01 * lasts);
  EXPECT_EQ(answer.held, Held::kMissed);
  // As Peukert has it, not in proportion.
  EXPECT_NEAR(answer.batteries.front().wanted.load.nominal.in(Ah), 18 * std::pow(1.01, 1 / 1.1), 1e-9);
  EXPECT_THAT(answer.batteries.front().wanted.remedy, HasSubstr("18.2 Ah to be sure of "));
  wired.project.settings.typical.battery_age.value = {0.6, 0.8, 1};
  EXPECT_EQ(wanted(lasts).batteries.front().wanted.held, Held::kMarginal);
}

TEST(PowerBatteries, HoursWantedOfABatteryThatCarriesNothingAreUnknown) {
  Wired wired;
  site::Feed battery;
  battery.kind = site::FeedKind::kBattery;
  battery.name = "cells";
  battery.voltage = 24.0 * V;
  battery.capacity = 18.0 * Ah;
  wired.project.site.feeds.push_back(battery);
  EXPECT_EQ(wired.loads().held, Held::kMet);
  wired.project.site.feeds.back().wanted = 1.0 * hour;
  EXPECT_EQ(wired.loads().held, Held::kUnknown);
}

// Energy balance: 12 V, 9 Ah of which 70 % are usable, through a converter of 90 %, carry 40 W for 102.06 min.
TEST(PowerBatteries, LastsAsAnEnergyBalanceSaysWithoutPeukert) {
  Wired wired;
  detail::Typical& typical = wired.project.settings.typical;
  typical.supply_efficiency = need::exactly(1, "supply");
  typical.battery_efficiency = need::exactly(0.9, "battery");
  typical.battery_age = need::exactly(0.7, "age");
  typical.peukert_sealed = need::exactly(1, "Peukert");
  wired.project.site.runs.clear();
  wired.project.site.feeds.front().draw = 40.0 * W;
  wired.project.site.feeds.front().battery = "cells";
  site::Feed battery;
  battery.kind = site::FeedKind::kBattery;
  battery.name = "cells";
  battery.voltage = 12.0 * V;
  battery.capacity = 9.0 * Ah;
  wired.project.site.feeds.push_back(battery);
  EXPECT_NEAR(wired.loads().batteries.front().lasts.nominal.in(units::s) / 60, 102.06, 1e-6);
}

/// The switch feeds `far`, a switch of 3 W on its port 2, on whose port 1 the camera hangs.
Wired chained() {
  Wired wired;
  site::Feed far;
  far.name = "far";
  far.ports = {4, {}, 2, 3, 20.0 * W};
  far.draw = 3.0 * W;
  far.powered_over_cable = true;
  wired.project.site.feeds.push_back(far);
  wired.project.site.runs = {{.name = "C1", .from = "far", .port = 1, .to = "eye", .cable = "pairs"},
                             {.name = "F1", .from = "switch", .port = 2, .to = "far", .cable = "pairs"}};
  return wired;
}

TEST(PowerFeeds, AFeedBehindAFeedDrawsThereForAllThatHangsOnIt) {
  const PowerLoads answer = chained().loads();
  ASSERT_THAT(answer.ports, SizeIs(2));
  const PortLoad &camera = answer.ports[0], &far = answer.ports[1];
  EXPECT_EQ(far.to, "far");
  EXPECT_EQ(far.feed, "switch");
  // 3 W of its own; the camera's 12.5 W and its cable's loss through a converter of 0.8.
  const double passed_on = (12.5 + camera.lost.nominal.in(W)) / 0.8;
  EXPECT_NEAR(far.device.load.nominal.in(W), 3 + passed_on, 1e-9);
  EXPECT_EQ(far.power_class, 4);
  EXPECT_THAT(answer.unfed, IsEmpty());
  ASSERT_THAT(answer.feeds, SizeIs(2));
  EXPECT_NEAR(answer.feeds[0].budget.load.nominal.in(W), 3 + passed_on + far.lost.nominal.in(W), 1e-9);
  EXPECT_EQ(answer.feeds[0].set_aside, 30.0 * W);
  EXPECT_EQ(answer.feeds[0].fed_by, "");
  EXPECT_EQ(answer.feeds[1].fed_by, "switch");
  EXPECT_EQ(answer.feeds[1].mains_night.nominal, 0.0 * W);
}

TEST(PowerFeeds, WhatHangsBehindIsDrawnFromTheMainsOnce) {
  const PowerLoads answer = chained().loads();
  const double on_far = 5 + answer.ports[0].lost.nominal.in(W)*std::pow(5 / 12.5, 2), far = 3 + on_far / 0.8;
  const double largest = answer.ports[1].device.load.nominal.in(W);
  const double on_root = far + answer.ports[1].lost.nominal.in(W)*std::pow(far / largest, 2);
  EXPECT_NEAR(answer.a_year.nominal.in(kWh), (10 + on_root) / 0.8 * 365.25 * 24 / 1000, 1e-6);
}

TEST(PowerFeeds, TheFirstFeedsBudgetHoldsWhatHangsBehind) {
  Wired wired = chained();
  wired.project.site.feeds.front().ports.budget = 15.0 * W;  // the far switch wants some 19 W
  const PowerLoads answer = wired.loads();
  EXPECT_EQ(answer.feeds[0].budget.held, Held::kMissed);
  EXPECT_EQ(answer.feeds[1].budget.held, Held::kMet);
}

TEST(PowerFeeds, OneThatIsNotPoweredOverItsCableCountsOnTheMains) {
  Wired wired = chained();
  wired.project.site.feeds[1].powered_over_cable = false;
  const PowerLoads answer = wired.loads();
  EXPECT_THAT(answer.ports, SizeIs(1));
  EXPECT_GT(answer.feeds[1].mains_night.nominal, 0.0 * W);
  EXPECT_EQ(answer.feeds[1].fed_by, "");
}

TEST(PowerFeeds, OneWithoutADrawOfItsOwnIsUnknown) {
  Wired wired = chained();
  wired.project.site.feeds[1].draw.reset();
  const PowerLoads answer = wired.loads();
  EXPECT_EQ(answer.ports[1].held, Held::kUnknown);
  EXPECT_THAT(answer.ports[1].device.remedy, HasSubstr("state what \"far\" draws itself"));
}

TEST(PowerFeeds, ABatteryCarriesWhatHangsBehindItsFeed) {
  Wired wired = chained();
  wired.project.site.feeds.front().battery = "cells";
  site::Feed battery;
  battery.kind = site::FeedKind::kBattery;
  battery.name = "cells";
  battery.voltage = 24.0 * V;
  battery.capacity = 18.0 * Ah;
  wired.project.site.feeds.push_back(battery);
  const PowerLoads answer = wired.loads();
  EXPECT_THAT(answer.batteries.front().feeds, ElementsAre("switch"));
  EXPECT_NEAR(answer.batteries.front().drawn.nominal.in(W), answer.feeds[0].mains_night.nominal.in(W) / 0.9, 1e-9);
}

TEST(PowerFeeds, ASupplyFeedsASwitchAndAllOnIt) {
  Wired wired = chained();
  site::Feed supply;
  supply.kind = site::FeedKind::kSupply;
  supply.name = "supply";
  supply.voltage = 48.0 * V;
  supply.rating = 30.0 * W;
  wired.project.site.feeds = {supply, wired.project.site.feeds[1]};
  wired.project.site.feeds[1].powered_over_cable = false;
  wired.project.site.runs[1] = {.name = "P1", .from = "supply", .to = "far", .cable = "conductors"};
  const PowerLoads answer = wired.loads(10);
  ASSERT_THAT(answer.supply_runs, SizeIs(1));
  EXPECT_EQ(answer.supply_runs.front().to, "far");
  EXPECT_EQ(answer.supply_runs.front().held, Held::kMet);
  EXPECT_EQ(answer.feeds[1].fed_by, "supply");
  const double far = 3 + (12.5 + answer.ports.front().lost.nominal.in(W)) / 0.8;
  EXPECT_NEAR(answer.feeds[0].budget.load.nominal.in(W), far + answer.supply_runs.front().lost.in(W), 1e-9);
}

/// Two cameras of 12.5 W behind a rack of 25 W in all: its ports bear each, its budget not both with their cables.
TEST(PowerFeeds, AnInjectorOfManyPortsHasOneBudget) {
  Wired wired;
  wired.project.cameras.push_back(need::camera_on("other", "post"));
  site::Feed rack;
  rack.kind = site::FeedKind::kInjector;
  rack.name = "rack";
  rack.ports = {8, {}, 8, 4, 25.0 * W};
  rack.draw = 3.0 * W;
  wired.project.site.feeds.front().ports = {8, {}, 0, 4, {}};
  wired.project.site.feeds.push_back(rack);
  wired.project.site.runs = {{.name = "C1", .from = "rack", .port = 1, .to = "eye", .cable = "pairs"},
                             {.name = "C2", .from = "rack", .port = 2, .to = "other", .cable = "pairs"},
                             {.name = "I1", .from = "switch", .to = "rack", .to_port = 1, .cable = "pairs"},
                             {.name = "I2", .from = "switch", .to = "rack", .to_port = 2, .cable = "pairs"}};
  const PowerLoads loads = wired.loads();
  EXPECT_THAT(loads.ports, ElementsAre(Field(&PortLoad::to, "eye"), Field(&PortLoad::to, "other")));
  EXPECT_THAT(loads.unfed, IsEmpty());
  EXPECT_EQ(loads.ports[0].held, Held::kMet);
  EXPECT_EQ(loads.ports[1].held, Held::kMet);
  const auto load =
      std::find_if(loads.feeds.begin(), loads.feeds.end(), [](const auto& one) { return one.feed == "rack"; });
  ASSERT_NE(load, loads.feeds.end());
  EXPECT_GT(load->budget.load.nominal, 25.0 * W);
  EXPECT_EQ(load->budget.held, Held::kMissed);
  EXPECT_GT(load->mains_day.nominal, Power{0});
  EXPECT_TRUE(load->fed_by.empty());
}

}  // namespace
}  // namespace sightfall::loads
