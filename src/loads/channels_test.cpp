// SPDX-License-Identifier: GPL-3.0-or-later
// TIA-568 and ISO/IEC 11801 (from memory): 100 m from device to device; what only puts power on the pairs starts no new
// channel, what repeats them does.
#include "loads/channels.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/power.h"
#include "loads/test_cabling.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// Switch, so many metres, a device of that kind, so many metres, camera.
need::Project by_way_of(site::FeedKind kind, double first, double second) {
  need::Project project = yard({60, 0});
  site::Feed between = switch_at("between", {30, 0}, 2);
  between.kind = kind;
  project.site.feeds.push_back(between);
  project.site.runs = {run_to("A", "switch", "between"), run_to("B", "between", "eye")};
  project.site.runs[0].length = Length{first};
  project.site.runs[1].length = Length{second};
  return project;
}

TEST(Channels, RunsThroughAnInjectorAreOneChannel) {
  const need::Project far = by_way_of(site::FeedKind::kInjector, 93, 93);
  const Cabling cabling = lay(far);
  EXPECT_EQ(cabling.runs[1].reach.held, Held::kMissed);
  EXPECT_EQ(cabling.runs[1].held, Held::kMissed);
  EXPECT_EQ(cabling.held, Held::kMissed);
  EXPECT_NEAR(cabling.runs[1].reach.load.nominal.si(), 186, 1e-9);
  EXPECT_NEAR(cabling.runs[1].length.nominal.si(), 93, 1e-9);  // that is what is bought
  EXPECT_THAT(cabling.runs[1].flags, Contains(HasSubstr("\"A\", \"B\" are one channel through an injector, 186 m")));
  const need::Project near = by_way_of(site::FeedKind::kInjector, 50, 49);
  EXPECT_EQ(lay(near).runs[1].reach.held, Held::kMet);
}

TEST(Channels, AnExtenderStartsANewOneAndDrawsFromThePortBeforeIt) {
  need::Project project = by_way_of(site::FeedKind::kSwitch, 93, 93);
  site::Feed& extender = project.site.feeds[1];
  extender.ports = {2, {}, 1, 3, {}};
  extender.powered_over_cable = true, extender.draw = 2.0 * W;
  project.site.feeds[0].ports = {4, {}, 4, 4, 60.0 * W};
  camera::PowerDraw& draw = project.catalogue.front().power;
  draw.supply = "PoE class 2", draw.typical = 3.0 * W, draw.largest = 5.0 * W;
  for (site::Cable& cable : project.settings.cables)
    if (cable.name == "pairs, outdoor") cable.resistance = 66.8 * (ohm / km);
  project.settings.typical.supply_efficiency = need::exactly(0.8, "supply");
  project.settings.typical.conductor_temperature = need::exactly(20, "temperature");
  const Cabling cabling = lay(project);
  EXPECT_EQ(cabling.runs[0].reach.held, Held::kMet);
  EXPECT_EQ(cabling.runs[1].reach.held, Held::kMet);
  EXPECT_THAT(cabling.runs[1].flags, Not(Contains(HasSubstr("channel"))));
  const PowerLoads loads = sightfall::loads::power(project, cabling);
  ASSERT_EQ(loads.ports.size(), 2U);
  EXPECT_EQ(loads.ports[0].to, "between");
  EXPECT_GT(loads.ports[0].device.load.nominal, (2 + 5 / 0.8) * (1.0 * W));
  EXPECT_THAT(loads.unfed, IsEmpty());
}

TEST(Channels, ThroughAnInjectorOfManyPortsEachPortGoesByItself) {
  need::Project project = by_way_of(site::FeedKind::kInjector, 93, 5);
  project.cameras.push_back(need::camera_on("other", "post"));
  project.site.feeds[1].ports = {4, {}, 4, 4, {}};
  auto& runs = project.site.runs;
  runs.push_back(run_to("C", "switch", "between"));
  runs.push_back(run_to("D", "between", "other"));
  runs[0].to_port = 2, runs[2].to_port = 1;  // the second camera's is the first port
  runs[1].port = 2, runs[2].length = Length{10}, runs[3].length = Length{20};
  const Cabling cabling = lay(project);
  EXPECT_THAT(cabling.runs[1].flags, Contains(HasSubstr("\"A\", \"B\" are one channel through an injector, 98 m")));
  EXPECT_THAT(cabling.runs[3].flags, Contains(HasSubstr("\"C\", \"D\" are one channel through an injector, 30 m")));
}

TEST(Channels, ThroughTwoInjectorsTheyAreStillOne) {
  need::Project project = by_way_of(site::FeedKind::kInjector, 40, 40);
  site::Feed other = switch_at("other", {45, 0}, 2);
  other.kind = site::FeedKind::kInjector;
  project.site.feeds.push_back(other);
  project.site.runs[1].to = "other";
  project.site.runs.push_back(run_to("C", "other", "eye"));
  project.site.runs[2].length = Length{40};
  EXPECT_EQ(lay(project).runs[1].reach.held, Held::kMet);
  EXPECT_EQ(lay(project).runs[2].reach.held, Held::kMissed);
}

}  // namespace
}  // namespace sightfall::loads
