// SPDX-License-Identifier: GPL-3.0-or-later
// Address plans.
#include "papers/addresses.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace sightfall::papers {
namespace {

using ::testing::HasSubstr;

need::Project site_of(int cameras) {
  need::Project project;
  for (int i = 0; i < cameras; ++i) {
    camera::Camera camera;
    camera.name = "camera " + std::to_string(i);
    project.cameras.push_back(camera);
  }
  for (const auto& [kind, name] : {std::pair{site::FeedKind::kSwitch, "switch"},
                                   {site::FeedKind::kRecorder, "recorder"},
                                   {site::FeedKind::kSupply, "supply"},
                                   {site::FeedKind::kRouter, "router"}}) {
    site::Feed feed;
    feed.kind = kind;
    feed.name = name;
    project.site.feeds.push_back(feed);
  }
  return project;
}

TEST(Addresses, TheLastOneIsKeptForALaptop) {
  const Network network = *network_of("192.168.50.0/28");  // 14 addresses
  EXPECT_EQ(address_for_laptop(network, *addresses_of(site_of(3), network)), "192.168.50.14");
  EXPECT_EQ(address_for_laptop(network, *addresses_of(site_of(4), network)), std::nullopt);
}

TEST(Addresses, RouterFirstThenCamerasFromTheEleventh) {
  const auto all = addresses_of(site_of(2), *network_of("192.168.50.0/24"));
  ASSERT_TRUE(all);
  ASSERT_EQ(all->size(), 5U);  // a supply has none
  EXPECT_EQ((*all)[0].device, "router");
  EXPECT_EQ((*all)[0].address, "192.168.50.1");
  EXPECT_EQ((*all)[2].address, "192.168.50.3");
  EXPECT_EQ((*all)[3].address, "192.168.50.11");
  EXPECT_EQ((*all)[4].address, "192.168.50.12");
}

site::Run joined(const std::string& from, const std::string& to) {
  site::Run run;
  run.name = from + " to " + to;
  run.from = from, run.to = to;
  return run;
}

TEST(Addresses, ARecorderBetweenRouterAndCamerasHasTwoNetworks) {
  need::Project project = site_of(1);
  project.site.runs = {joined("switch", "camera 0"), joined("recorder", "switch"), joined("router", "recorder")};
  EXPECT_EQ(house_of(project).devices, std::set<std::string>{"router"});
  EXPECT_EQ(house_of(project).recorders, std::set<std::string>{"recorder"});
  const auto all = addresses_of(project, *network_of("192.168.50.0/24"));
  ASSERT_TRUE(all);
  ASSERT_EQ(all->size(), 5U);  // the recorder's twice
  EXPECT_TRUE((*all)[0].house);
  EXPECT_EQ((*all)[0].address, "");  // the router's, for the house to give
  EXPECT_EQ((*all)[1].address, "192.168.50.1");
  EXPECT_EQ((*all)[2].device, "recorder");
  EXPECT_TRUE((*all)[2].house);
  EXPECT_FALSE((*all)[3].house);
}

TEST(Addresses, WhereTheRouterHangsOnTheCamerasSwitchThereIsOneNetwork) {
  need::Project project = site_of(1);
  project.site.runs = {joined("switch", "camera 0"), joined("recorder", "switch"), joined("router", "switch")};
  EXPECT_TRUE(house_of(project).recorders.empty());
  EXPECT_TRUE(house_of(project).devices.empty());
  project.site.runs.push_back(joined("supply", "recorder"));  // carries no network
  EXPECT_TRUE(house_of(project).recorders.empty());
}

TEST(Addresses, NoTwoAreAlikeAndAllAreInTheNetwork) {
  const auto all = addresses_of(site_of(500), *network_of("10.0.0.0/22"));
  ASSERT_TRUE(all);
  std::set<std::string> seen;
  for (const Address& one : *all) EXPECT_TRUE(seen.insert(one.address).second);
  EXPECT_EQ(all->back().address, "10.0.1.254");  // the 510th
}

TEST(Addresses, TheHousesNetworkIsAnother) {
  need::Project project = site_of(1);
  project.settings.house_network = "192.168.0.0/18";
  EXPECT_TRUE(addresses_of(project, *network_of("192.168.64.0/24")));
  const auto within = addresses_of(project, *network_of("192.168.50.0/24"));
  ASSERT_FALSE(within);
  EXPECT_EQ(within.error().text,
            "found 192.168.50.0/24 for the cameras; settings.house_network is 192.168.0.0/18, and the two must not "
            "overlap: name another network for the cameras (on the command line with --network)");
}

TEST(Addresses, SaysWhenTheNetworkIsTooSmall) {
  EXPECT_TRUE(addresses_of(site_of(244), *network_of("192.168.50.0/24")));
  EXPECT_FALSE(addresses_of(site_of(245), *network_of("192.168.50.0/24")));
}

}  // namespace
}  // namespace sightfall::papers
