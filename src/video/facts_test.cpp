// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/facts.h"

#include <gtest/gtest.h>

namespace sightfall::video {
namespace {

using namespace units;

/// Frames of these sizes in kbit, `rate` of them a second, keyframes where the size is a multiple of 100.
std::vector<FrameMark> marks_of(const std::vector<int>& sizes, double rate) {
  std::vector<FrameMark> marks;
  for (const int size : sizes)
    marks.push_back({static_cast<double>(marks.size()) / rate * s, 1 / rate * s, size * kbit, size % 100 == 0});
  return marks;
}

TEST(Facts, AreWhatPencilSays) {
  const StreamFacts facts = facts_from(marks_of({100, 10, 20, 10, 200, 30, 10, 20, 10, 100}, 2));
  EXPECT_EQ(facts.frames, 10);
  EXPECT_DOUBLE_EQ(facts.duration.in(s), 5);
  EXPECT_DOUBLE_EQ(facts.frame_rate.in(Hz), 2);
  EXPECT_DOUBLE_EQ(facts.mean.in(kbit / s), 102);
  EXPECT_DOUBLE_EQ(facts.peak.in(kbit / s), 230) << "the second that begins with the frame of 200";
  EXPECT_EQ(facts.keyframe_interval, 5) << "the longer of 4 and 5";
  EXPECT_EQ(facts.sizes.size(), 10U);
  EXPECT_EQ(facts.sizes[4], 200.0 * kbit);
}

TEST(Facts, OfAnEvenStreamPeakAtTheMeanAtAnyFrameRate) {
  for (const double rate : {1.0, 7.0, 15.0, 25.0, 30.0, 240.0}) {
    const StreamFacts facts = facts_from(marks_of(std::vector<int>(1000, 10), rate));
    EXPECT_NEAR(facts.peak / facts.mean, 1, 1e-9) << rate;
  }
}

TEST(Facts, OfAClipShorterThanASecondPeakAtTheMean) {
  const StreamFacts facts = facts_from(marks_of({100, 10, 10}, 25));
  EXPECT_DOUBLE_EQ(facts.mean.in(kbit / s), 1000);
  EXPECT_DOUBLE_EQ(facts.peak.in(kbit / s), 1000);
  EXPECT_EQ(facts.keyframe_interval, std::nullopt) << "one keyframe tells no interval";
}

TEST(Facts, OfNothingAreNothing) {
  const StreamFacts facts = facts_from({});
  EXPECT_EQ(facts.frames, 0);
  EXPECT_EQ(facts.peak, DataRate{});
}

TEST(Facts, OfTimesThatMakeNoSenseHaveNoRate) {
  std::vector<FrameMark> marks = marks_of({100, 10, 10}, 25);
  marks.back().at = -5.0 * s;
  EXPECT_EQ(facts_from(marks).mean, DataRate{});
  EXPECT_EQ(facts_from(marks).frames, 3);
}

}  // namespace
}  // namespace sightfall::video
