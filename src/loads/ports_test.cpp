// SPDX-License-Identifier: GPL-3.0-or-later
// Ports by counting.
#include "loads/ports.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/network.h"
#include "loads/test_power.h"

namespace sightfall::loads {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

/// So many cameras on a switch, by runs that number no port, and a recorder that the switch's uplink comes from.
Wired cameras(int count, int ports, int powered) {
  Wired wired;
  need::Project& project = wired.project;
  project.site.feeds.front().ports.count = ports;
  project.site.feeds.front().ports.powered = powered;
  site::Feed recorder;
  recorder.name = "recorder", recorder.kind = site::FeedKind::kRecorder;
  project.site.feeds.push_back(recorder);
  project.cameras.clear(), project.site.runs.clear();
  for (int i = 0; i < count; ++i) {
    const std::string name = "eye " + std::to_string(i);
    project.cameras.push_back(need::camera_on(name, "post"));
    project.site.runs.push_back({.name = "C" + std::to_string(i), .from = "switch", .to = name, .cable = "pairs"});
  }
  project.site.runs.push_back({.name = "N1", .from = "recorder", .port = 1, .to = "switch", .cable = "pairs"});
  return wired;
}

PortsUse of_switch(const Wired& wired) { return ports_in_use(wired.project).front(); }

TEST(Ports, CamerasAndTheUplinkAreCounted) {
  EXPECT_EQ(of_switch(cameras(4, 5, 4)).held, Held::kMet);
  const PortsUse four = of_switch(cameras(4, 4, 4));
  EXPECT_EQ(four.taken, 5);
  EXPECT_EQ(four.held, Held::kMissed);
  EXPECT_THAT(four.remedy, HasSubstr("5 ports are wanted"));
  EXPECT_EQ(of_switch(cameras(6, 4, 4)).taken, 7);
}

TEST(Ports, PoweredPortsAreCounted) {
  Wired wired = cameras(6, 8, 4);
  const PortsUse use = of_switch(wired);
  EXPECT_EQ(use.taken, 7);
  EXPECT_EQ(use.fed, 6);
  EXPECT_EQ(use.held, Held::kMissed);
  EXPECT_THAT(use.remedy, HasSubstr("6 powered ports are wanted"));
  const PowerLoads power = wired.loads();
  EXPECT_THAT(power.ports, SizeIs(4));  // only as many as there are give power
  EXPECT_THAT(power.unfed, SizeIs(2));
  EXPECT_EQ(of_switch(cameras(4, 8, 4)).held, Held::kMet);
}

TEST(Ports, ACameraOnASupplyWantsNoPoweredPort) {
  Wired wired = cameras(2, 4, 1);
  site::Feed supply;
  supply.name = "supply", supply.kind = site::FeedKind::kSupply;
  wired.project.site.feeds.push_back(supply);
  EXPECT_EQ(of_switch(wired).held, Held::kMissed);
  wired.project.site.runs.push_back({.name = "P1", .from = "supply", .to = "eye 1", .cable = "conductors"});
  EXPECT_EQ(of_switch(wired).held, Held::kMet);
  EXPECT_EQ(of_switch(wired).fed, 1);
}

/// A camera of 12 V beside which a powered port carries the network alone: a port finds out before it gives.
TEST(Ports, ACameraOnASupplyTakesNothingFromAPoweredPortUnlessItsSheetNamesPoe) {
  Wired wired;
  site::Feed supply;
  supply.name = "supply", supply.kind = site::FeedKind::kSupply;
  supply.voltage = Potential{12}, supply.rating = Power{30};
  wired.project.site.feeds.push_back(supply);
  wired.project.site.runs.push_back({.name = "P1", .from = "supply", .to = "eye", .cable = "conductors"});
  wired.project.catalogue.front().power.supply = "12 V DC";
  EXPECT_THAT(wired.loads(10).ports, SizeIs(0));
  EXPECT_EQ(wired.loads(10).feeds.front().budget.load.high, Power{0});
  EXPECT_EQ(of_switch(wired).fed, 0);
  wired.project.catalogue.front().power.supply = "PoE class 3 or 12 V DC";
  EXPECT_THAT(wired.loads(10).ports, SizeIs(1));
}

TEST(Ports, NumbersComeFirstThenWhatTakesPowerThenTheRest) {
  Wired wired = cameras(3, 6, 3);
  auto& runs = wired.project.site.runs;
  site::Feed far;
  far.name = "far";
  wired.project.site.feeds.push_back(far);
  runs.insert(runs.begin(), site::Run{.name = "F1", .from = "switch", .to = "far", .cable = "pairs"});
  runs[2].port = 2;  // eye 1
  const auto port_of = [&](const std::string& run) {
    for (const PortTaken& one : ports_taken(wired.project, wired.project.site.feeds.front()))
      if (one.run->name == run) return one.port;
    return -1;
  };
  EXPECT_EQ(port_of("C1"), 2);
  EXPECT_EQ(port_of("C0"), 1);
  EXPECT_EQ(port_of("C2"), 3);
  EXPECT_EQ(port_of("F1"), 4);
  EXPECT_EQ(port_of("N1"), 5);
}

TEST(Ports, AnInjectorsInputIsNotAmongItsPorts) {
  Wired wired = cameras(1, 1, 1);
  wired.project.site.feeds.front().kind = site::FeedKind::kInjector;
  EXPECT_EQ(of_switch(wired).held, Held::kMet);
  EXPECT_EQ(of_switch(wired).taken, 1);
}

TEST(Ports, AnUnpoweredSwitchIsNotShortOfPower) {
  EXPECT_EQ(of_switch(cameras(3, 4, 0)).held, Held::kMet);
  EXPECT_EQ(of_switch(cameras(3, 4, 0)).fed, 0);
}

TEST(Ports, TheNetworkIsMissedForWantOfThem) {
  Wired wired = cameras(6, 4, 4);
  wired.loads();
  const NetworkLoads network = sightfall::loads::network(wired.project, wired.cabling, {});
  EXPECT_EQ(network.held, Held::kMissed);
  EXPECT_THAT(network.ports, SizeIs(2));
}

}  // namespace
}  // namespace sightfall::loads
