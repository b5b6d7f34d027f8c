// SPDX-License-Identifier: GPL-3.0-or-later
// What lies between an encoder and a file, and between a file and a decoder.
#pragma once
#include <cstdint>
#include <vector>

#include "video/facts.h"

namespace sightfall::video {

/// One coded frame. Times count in the stream's tick.
struct Packet {
  std::vector<uint8_t> bytes;
  int64_t shown = 0, decoded = 0, lasts = 0;
  bool key = false;
  double quantiser = 0;  ///< its mean, where it comes from an encoder
};

/// What a decoder must know before the first packet.
struct StreamHead {
  Codec codec = Codec::kH264;
  int columns = 0, rows = 0;
  std::vector<uint8_t> parameters;                   ///< parameter sets, in the form of the container
  int64_t tick_numerator = 1, tick_denominator = 1;  ///< seconds
};

}  // namespace sightfall::video
