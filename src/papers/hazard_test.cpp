// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/hazard.h"

#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

site::Site with_store(const std::string& name) {
  site::Site site;
  site::Solid store;
  store.name = name;
  store.outline.outer = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
  site.solids.push_back(store);
  return site;
}

TEST(Hazard, IsNearWhatIsNamedSo) {
  const site::Site site = with_store("Fuel store");
  EXPECT_TRUE(may_burst(site, {2, 2}));
  EXPECT_TRUE(may_burst(site, {8.9, 2}));
  EXPECT_FALSE(may_burst(site, {9.1, 2}));
  EXPECT_FALSE(may_burst(with_store("glasshouse"), {2, 2}));
}

TEST(Hazard, IsWhereTheMountSaysSo) {
  site::Mount mount;
  EXPECT_FALSE(may_burst({}, {0, 0}, &mount));
  mount.access = "ladder; keep sparks away";
  EXPECT_TRUE(may_burst({}, {0, 0}, &mount));
}

}  // namespace
}  // namespace sightfall::papers
