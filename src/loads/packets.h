// SPDX-License-Identifier: GPL-3.0-or-later
// What packets add to a stream on an Ethernet.
//   Model    full frames of 1500 bytes: 8 of preamble, 14 of head, 4 of check, 12 of gap around them; inside IPv4 20,
//            UDP 8 and RTP 12, or TCP 20
//   Limits   frames that are not full add more; retransmissions and control are not counted
//   Source   IEEE 802.3; RFC 791, 768, 3550, 9293
//   Checked  packets_test.cpp
#pragma once

namespace sightfall::loads {

inline constexpr double kFramePayload = 1500, kFrameOnWire = 8 + 14 + 1500 + 4 + 12;
inline constexpr double kIpv4 = 20, kIpv6 = 40, kUdp = 8, kTcp = 20, kRtp = 12, kVlanTag = 4;

/// Bytes on the wire for each byte of the stream.
inline constexpr double kOverRtp = kFrameOnWire / (kFramePayload - kIpv4 - kUdp - kRtp);
inline constexpr double kOverTcp = kFrameOnWire / (kFramePayload - kIpv4 - kTcp);

}  // namespace sightfall::loads
