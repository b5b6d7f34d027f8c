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

TEST(Replacing, TakesOverWhatTheSameReplacementSeesInAnotherCondition) {
  Project project = doubtful_yard();
  project.site.veils = {mesh_of("hedge", {{-10, 12}, {2, 12}}, 3, 0.1, 0.9)};
  site::Condition night, winter;
  night.light = site::NamedLight::kDarkNight;
  winter.leaves = site::Leaves::kOff;
  const Lit day{project}, bare{project, winter};
  const Lighting late{project, day.scene(), night};  // the same leaves as by day
  std::vector<Trial> trials;
  for (const Lighting* lighting : {&day.lighting(), &late, &bare.lighting()})
    trials.emplace_back(Moment{&project, lighting, "then"}, project.needs.front(),
                        in_condition(stations_of(project), *lighting), kSamples);
  Project turned = project;
  turned.cameras.front().heading = turned.cameras.front().heading + 5 * units::deg;
  const Station other = stations_of(turned).front();
  std::vector<Replacing> together;
  together.reserve(trials.size());
  for (const Trial& trial : trials) together.emplace_back(trial, 0, other, together);
  for (size_t i = 0; i < trials.size(); ++i) {
    EXPECT_EQ(together[i].most_share(), Replacing(trials[i], 0, other).most_share());
    expect_same(together[i].judge(), Replacing{trials[i], 0, other}.judge());
  }
  EXPECT_GT(together[2].nominal_share(), together[0].nominal_share()) << "without leaves more is seen";
  EXPECT_NE(together[1].judge().share, together[0].judge().share) << "the light is each condition's own";
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
