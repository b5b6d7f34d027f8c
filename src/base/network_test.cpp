// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall {
namespace {

using ::testing::HasSubstr;

TEST(Network, IsRead) {
  const auto network = network_of("10.20.0.0/16");
  ASSERT_TRUE(network);
  EXPECT_EQ(network->base, 0x0A140000U);
  EXPECT_EQ(dotted(network->base + 7), "10.20.0.7");
  EXPECT_EQ(mask_of(*network), "255.255.0.0");
  EXPECT_EQ(mask_of({0, 29}), "255.255.255.248");
  EXPECT_EQ(usable_in(*network), 65534U);
}

TEST(Network, RefusesWhatIsNone) {
  for (const char* text : {"", "10.0.0.0", "10.0.0.0/", "10.0.0/24", "10.0.0.0/30", "10.0.0.0/7", "10.0.0.256/24",
                           "10.0.0.0/24 ", "-1.0.0.0/24", "10.0.0.00/24", "::/64"})
    EXPECT_FALSE(network_of(text)) << text;
  EXPECT_THAT(network_of("192.168.50.7/24").error().text, HasSubstr("in the network 192.168.50.0/24"));
}

TEST(Network, OverlapsWhereOneHoldsTheOther) {
  const auto overlapping = [](const char* a, const char* b) {
    EXPECT_EQ(overlap(*network_of(a), *network_of(b)), overlap(*network_of(b), *network_of(a)));
    return overlap(*network_of(a), *network_of(b));
  };
  EXPECT_TRUE(overlapping("192.168.50.0/24", "192.168.50.0/24"));
  EXPECT_TRUE(overlapping("192.168.0.0/16", "192.168.50.0/24"));
  EXPECT_TRUE(overlapping("10.0.0.0/8", "10.255.255.248/29"));
  EXPECT_FALSE(overlapping("192.168.50.0/24", "192.168.51.0/24"));
  EXPECT_FALSE(overlapping("192.168.50.0/25", "192.168.50.128/25"));
}

}  // namespace
}  // namespace sightfall
