// SPDX-License-Identifier: GPL-3.0-or-later
// Frames once a passage, by pencil: stretch, speed, frame rate, lanes, what a step leaves open.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "need/check.h"
#include "need/test_told.h"

namespace sightfall::need {
namespace {

using site::PlaceKind;
using testing::HasSubstr;

/// Something passes 20 m (of 40) through the picture at 2 m/s and 20 frames a second: 200 frames, one every 0.1 m.
Project passing(int frames, double width_m = 0) {
  Need need = need_of(Subject::kObject, "drive", "coarse");
  need.height = Length{1.6};
  need.speed = Speed{2};
  need.shutter = Time{1e-5};
  need.once_a_passage = frames;
  return project_with(way_of("drive", PlaceKind::kRoute, {{-20, 20}, {20, 20}}, width_m), need);
}

TEST(OnceAPassage, CountsFramesAtTheLevel) {
  EXPECT_EQ(verdict_of(passing(198)).answer, Answer::kMet);
  EXPECT_EQ(verdict_of(passing(198)).share, Ranged<double>::exact(1));
  EXPECT_EQ(verdict_of(passing(202)).answer, Answer::kMissed);
  const Verdict close = verdict_of(passing(200));
  EXPECT_EQ(close.answer, Answer::kMarginal) << "the ends are known to half a step";
  EXPECT_GT(close.samples, 8000) << "finer steps are tried first";
  EXPECT_THAT(close.settle, HasSubstr("within its sampling error"));
}

TEST(OnceAPassage, HalfTheRateOrTwiceTheSpeedHalvesTheCount) {
  Project slow = passing(102);
  slow.cameras.front().frame_rate = 10;
  EXPECT_EQ(verdict_of(slow).answer, Answer::kMissed);
  slow.needs.front().once_a_passage = 98;
  EXPECT_EQ(verdict_of(slow).answer, Answer::kMet);
  Project fast = passing(102);
  fast.needs.front().speed = Speed{4};
  EXPECT_EQ(verdict_of(fast).answer, Answer::kMissed);
  fast.needs.front().once_a_passage = 98;
  EXPECT_EQ(verdict_of(fast).answer, Answer::kMet);
}

TEST(OnceAPassage, AnUncertainSpeedMakesItMarginal) {
  Project project = passing(150);
  project.needs.front().speed.reset();
  project.needs.front().subject = Subject::kPerson;
  project.settings.typical.speed_walker.value = {1, 2, 4};
  EXPECT_EQ(verdict_of(project).answer, Answer::kMarginal);
}

TEST(OnceAPassage, IsAShareOfLanes) {
  // Lanes at 16, 18, 20, 22 and 24 m: 160, 180, 200, 220 and 240 frames.
  Project project = passing(190, 8);
  const Verdict verdict = verdict_of(project);
  EXPECT_DOUBLE_EQ(verdict.share.nominal, 0.6);
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_NEAR(verdict.worst->at_site.y, 16, 1e-6) << "the worst passage is the nearest lane";
  project.needs.front().share = 0.6;
  EXPECT_EQ(verdict_of(project).answer, Answer::kMet);
}

TEST(OnceAPassage, TellsTheFramesOfTheWorstPassage) {
  const Verdict verdict = verdict_of(passing(190, 8));  // the lane at 16 m gives 160
  ASSERT_TRUE(verdict.worst && verdict.worst->frames);
  EXPECT_EQ(verdict.worst->frames->asked, 190);
  EXPECT_NEAR(verdict.worst->frames->predicted.nominal, 160, 1);
  EXPECT_NEAR(verdict.worst->frames->predicted.low, 158, 1) << "less a step for each end and one that may be missed";
  EXPECT_NEAR(verdict.worst->frames->predicted.high, 162, 1);
  Project place = passing(1);
  place.needs.front().once_a_passage.reset();
  EXPECT_FALSE(verdict_of(place).worst->frames);
}

/// The stretch in the picture is too short, or the frames too far apart; pixels are not what is wanting.
TEST(OnceAPassage, WhereTheBestMomentIsGoodEnoughTheLimitIsWhatEndsTheStretch) {
  const Verdict short_of = verdict_of(passing(202));
  EXPECT_GE(short_of.worst->delivered.nominal, short_of.required);
  EXPECT_EQ(short_of.limit, detail::Limit::kOutOfView);
  Project whole = passing(150);
  whole.site.places.front().line = {{-5, 20}, {5, 20}};  // 100 frames, all of them good
  EXPECT_EQ(verdict_of(whole).answer, Answer::kMissed);
  EXPECT_EQ(verdict_of(whole).limit, detail::Limit::kNone);
  whole.needs.front().level = "fine";  // which is not reached at 20 m
  EXPECT_EQ(verdict_of(whole).limit, detail::Limit::kPixels);
}

TEST(OnceAPassage, CamerasAddTheirFrames) {
  Project project = passing(390);
  project.site.mounts.push_back(mount_at("second", {0, 0}, 1.6));
  project.cameras.push_back(camera_on("twin", "second"));
  EXPECT_EQ(verdict_of(project).answer, Answer::kMet);
}

TEST(OnceAPassage, StepsAreHalvedUntilTheCountIsClear) {
  // 200 frames. Each end is known to half a step of 0.1 m and a step may be missed: two frames either way at first.
  const Verdict clear = verdict_of(passing(197));
  EXPECT_EQ(clear.answer, Answer::kMet);
  EXPECT_EQ(clear.samples, 400);
  const Verdict close = verdict_of(passing(199));
  EXPECT_EQ(close.answer, Answer::kMet);
  EXPECT_EQ(close.samples, 800);  // one frame either way
  EXPECT_EQ(verdict_of(passing(201)).answer, Answer::kMissed);
}

TEST(OnceAPassage, WhereNoCameraSeesAnythingNothingIsOpen) {
  Project project = passing(1);
  project.site.places.front().line = {{-5, -20}, {5, -20}};
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_EQ(verdict.share, Ranged<double>::exact(0));
  EXPECT_EQ(verdict.sampling_error, 0);
}

}  // namespace
}  // namespace sightfall::need
