// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/facts.h"

#include <algorithm>

namespace sightfall::video {
using namespace sightfall::units;
namespace {

/// The most that lies within any window of time, ends of frames aside.
DataSize most_within(const std::vector<FrameMark>& marks, Time window) {
  constexpr double kRounding = 1e-9;  // of the window: times come from ticks, and a second holds no frame too many
  DataSize held, most;
  size_t first = 0;
  for (const FrameMark& mark : marks) {
    held = held + mark.size;
    for (; mark.at - marks[first].at >= window * (1 - kRounding); ++first) held = held - marks[first].size;
    most = std::max(most, held);
  }
  return most;
}

std::optional<int> longest_interval(const std::vector<FrameMark>& marks) {
  std::optional<int> last, longest;
  for (int i = 0; i < static_cast<int>(marks.size()); ++i) {
    if (!marks[static_cast<size_t>(i)].key) continue;
    if (last) longest = std::max(longest.value_or(0), i - *last);
    last = i;
  }
  return longest;
}

}  // namespace

std::string_view name_of(Codec codec) { return codec == Codec::kH264 ? "H.264" : "H.265"; }

StreamFacts facts_from(const std::vector<FrameMark>& marks) {
  StreamFacts facts;
  facts.frames = static_cast<int>(marks.size());
  if (marks.empty()) return facts;
  DataSize all;
  for (const FrameMark& mark : marks) {
    all = all + mark.size;
    facts.sizes.push_back(mark.size);
  }
  facts.keyframe_interval = longest_interval(marks);
  facts.duration = marks.back().at - marks.front().at + marks.back().lasts;
  if (facts.duration <= Time{}) return facts;
  facts.frame_rate = Frequency{facts.frames / facts.duration.si()};
  facts.mean = all / facts.duration;
  const Time window = std::min(1.0 * s, facts.duration);
  facts.peak = std::max(facts.mean, most_within(marks, window) / window);
  return facts;
}

}  // namespace sightfall::video
