// SPDX-License-Identifier: GPL-3.0-or-later
// A finished picture.
#pragma once
#include <cstdint>
#include <vector>

namespace sightfall::walk {

/// Eight bits a channel, tone curve applied, red, green, blue in turn, row by row. A monochrome picture has three
/// equal channels.
struct Picture {
  int columns = 0, rows = 0;
  std::vector<uint8_t> rgb;
};

}  // namespace sightfall::walk
