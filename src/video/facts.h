// SPDX-License-Identifier: GPL-3.0-or-later
// What a stream is: its codec, size, frame rate and bit rate, as they are and not as a sheet says.
//   Model    rates count the coded frames alone, without container or network; the peak is the most within any second
//   Checked  facts_test.cpp by pencil; decode_test.cpp against what was asked of the encoder
#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "unit/quantity.h"

namespace sightfall::video {

enum class Codec { kH264, kH265 };

/// `H.264` or `H.265`.
std::string_view name_of(Codec codec);

struct StreamFacts {
  Codec codec = Codec::kH264;
  int columns = 0, rows = 0;
  Frequency frame_rate;  ///< the mean, where it is not constant
  int frames = 0;
  Time duration;
  DataRate mean;
  DataRate peak;                         ///< over the second that has most; of a shorter clip, the mean
  std::vector<DataSize> sizes;           ///< of each frame, in the order of the stream
  std::optional<int> keyframe_interval;  ///< the longest seen, in frames; unset with fewer than two keyframes
};

/// One coded frame, for the facts.
struct FrameMark {
  Time at;     ///< when it is decoded
  Time lasts;  ///< until the next one
  DataSize size;
  bool key = false;
};

/// What marks in the order of the stream tell; codec and size are the caller's to add. An empty list gives no frames,
/// and rates of 0.
StreamFacts facts_from(const std::vector<FrameMark>& marks);

}  // namespace sightfall::video
