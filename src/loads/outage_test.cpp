// SPDX-License-Identifier: GPL-3.0-or-later
// What a battery that carries a part of the way leaves in the dark.
#include "loads/outage.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "loads/test_streams.h"

namespace sightfall::loads {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Two cameras that the switch feeds, and a recorder.
PowerLoads from_the_switch() {
  PowerLoads power;
  for (const char* camera : {"eye", "other"}) {
    PortLoad port;
    port.feed = "switch", port.to = camera;
    power.ports.push_back(port);
  }
  return power;
}

site::Feed& feed_of(Networked& net, const std::string& name) {
  for (site::Feed& feed : net.project.site.feeds)
    if (feed.name == name) return feed;
  throw std::out_of_range(name);
}

TEST(Outage, OfASiteWithoutABatteryNothingIsSaid) {
  Networked net;
  EXPECT_THAT(outage(net.project, net.cabling(), from_the_switch()).cameras, IsEmpty());
}

TEST(Outage, WhatIsOnNoBatteryStopsAllBehindIt) {
  Networked net;
  feed_of(net, "recorder").battery = "battery";
  const Outage told = outage(net.project, net.cabling(), from_the_switch());
  EXPECT_THAT(told.cameras, ElementsAre("eye", "other"));
  EXPECT_THAT(told.feeds, ElementsAre("switch"));
  EXPECT_EQ(in_words(told), "when the mains fail, eye, other are no longer recorded: no battery carries switch");
  feed_of(net, "switch").battery = "battery";
  EXPECT_THAT(outage(net.project, net.cabling(), from_the_switch()).cameras, IsEmpty());
  EXPECT_EQ(in_words(Outage{}), "");
}

TEST(Outage, AFeedThatAnotherFeedsGoesOnWithIt) {
  Networked net;
  feed_of(net, "recorder").battery = "battery";
  PowerLoads power = from_the_switch();
  FeedLoad fed;
  fed.feed = "switch", fed.fed_by = "recorder";
  power.feeds.push_back(fed);
  EXPECT_THAT(outage(net.project, net.cabling(), power).cameras, IsEmpty());
}

TEST(Outage, ACameraOnItsOwnSupplyFailsAlone) {
  Networked net;
  feed_of(net, "recorder").battery = feed_of(net, "switch").battery = "battery";
  PowerLoads power = from_the_switch();
  power.ports.pop_back();
  SupplyRun run;
  run.feed = "pole supply", run.to = "other";
  power.supply_runs.push_back(run);
  const Outage told = outage(net.project, net.cabling(), power);
  EXPECT_THAT(told.cameras, ElementsAre("other"));
  EXPECT_THAT(told.feeds, ElementsAre("pole supply"));
}

}  // namespace
}  // namespace sightfall::loads
