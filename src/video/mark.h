// SPDX-License-Identifier: GPL-3.0-or-later
// Facts of coded frames, wherever they come from.
#pragma once
#include <vector>

#include "video/packet.h"

namespace sightfall::video {

inline FrameMark mark_of(const Packet& packet, const StreamHead& head) {
  const Time tick{static_cast<double>(head.tick_numerator) / static_cast<double>(head.tick_denominator)};
  return {static_cast<double>(packet.decoded) * tick, static_cast<double>(packet.lasts) * tick,
          static_cast<double>(packet.bytes.size()) * units::byte, packet.key};
}

inline StreamFacts facts_with(const StreamHead& head, const std::vector<FrameMark>& marks) {
  StreamFacts facts = facts_from(marks);
  facts.codec = head.codec;
  facts.columns = head.columns;
  facts.rows = head.rows;
  return facts;
}

}  // namespace sightfall::video
