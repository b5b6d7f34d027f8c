// SPDX-License-Identifier: GPL-3.0-or-later
// A picture as a screen takes it.
#pragma once
#include <cstdint>
#include <vector>

namespace sightfall::video {

/// Eight bits a channel, tone curve applied, red, green, blue in turn, row by row. A monochrome picture has three
/// equal channels.
struct Picture {
  int columns = 0, rows = 0;
  std::vector<uint8_t> rgb;

  bool operator==(const Picture&) const = default;
};

/// The largest side and the most pixels that this room reads or writes: twice each way what cameras have.
inline constexpr int kLargestSide = 16384;
inline constexpr int kMostPixels = 1 << 27;

}  // namespace sightfall::video
