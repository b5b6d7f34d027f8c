// SPDX-License-Identifier: GPL-3.0-or-later
// A trial with one camera replaced is the trial of the project that has the other camera.
#include "need/trial.h"

#include <gtest/gtest.h>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

constexpr int kSamples = 256;

/// A yard about the reach of the level, focused and seen with some doubt, so that some samples are open.
Project doubtful_yard() {
  Project project = project_with(zone_of("yard", rectangle(-6, 8, 6, 30)), need_of(Subject::kFace, "yard", "fine"));
  project.settings.typical.contrast_threshold.value = {0.1, 0.2, 0.35};
  project.settings.typical.view_tolerance.value = {0.9, 1, 1.1};
  return project;
}

class OnTrial {
 public:
  explicit OnTrial(const Project& project)
      : day_{project},
        trial_{{&project, &day_.lighting(), "day"},
               project.needs.front(),
               in_condition(stations_of(project), day_.lighting()),
               kSamples} {}

  Judgement judged(Telling telling = Telling::kAll) const { return trial_.judge(telling); }
  Judgement judged_with(const Project& other) const { return Replacing{trial_, 0, stations_of(other).front()}.judge(); }

 private:
  Lit day_;
  Trial trial_;
};

void expect_same(const Judgement& one, const Judgement& other) {
  EXPECT_EQ(one.answer, other.answer);
  EXPECT_EQ(one.share, other.share);
  EXPECT_EQ(one.settle, other.settle);
  ASSERT_TRUE(one.worst && other.worst);
  EXPECT_EQ(one.worst->delivered, other.worst->delivered);
}

TEST(Trial, WithAMaskIsTheTrialOfTheMaskedCamera) {
  const Project project = doubtful_yard();
  const OnTrial plain{project};
  const Judgement before = plain.judged();  // what it worked out is there to be taken over
  EXPECT_LT(before.share.low, before.share.high) << "nothing is open";
  Project masked = project;
  masked.cameras.front().masks = {{"left", 0, 0, 0.4, 1}};
  const Judgement with = plain.judged_with(masked);
  expect_same(with, OnTrial{masked}.judged());
  EXPECT_LT(with.share.nominal, before.share.nominal);
}

TEST(Trial, WithAnotherLensIsTheTrialOfThatLens) {
  const Project project = doubtful_yard();
  const OnTrial plain{project};
  const Judgement before = plain.judged();
  Project blurred = project;
  blurred.catalogue.front().lens_class = camera::LensClass::kEconomy;
  const Judgement with = plain.judged_with(blurred);
  expect_same(with, OnTrial{blurred}.judged());
  EXPECT_LT(with.share.nominal, before.share.nominal);
}

TEST(Trial, TheAnswerAloneIsTheSameAnswer) {
  const Project project = doubtful_yard();
  const Judgement alone = OnTrial{project}.judged(Telling::kAnswer), all = OnTrial{project}.judged();
  EXPECT_EQ(alone.answer, all.answer);
  EXPECT_EQ(alone.share, all.share);
  EXPECT_FALSE(alone.worst);
  EXPECT_TRUE(all.worst);
}

}  // namespace
}  // namespace sightfall::need
