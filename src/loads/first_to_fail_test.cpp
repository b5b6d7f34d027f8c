// SPDX-License-Identifier: GPL-3.0-or-later
// How many more cameras like the one that sends most there is room for, and what is full then.
#include "loads/first_to_fail.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/test_streams.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StrEq;

/// Of parts that are set; what costs light to work out is left out.
Loads of(const Networked& net) {
  Loads loads;
  loads.cable = net.cabling();
  loads.network = network(net.project, loads.cable, net.rates);
  loads.storage = storage(net.project, loads.cable, net.rates);
  return loads;
}

std::string fails(const Networked& net) { return first_to_fail(net.project, of(net)); }

TEST(FirstToFail, IsTheFullestOfIntakeAndLinks) {
  Networked net;
  net.project.site.feeds[1].intake = 16.0 * (Mbit / s);  // 12 now, 20 with another like "other"
  EXPECT_THAT(fails(net), StrEq("No room for another camera like \"other\", which sends most: it would use the intake "
                                "of \"recorder\" to 125 %"));
  net.project.site.feeds[0].uplink = 15.0 * (Mbit / s);
  EXPECT_THAT(fails(net), HasSubstr("the link \"N1\""));
}

TEST(FirstToFail, IsAFeedWithoutAFreePortBeforeAll) {
  Networked net;
  net.project.site.feeds[1].intake = 16.0 * (Mbit / s);
  net.project.site.feeds[0].ports.count = 2;
  EXPECT_THAT(
      fails(net),
      HasSubstr("No room for another camera like \"other\", which sends most: all 2 ports of \"switch\" are in use"));
}

TEST(FirstToFail, IsAFeedWithoutAFreePoweredPort) {
  Networked net;
  net.project.site.feeds[0].ports.powered = 2;
  Loads loads = of(net);
  for (const char* camera : {"eye", "other"}) {
    PortLoad port;
    port.feed = "switch", port.to = camera;
    loads.power.ports.push_back(port);
  }
  EXPECT_THAT(first_to_fail(net.project, loads),
              HasSubstr("which sends most: all 2 powered ports of \"switch\" are in use"));
  net.project.site.feeds[0].ports.powered = 3;
  EXPECT_THAT(first_to_fail(net.project, loads),
              StrEq("Room for one more camera like \"other\", which sends most; then all 3 powered ports of \"switch\" "
                    "are in use"));
  loads.network.intakes.front().rate.capacity = 16.0 * (Mbit / s);
  EXPECT_THAT(first_to_fail(net.project, loads), HasSubstr("the intake"));
}

// 4 and 5 Mbit/s on average are 97.2 GB a day; 10 days 972 of 1000 GB; with another "other" 1512 GB.
TEST(FirstToFail, IsTheDisksBesideTheDaysWanted) {
  Networked net;
  EXPECT_THAT(fails(net), HasSubstr("Room for 5 more cameras"));
  net.project.keeping.wanted = 10.0 * day;
  EXPECT_THAT(fails(net), HasSubstr("it would use the disks of \"recorder\" for the 10 days wanted to 151 %"));
  net.project.cameras.back().recording = {camera::RecordingMode::kHours, 2.4, {}, {}};  // a tenth: 48.6 + 5.4 GB
  net.project.site.feeds[0].ports.count = 20;
  net.project.site.feeds[1].intake = 800.0 * (Mbit / s);
  EXPECT_THAT(fails(net),
              StrEq("Room for 9 more cameras like \"other\", which sends most; the next would use the disks "
                    "of \"recorder\" for the 10 days wanted to 103 %"));  // 486 + 10 x 54 GB
}

FeedLoad budget(const std::string& feed, const std::string& fed_by, double used, double of) {
  FeedLoad load;
  load.feed = feed, load.fed_by = fed_by;
  load.budget = bear<Power>(Ranged<Power>::exact(used * W), of * W, "a rule");
  return load;
}

TEST(FirstToFail, IsWhatItsFeedGivesOrTheFeedBehindThatOne) {
  Networked net;
  net.project.settings.typical.supply_efficiency = need::exactly(0.8, "supply");
  net.project.site.feeds[0].ports.powered = 4;
  Loads loads = of(net);
  PortLoad port;
  port.feed = "switch", port.to = "other";
  port.device.load = Ranged<Power>::exact(12.0 * W);
  port.lost = Ranged<Power>::exact(1.0 * W);
  loads.power.ports = {port};
  loads.power.feeds = {budget("switch", "root", 47, 50), budget("root", "", 60, 100)};
  EXPECT_THAT(first_to_fail(net.project, loads),
              HasSubstr("what \"switch\" gives its ports or runs to 120 %"));  // 47 + 13
  loads.power.feeds[1] = budget("root", "", 83.75, 80);                        // and 13 / 0.8
  EXPECT_THAT(first_to_fail(net.project, loads), HasSubstr("what \"root\" gives its ports or runs to 125 %"));
}

TEST(FirstToFail, IsTheSupplyOfACameraThatHangsOnOne) {
  Networked net;
  site::Feed supply;
  supply.kind = site::FeedKind::kSupply, supply.name = "supply", supply.alternating = true, supply.power_factor = 0.5;
  net.project.site.feeds.push_back(supply);
  Loads loads = of(net);
  SupplyRun run;
  run.feed = "supply", run.to = "other", run.lost = 1.0 * W;
  loads.power.supply_runs = {run};
  Draw draw;
  draw.camera = "other", draw.largest = Ranged<Power>::exact(9.0 * W);
  loads.power.draws = {draw};
  loads.power.feeds = {budget("supply", "", 20, 20)};
  loads.power.feeds.front().apparent = true;
  EXPECT_THAT(first_to_fail(net.project, loads), HasSubstr("what \"supply\" gives its ports or runs to 200 %"));
}

TEST(FirstToFail, TellsNothingWithoutACameraOrACapacity) {
  Networked net;
  net.rates.clear();
  EXPECT_THAT(fails(net), IsEmpty());
  Networked alone;
  alone.project.site.runs.clear();
  EXPECT_EQ(fails(alone), "No capacity is known that another camera like \"other\" would use");
}

}  // namespace
}  // namespace sightfall::loads
