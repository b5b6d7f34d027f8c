// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/packets.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

// IEEE 802.3: 1538 bytes on the wire for 1500; 97.53 %, with a VLAN tag 97.28 %. UDP over IPv4 95.7087 %, with the tag
// 95.4604 %, over IPv6 94.4083 %.
TEST(Packets, LeaveThePublishedShares) {
  EXPECT_EQ(kFrameOnWire, 1538);
  EXPECT_NEAR(kFramePayload / kFrameOnWire, 0.9753, 5e-5);
  EXPECT_NEAR(kFramePayload / (kFrameOnWire + kVlanTag), 0.9728, 5e-5);
  EXPECT_NEAR((kFramePayload - kIpv4 - kUdp) / kFrameOnWire, 0.957087, 1e-6);
  EXPECT_NEAR((kFramePayload - kIpv4 - kUdp) / (kFrameOnWire + kVlanTag), 0.954604, 1e-6);
  EXPECT_NEAR((kFramePayload - kIpv6 - kUdp) / kFrameOnWire, 0.944083, 1e-6);
}

// RTP over UDP over IPv4: 1460 of 1538, 94.9285 %; 100 Mbit/s carry 94.93.
TEST(Packets, RtpAddsFiveAndAThirdOfAPercent) {
  EXPECT_NEAR(1 / kOverRtp, 0.949285, 1e-6);
  EXPECT_NEAR(kOverRtp, 1.05342, 1e-5);
  EXPECT_EQ(kOverRtp, kOverTcp);  // 12 of RTP and 8 of UDP are as long as TCP's 20
}

}  // namespace
}  // namespace sightfall::loads
