// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/packets.h"
#include "loads/test_streams.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

NetworkLoads loads(const Networked& net) { return network(net.project, net.cabling(), net.rates); }

const LinkLoad& link(const NetworkLoads& answer, const std::string& run) {
  for (const LinkLoad& one : answer.links)
    if (one.run == run) return one;
  throw std::runtime_error("no link " + run);
}

TEST(Network, EachLinkCarriesTheStreamsThatPassItWithTheirPackets) {
  const NetworkLoads answer = loads(Networked{});
  ASSERT_THAT(answer.links, SizeIs(3));  // the router's leads to no camera
  EXPECT_NEAR(link(answer, "C1").rate.load.nominal.in(Mbit / s), 4 * kOverRtp, 1e-9);
  EXPECT_NEAR(link(answer, "C2").rate.load.nominal.in(Mbit / s), 8 * kOverRtp, 1e-9);  // the larger, by night
  EXPECT_NEAR(link(answer, "N1").rate.load.nominal.in(Mbit / s), 12 * kOverRtp, 1e-9);
  EXPECT_EQ(link(answer, "N1").streams, 2);
  EXPECT_EQ(link(answer, "C1").rate.capacity, 100.0 * (Mbit / s));   // the switch's ports
  EXPECT_EQ(link(answer, "N1").rate.capacity, 1000.0 * (Mbit / s));  // its uplink
  ASSERT_THAT(answer.intakes, SizeIs(1));
  EXPECT_NEAR(answer.intakes.front().rate.load.nominal.in(Mbit / s), 12, 1e-9);
  EXPECT_EQ(answer.held, Held::kMet);
}

/// Between the switch and both cameras a rack that puts power on the pairs: each port's link carries its own stream.
TEST(Network, ThroughAnInjectorOfManyPortsEachStreamHasItsOwnLink) {
  Networked net;
  site::Feed rack;
  rack.kind = site::FeedKind::kInjector;
  rack.name = "rack";
  rack.ports = {4, 100.0 * (Mbit / s), 4, 4, {}};
  net.project.site.feeds.push_back(rack);
  auto& runs = net.project.site.runs;
  runs[0].from = runs[1].from = "rack";
  runs[0].port.reset();  // proposed: the first that is free
  runs[1].port = 1;
  runs.push_back({.name = "I1", .from = "switch", .port = 1, .to = "rack", .to_port = 1});
  runs.push_back({.name = "I2", .from = "switch", .port = 2, .to = "rack", .to_port = 2});
  const NetworkLoads answer = loads(net);
  EXPECT_NEAR(link(answer, "I1").rate.load.nominal.in(Mbit / s), 8 * kOverRtp, 1e-9);
  EXPECT_NEAR(link(answer, "I2").rate.load.nominal.in(Mbit / s), 4 * kOverRtp, 1e-9);
  EXPECT_EQ(link(answer, "I1").streams, 1);
  EXPECT_EQ(link(answer, "N1").streams, 2);
  EXPECT_THAT(answer.unrecorded, IsEmpty());
  runs.pop_back();  // nothing goes on at its second port
  EXPECT_THAT(loads(net).unrecorded, ElementsAre("eye"));
}

/// Three who look on from the switch: each camera's stream is on its link four times, or twice by multicast; beyond the
/// switch it is once, to the recorder.
TEST(Network, WhoLooksOnInsideTakesACopyEachOrOneTogether) {
  Networked net;
  net.project.site.feeds.front().inside_viewers = 3;
  const NetworkLoads each = loads(net);
  EXPECT_NEAR(link(each, "C1").rate.load.nominal.in(Mbit / s), 4 * 4 * kOverRtp, 1e-9);
  EXPECT_EQ(link(each, "C1").streams, 4);
  EXPECT_NEAR(link(each, "N1").rate.load.nominal.in(Mbit / s), 12 * kOverRtp, 1e-9);
  net.project.site.feeds.front().multicast = true;
  EXPECT_NEAR(link(loads(net), "C1").rate.load.nominal.in(Mbit / s), 2 * 4 * kOverRtp, 1e-9);
  net.project.site.feeds[2].inside_viewers = 5, net.project.site.feeds[2].multicast = true;  // beyond the recorder
  const NetworkLoads together = loads(net);
  EXPECT_NEAR(link(together, "C1").rate.load.nominal.in(Mbit / s), 2 * 4 * kOverRtp, 1e-9);
  EXPECT_NEAR(link(together, "N1").rate.load.nominal.in(Mbit / s), 2 * 12 * kOverRtp, 1e-9);
  EXPECT_EQ(link(together, "N2").streams, 2);
}

TEST(Network, ALinkThatIsTooSlowIsMissed) {
  Networked net;
  net.project.site.feeds.front().uplink = 10.0 * (Mbit / s);
  const NetworkLoads answer = loads(net);
  EXPECT_EQ(link(answer, "N1").rate.held, Held::kMissed);
  EXPECT_EQ(answer.held, Held::kMissed);
}

TEST(Network, ASlowCableHoldsALinkBack) {
  Networked net;
  net.pairs.rate = 5.0 * (Mbit / s);
  EXPECT_EQ(link(loads(net), "C2").rate.held, Held::kMissed);
}

TEST(Network, AnUnknownIntakeIsUnknown) {
  Networked net;
  net.project.site.feeds[1].intake.reset();
  EXPECT_EQ(loads(net).intakes.front().rate.held, Held::kUnknown);
}

TEST(Network, ACameraWithoutAWayToARecorderIsTold) {
  Networked net;
  net.project.site.runs.erase(net.project.site.runs.begin() + 2);
  const NetworkLoads answer = loads(net);
  EXPECT_THAT(answer.unrecorded, ElementsAre("eye", "other"));
  EXPECT_THAT(answer.links, IsEmpty());
  EXPECT_EQ(answer.held, Held::kUnknown);
}

TEST(Network, WhatIsAssumedOfARateIsToldOfACameraWithoutARecorderToo) {
  Networked net;
  net.project.site.runs.clear();
  net.rates.front().assumed = true;
  net.rates.back().night.at_ceiling = true;
  const NetworkLoads answer = loads(net);
  EXPECT_THAT(answer.cautions,
              Contains(AllOf(Field(&Caution::about, "eye"), Field(&Caution::text, HasSubstr("states no stream")))));
  EXPECT_THAT(answer.cautions, Contains(AllOf(Field(&Caution::about, "other"),
                                              Field(&Caution::text, HasSubstr("the quality falls there")))));
}

TEST(Network, ARateOfManyDigitsIsWrittenOut) {
  Networked net;
  net.rates.back() = rate_of("other", 2, 1500);
  EXPECT_THAT(link(loads(net), "N1").rate.remedy, HasSubstr("1584 Mbit/s"));
}

TEST(Network, ViewersOutsideShareTheWayOut) {
  Networked net;
  net.project.site.feeds[2].viewers = 3;
  const NetworkLoads answer = loads(net);
  ASSERT_THAT(answer.ways_out, SizeIs(1));
  EXPECT_NEAR(answer.ways_out.front().rate.load.nominal.in(Mbit / s), 3 * 0.5 * kOverTcp, 1e-9);
  EXPECT_EQ(answer.ways_out.front().rate.held, Held::kMet);
  net.project.site.feeds[2].viewers = 5;
  EXPECT_EQ(loads(net).ways_out.front().rate.held, Held::kMissed);
}

TEST(Network, ASpeedThatIsNotStatedIsSaidWhereTheLoadIsTold) {
  Networked net;
  const NetworkLoads answer = loads(net);
  EXPECT_THAT(link(answer, "C1").assumed, ElementsAre("switch"));
  EXPECT_THAT(link(answer, "C1").rate.rule, HasSubstr("100 Mbit/s is assumed of a port"));
  EXPECT_THAT(link(answer, "N1").assumed, IsEmpty());  // both ends are stated
  const auto unstated = AllOf(Field(&Caution::about, "switch"), Field(&Caution::text, HasSubstr("states no speed")));
  EXPECT_THAT(answer.cautions, Contains(unstated).Times(1));
  net.pairs.rate = 10.0 * (Mbit / s);  // the cable is the lower one
  EXPECT_THAT(link(loads(net), "C1").assumed, IsEmpty());
  net.pairs.rate = 1000.0 * (Mbit / s);
  net.project.site.feeds[0].ports.rate = 1000.0 * (Mbit / s);
  EXPECT_THAT(loads(net).cautions, Not(Contains(unstated)));
}

TEST(Network, AMeasuredRateIsSaidToBeOne) {
  Networked net;
  net.rates.front().assumed = true;
  net.rates.front().day.measured = true;
  net.rates.front().day.condition = "noon";
  const auto about_eye = [&](const char* text) {
    return Contains(AllOf(Field(&Caution::about, "eye"), Field(&Caution::text, HasSubstr(text))));
  };
  EXPECT_THAT(loads(net).cautions, about_eye("its rate in \"noon\" is the mean of a clip"));
  EXPECT_THAT(loads(net).cautions, about_eye("states no stream"));
  net.rates.front().night.measured = true;
  EXPECT_THAT(loads(net).cautions, Not(about_eye("states no stream")));
}

}  // namespace
}  // namespace sightfall::loads
