// SPDX-License-Identifier: GPL-3.0-or-later
// Verdicts by pencil: met, marginal and missed, each limit in a scenario made for it, shares and their errors,
// selections, stopping, progress, and the same answer for any number of threads.
#include "need/check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <atomic>
#include <cmath>

#include "need/lit_project.h"
#include "need/test_project.h"
#include "need/test_told.h"
#include "need/trial.h"

namespace sightfall::need {
namespace {

using detail::Limit;
using site::PlaceKind;
using testing::HasSubstr;
using testing::IsEmpty;

/// The camera's axis from one distance to another.
site::Place axis(double from, double upto) { return way_of("axis", PlaceKind::kLine, {{0, from}, {0, upto}}); }

Project along(double from, double upto, double share = 0.95) {
  Need need = need_of(Subject::kFace, "axis", "fine");  // 100 px/m: up to 20 m
  need.share = share;
  return project_with(axis(from, upto), need);
}

TEST(Check, MetWhereTheLevelIsReached) {
  const Verdict verdict = verdict_of(along(6, 19));
  EXPECT_EQ(verdict.answer, Answer::kMet);
  EXPECT_EQ(verdict.share, Ranged<double>::exact(1));
  EXPECT_EQ(verdict.limit, Limit::kNone);
  EXPECT_EQ(verdict.settle, "");
  EXPECT_DOUBLE_EQ(verdict.required.si(), 100);
  EXPECT_DOUBLE_EQ(verdict.required_share, 0.95);
  ASSERT_TRUE(verdict.worst);
  EXPECT_NEAR(verdict.worst->at_site.y, 19, 0.1);  // the farthest of 256 samples
  EXPECT_NEAR(verdict.worst->density.si(), kScale / verdict.worst->at_site.y, 1e-9);
  EXPECT_EQ(verdict.worst->camera, "eye");
}

TEST(Check, MissedBeyondItForWantOfPixels) {
  const Verdict verdict = verdict_of(along(10, 30));
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_NEAR(verdict.share.nominal, 0.5, 1.0 / 256);
  EXPECT_EQ(verdict.limit, Limit::kPixels);
  ASSERT_TRUE(verdict.worst);
  EXPECT_NEAR(verdict.worst->at_site.y, 30, 0.1);
  EXPECT_NEAR(verdict.worst->delivered.nominal.si(), kScale / verdict.worst->at_site.y, 1e-6);
}

TEST(Check, MarginalWhenARangeStraddlesTheLevelAndNamesTheInput) {
  Project project = along(18.5, 19.5);  // 108 to 103 px/m
  project.settings.typical.view_tolerance = {{0.9, 1, 1.1}, "1", "angle of view", "test", "measure the angle"};
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMarginal);
  EXPECT_EQ(verdict.share, (Ranged<double>{0, 1, 1}));
  EXPECT_THAT(verdict.settle, HasSubstr("angle of view (0.9 to 1.1"));
  EXPECT_THAT(verdict.settle, HasSubstr("measure the angle"));
  EXPECT_NE(verdict.limit, Limit::kNone);
}

TEST(Check, TheRangesEndsAreByPencil) {
  Project project = along(10, 30);
  project.settings.typical.view_tolerance.value = {0.9, 1, 1.1};  // reaches 18, 20 and 22 m
  const Verdict verdict = verdict_of(project);
  EXPECT_NEAR(verdict.share.low, 0.4, 1.0 / 256);
  EXPECT_NEAR(verdict.share.nominal, 0.5, 1.0 / 256);
  EXPECT_NEAR(verdict.share.high, 0.6, 1.0 / 256);
}

TEST(Check, SettleSpeaksOfTheCameraThatIsBestThere) {
  // Of two cameras the second sees the place; its lens is the economy one.
  Project project = along(18.5, 19.5);
  project.site.mounts.push_back(mount_at("far", {200, 0}, 1.6));
  project.cameras.insert(project.cameras.begin(), camera_on("other", "far"));
  project.catalogue.push_back(plain_sheet("economy"));
  project.catalogue.back().lens_class = camera::LensClass::kEconomy;
  project.cameras.back().sheet = "economy";
  project.settings.typical.lens_blur_economy = {{0.1, 0.2, 2}, "px", "blur of an economy lens", "test", "ask"};
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMarginal);
  EXPECT_THAT(verdict.settle, HasSubstr("blur of an economy lens (0.1 to 2 px)"));
}

TEST(Check, SamplesDoubleUntilTheShareIsClear) {
  const Verdict clear = verdict_of(along(10, 30, 0.4));
  EXPECT_EQ(clear.answer, Answer::kMet);  // 0.5 - 0.084 with 256 samples
  EXPECT_EQ(clear.samples, 256);
  const Verdict close = verdict_of(along(10, 30, 0.52));
  EXPECT_EQ(close.answer, Answer::kMissed);
  EXPECT_EQ(close.samples, 8192);  // 2.576 sqrt(0.25 / n) + 1/n falls below 0.02 between 4096 and 8192
  EXPECT_LT(close.share.nominal + close.sampling_error, 0.52);
  const Verdict open = verdict_of(along(10, 30, 0.5));
  EXPECT_EQ(open.answer, Answer::kMarginal);
  EXPECT_EQ(open.samples, 16384);
  EXPECT_THAT(open.settle, HasSubstr("within its sampling error"));
}

TEST(Check, WhatNoCameraSeesIsMissedAndOutOfView) {
  const Verdict verdict = verdict_of(along(-30, -10));
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_EQ(verdict.limit, Limit::kOutOfView);
  EXPECT_EQ(verdict.share, Ranged<double>::exact(0));
  ASSERT_TRUE(verdict.worst);
  EXPECT_EQ(verdict.worst->camera, "");
  EXPECT_EQ(verdict.worst->density.si(), 0);
}

TEST(Check, WithoutCamerasEverythingIsOutOfView) {
  Project project = along(6, 19);
  project.cameras.clear();
  EXPECT_EQ(verdict_of(project).limit, Limit::kOutOfView);
  EXPECT_EQ(verdict_of(project).answer, Answer::kMissed);
}

TEST(Check, BehindAWallTheLimitIsOcclusion) {
  Project project = along(10, 19);
  project.site.solids = {wall_of("wall", {{-3, 8}, {3, 8}}, 4)};
  EXPECT_EQ(verdict_of(project).limit, Limit::kOcclusion);
}

TEST(Check, TurnedAwayTheLimitIsTheAngle) {
  Project project = along(10, 19);
  project.needs.front().facing = Facing::kHeading;
  project.needs.front().facing_heading = 0 * units::deg;
  EXPECT_EQ(verdict_of(project).limit, Limit::kAngle);
}

TEST(Check, BehindAVeilTheLimitIsTheVeil) {
  Project project = along(10, 19);
  // Contrast 0.1 / (0.1 + 0.9 x 1) is below the threshold of 0.2.
  project.site.veils = {mesh_of("hedge", {{-3, 8}, {3, 8}}, 4, 0.1, 1)};
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_EQ(verdict.limit, Limit::kVeil);
}

TEST(Check, SetTooNearTheLimitIsFocus) {
  Project project = along(10, 19);
  project.cameras.front().focus = Length{0.5};
  EXPECT_EQ(verdict_of(project).limit, Limit::kFocus);
}

TEST(Check, CrossingFastTheLimitIsMotion) {
  Need need = need_of(Subject::kObject, "drive", "fine");
  need.height = Length{1.6};
  need.speed = Speed{20};  // 10 cm in 1/200 s: a dozen pixels
  EXPECT_EQ(verdict_of(project_with(way_of("drive", PlaceKind::kRoute, {{-5, 15}, {5, 15}}), need)).limit,
            Limit::kMotion);
  need.shutter = Time{1e-5};  // the need's shutter wins
  EXPECT_EQ(verdict_of(project_with(way_of("drive", PlaceKind::kRoute, {{-5, 15}, {5, 15}}), need)).answer,
            Answer::kMet);
}

TEST(Check, ARoutesSpeedIsUsedUnlessTheNeedStatesOne) {
  Need need = need_of(Subject::kObject, "drive", "fine");
  need.height = Length{1.6};
  need.speed.reset();
  site::Place drive = way_of("drive", PlaceKind::kRoute, {{-5, 15}, {5, 15}});
  EXPECT_EQ(verdict_of(project_with(drive, need)).answer, Answer::kMet);
  drive.speed = Speed{20};
  EXPECT_EQ(verdict_of(project_with(drive, need)).answer, Answer::kMissed);
  need.speed = Speed{0};
  EXPECT_EQ(verdict_of(project_with(drive, need)).answer, Answer::kMet);
}

TEST(Check, OnASwayingPoleTheLimitIsShake) {
  Project project = along(10, 19);
  project.site.mounts.front().sway = Angle{0.05};
  project.site.mounts.front().sway_frequency = Frequency{3};  // 0.94 rad/s, 9 px in 1/200 s
  EXPECT_EQ(verdict_of(project).limit, Limit::kShake);
}

TEST(Check, MarginalWhereGustsMaySwayAPoleTooMuch) {
  Project project = along(10, 15);
  site::Mount& mount = project.site.mounts.front();
  mount.sway = Angle{0.0025};  // 0.24 px at 1.5 Hz in 1/200 s
  EXPECT_EQ(verdict_of(project).answer, Answer::kMet);
  project.settings.typical.sway_frequency = {{0.5, 1.5, 30}, "Hz", "how often it swings", "test", "count it"};
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMarginal);
  EXPECT_THAT(verdict.settle, HasSubstr("how often it swings (0.5 to 30 Hz): count it"));
}

TEST(Check, WithASoftLensTheLimitIsTheLens) {
  Project project = along(10, 19);
  project.catalogue.front().lens_class = camera::LensClass::kEconomy;  // 2 px here
  EXPECT_EQ(verdict_of(project).limit, Limit::kLens);
}

TEST(Check, ADullSubjectsLimitIsContrast) {
  Project project = along(10, 19);
  project.settings.typical.contrast_face = exactly(0.15, "contrast");
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.limit, Limit::kContrast);
  EXPECT_EQ(verdict.worst->delivered.nominal.si(), 0);
}

TEST(Check, TheWorstConditionAnswers) {
  Project project = along(10, 19);
  project.conditions = {{"winter", site::Leaves::kOff}, {"summer", site::Leaves::kOn}};
  project.site.veils = {mesh_of("hedge", {{-3, 8}, {3, 8}}, 4, 0.1, 1)};
  const Verdict both = verdict_of(project);
  EXPECT_EQ(both.answer, Answer::kMissed);
  EXPECT_EQ(both.worst->condition, "summer");
  ASSERT_EQ(both.conditions.size(), 2U);
  EXPECT_EQ(both.conditions[0].condition, "winter");
  EXPECT_EQ(both.conditions[0].share, 1);
  EXPECT_EQ(both.conditions[1].share, 0);
  project.needs.front().conditions = {"winter"};
  EXPECT_EQ(verdict_of(project).answer, Answer::kMet);
}

TEST(Check, EverySampleTakesTheBestCamera) {
  Project project = along(10, 39);
  project.site.mounts.push_back(mount_at("far post", {0, 45}, 1.6));
  project.cameras.push_back(camera_on("back", "far post", 180));
  project.needs.front().level = "fine";
  const Verdict verdict = verdict_of(project);  // one reaches 20 m, the other from 45 m back to 25 m
  EXPECT_NEAR(verdict.share.nominal, 24.0 / 29, 2.0 / 256);
  EXPECT_NEAR(verdict.worst->at_site.y, 22.5, 0.1);
}

TEST(Check, TheWorstPlaceIsWhereTheBestCameraDeliversLeast) {
  const Need need = need_of(Subject::kFace, "yard", "fine");
  Project project = project_with(zone_of("yard", rectangle(-3, 8, 3, 28)), need);
  const Verdict verdict = verdict_of(project);
  const Station station = station_of(project, project.cameras.front());
  const auto samples = samples_of(project, need, verdict.samples);
  const auto views = Lit{project}.views(station, need, samples);
  double least = 1e300;
  for (const SampleView& view : views) {
    ASSERT_EQ(view.gate, Limit::kNone);
    least = std::min(least, view.seen.density);
  }
  EXPECT_NEAR(verdict.worst->delivered.nominal.si(), least, 1e-9);
}

TEST(Check, ADetectorsLeastHeightIsHeldAgainstThePicture) {
  Need need = need_of(Subject::kObject, "axis", "coarse");  // 0.5 m tall: 1000 px / distance
  need.height = Length{1.6};
  need.detector_height = Pixels{50};
  const Verdict verdict = verdict_of(project_with(axis(10, 30), need));
  EXPECT_NEAR(verdict.share.nominal, 0.5, 1.0 / 256);  // up to 20 m
  EXPECT_EQ(verdict.limit, Limit::kPixels);
  need.detector_height.reset();
  EXPECT_EQ(verdict_of(project_with(axis(10, 30), need)).answer, Answer::kMet);
}

TEST(Check, ADetectorsLimitIsPixelsAlsoBehindASoftLens) {
  Need need = need_of(Subject::kObject, "axis", "coarse");
  need.height = Length{1.6};
  need.detector_height = Pixels{100};  // up to 10 m, where a lens of 2 px still delivers more than 25 px/m
  Project project = project_with(axis(12, 14), need);
  project.catalogue.front().lens_class = camera::LensClass::kEconomy;
  const Verdict verdict = verdict_of(project);
  EXPECT_EQ(verdict.answer, Answer::kMissed);
  EXPECT_EQ(verdict.limit, Limit::kPixels);
}

TEST(Check, WhereTheModeIsOpenTheAnswerMustHoldInBoth) {
  Project project = along(6, 12);
  project.needs.front().colour = true;
  site::Condition dusk;
  dusk.name = "dusk";
  dusk.light = site::NamedLight::kDusk;  // 10 lx on the ground
  project.conditions = {dusk};
  project.settings.materials.all = {{"skin", {{0.4, 0.5, 0.5}}, "test"}};
  EXPECT_EQ(verdict_of(project).answer, Answer::kMet) << "switches at 3 lx";
  project.settings.typical.night_switch = {{1, 3, 20}, "lx", "light of the switch", "test", "watch at dusk"};
  const Verdict open = verdict_of(project);
  EXPECT_EQ(open.answer, Answer::kMarginal);
  EXPECT_EQ(open.share, (Ranged<double>{0, 1, 1}));
  EXPECT_THAT(open.settle, HasSubstr("light of the switch (1 to 20 lx): watch at dusk"));
  project.settings.typical.night_switch.value = {12, 15, 20};
  EXPECT_EQ(verdict_of(project).answer, Answer::kMissed) << "monochrome either way";
}

TEST(CheckOptions, SelectNeedsAndConditions) {
  Project project = along(10, 19);
  project.conditions = {{"winter", site::Leaves::kOff}, {"summer", site::Leaves::kOn}};
  project.site.veils = {mesh_of("hedge", {{-3, 8}, {3, 8}}, 4, 0.1, 1)};
  Need second = project.needs.front();
  second.name = "second";
  second.conditions = {"summer"};
  project.needs.push_back(second);
  CheckOptions options;
  options.remedies = false;
  options.needs = {"second"};
  CheckResult result = check(project, options);
  ASSERT_EQ(result.verdicts.size(), 1U);
  EXPECT_EQ(result.verdicts.front().need, "second");
  options.needs.clear();
  options.conditions = {"winter"};
  result = check(project, options);
  ASSERT_EQ(result.verdicts.size(), 1U) << "the need of summer alone is not asked";
  EXPECT_EQ(result.verdicts.front().need, "see axis");
  EXPECT_EQ(result.verdicts.front().answer, Answer::kMet);
}

TEST(LitProject, EachConditionIsLitOnceAsItIsByItself) {
  Project project = along(10, 30);
  project.catalogue.front().infrared.emplace();
  project.cameras.push_back(camera_on("other", "post", 30));
  site::Condition night{"night", site::Leaves::kOff};
  night.light = site::NamedLight::kDarkNight;
  project.conditions.push_back(night);
  const LitProject lit{project};
  for (const site::Condition& condition : project.conditions) {
    const ConditionLight& light = lit.in(condition);
    EXPECT_EQ(&light, &lit.in(condition));
    const LitScene scene = lit_scene(project, condition);
    for (const Station& station : stations_of(project)) {
      const Station alone = in_condition(station, scene.lighting);
      const Station& shared = light.nominal.stations.at(static_cast<size_t>(station.number));
      EXPECT_EQ(shared.name, alone.name);
      EXPECT_EQ(shared.infrared_on, condition.name == "night");
      EXPECT_EQ(shared.infrared_on, alone.infrared_on);
      EXPECT_EQ(shared.scene_lux, alone.scene_lux);
      EXPECT_EQ(shared.glare.size(), alone.glare.size());
    }
  }
  EXPECT_EQ(check(lit, {{}, {}, false, false}).verdicts.front().share,
            check(project, {{}, {}, false, false}).verdicts.front().share);
}

TEST(CheckProgress, RisesFromZeroToOne) {
  Project project = along(10, 30);
  for (int i = 0; i < 5; ++i) project.needs.push_back(project.needs.front());
  std::vector<double> told;
  Progress progress;
  progress.tell = [&](double share, std::string_view) { told.push_back(share); };
  check(project, {}, progress);
  ASSERT_GT(told.size(), 6U);
  EXPECT_GE(told.front(), 0);
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_EQ(told.back(), 1);
}

TEST(CheckProgress, StoppedBeforeItBeginsItReturnsNoVerdict) {
  const std::atomic<bool> stop{true};
  Progress progress;
  progress.stop = &stop;
  const CheckResult result = check(along(10, 30), {}, progress);
  EXPECT_TRUE(result.stopped);
  EXPECT_THAT(result.verdicts, IsEmpty());
}

TEST(CheckProgress, StoppedOnTheWayItReturnsWhatIsDone) {
  Project project = along(10, 30);
  for (int i = 0; i < 40; ++i) project.needs.push_back(project.needs.front());
  std::atomic<bool> stop{false};
  Progress progress;
  progress.stop = &stop;
  progress.tell = [&](double, std::string_view) { stop = true; };
  const CheckResult result = check(project, {}, progress);
  EXPECT_TRUE(result.stopped);
  EXPECT_GE(result.verdicts.size(), 1U);
  EXPECT_LT(result.verdicts.size(), project.needs.size());
  const Verdict whole = verdict_of(project);
  for (const Verdict& verdict : result.verdicts) EXPECT_EQ(told(verdict), told(whole));
}

TEST(Check, GivesTheSameAnswerForAnyNumberOfThreads) {
  const Project project = busy_project();
  const auto with_threads = [&](size_t threads) {
    const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, threads};
    return told(check(project));
  };
  const std::string one = with_threads(1);
  EXPECT_GT(one.size(), 2000U);
  EXPECT_EQ(with_threads(2), one);
  EXPECT_EQ(with_threads(4), one);
}

TEST(ShareError, IsTheNinetyPercentHalfWidthAndOneSample) {
  EXPECT_NEAR(share_error(0.5, 256), 2.576 * 0.5 / 16 + 1.0 / 256, 1e-12);
  EXPECT_DOUBLE_EQ(share_error(0, 256), 3.0 / 256) << "none of 256 may be a few of 512";
  EXPECT_DOUBLE_EQ(share_error(1, 256), 3.0 / 256);
  EXPECT_DOUBLE_EQ(way_error(10, 5, 250), 12.5 / 250);
}

TEST(InWords, NamesTheAnswers) {
  EXPECT_EQ(in_words(Answer::kMet), "met");
  EXPECT_EQ(in_words(Answer::kMarginal), "marginal");
  EXPECT_EQ(in_words(Answer::kMissed), "missed");
}

TEST(HoldOtherwise, AnswersAsACheckWithTheChangeDoes) {
  Project project = along(6, 39);
  project.site.mounts.push_back(mount_at("far post", {0, 45}, 1.6));
  project.cameras.push_back(camera_on("back", "far post", 180));
  site::Condition dusk;
  dusk.name = "dusk";
  dusk.light = site::NamedLight::kDusk;
  project.conditions.push_back(dusk);
  project.settings.typical.night_switch = {{1, 3, 20}, "lx", "light of the switch", "test", "watch at dusk"};
  project.needs.front().share = 0.2;
  project.needs.push_back(project.needs.front());
  project.needs.back().name = "in colour";
  project.needs.back().colour = true;
  std::vector<Otherwise> others;
  for (size_t camera = 0; camera < 2; ++camera)
    for (const double right : {0.5, 1.0}) {
      Otherwise& one = others.emplace_back(
          Otherwise{camera, project.cameras[camera], {project.needs[0].name, project.needs[1].name}});
      one.set.masks.push_back({"mask", 0, 0, right, 1});
    }
  const CheckResult before = check(project, {{}, {}, false, false});
  const LitProject lit{project};
  const auto became = hold_otherwise(lit, others);
  const CheckResult afterwards = check(lit, {{}, {}, false, false});  // takes over how needs stand as it is
  for (size_t n = 0; n < project.needs.size(); ++n) {
    EXPECT_EQ(afterwards.verdicts[n].answer, before.verdicts[n].answer);
    EXPECT_EQ(afterwards.verdicts[n].share, before.verdicts[n].share);
    EXPECT_EQ(afterwards.verdicts[n].samples, before.verdicts[n].samples);
  }
  ASSERT_EQ(became.size(), others.size());
  int changed = 0, held = 0;
  for (size_t i = 0; i < others.size(); ++i) {
    Project set = project;
    set.cameras[others[i].camera] = others[i].set;
    const CheckResult after = check(set, {{}, {}, false, false});
    size_t next = 0;
    for (size_t n = 0; n < project.needs.size(); ++n) {
      if (before.verdicts[n].answer == Answer::kMissed) continue;
      ASSERT_LT(next, became[i].size());
      const Became& one = became[i][next++];
      EXPECT_EQ(one.need, project.needs[n].name);
      EXPECT_EQ(one.before.answer, before.verdicts[n].answer);
      EXPECT_EQ(one.before.share, before.verdicts[n].share.nominal);
      EXPECT_EQ(one.after.answer, after.verdicts[n].answer);
      EXPECT_EQ(one.after.share, after.verdicts[n].share.nominal);
      changed += one.after.share < one.before.share ? 1 : 0;
      ++held;
    }
    EXPECT_EQ(next, became[i].size());
  }
  EXPECT_GT(held, 3);
  EXPECT_GT(changed, 1);
}

TEST(Check, WithoutSurroundingsTheVerdictsAreTheSameAndNothingElseIsTold) {
  Project project = project_with(zone_of("yard", rectangle(-1, 8, 1, 10)), need_of(Subject::kFace, "yard", "fine"));
  project.site.mounts.front().height = Length{2};  // within reach of a hand: a caution
  project.cameras.front().tilt = Angle{0.04};
  const CheckResult whole = check(project, {{}, {}, false, true}), bare = check(project, {{}, {}, false, false});
  EXPECT_FALSE(whole.cautions.empty());
  EXPECT_TRUE(bare.cautions.empty());
  ASSERT_EQ(bare.verdicts.size(), whole.verdicts.size());
  EXPECT_EQ(bare.verdicts.front().share, whole.verdicts.front().share);
}

}  // namespace
}  // namespace sightfall::need
