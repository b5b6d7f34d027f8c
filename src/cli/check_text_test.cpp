// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::cli {
namespace {

using namespace units;
using need::Answer;
using testing::HasSubstr;
using testing::Not;

need::Project project() {
  need::Project project;
  project.name = "Yard";
  project.cameras.resize(2);
  project.settings.levels = {"2025", "", {{"outline", 40.0 * px / m}}};
  return project;
}

need::Verdict missed() {
  need::Verdict verdict;
  verdict.need = "person at the gate";
  verdict.share = {0.1, 0.4, 0.6};
  verdict.required_share = 0.95;
  verdict.required = 40.0 * px / m;
  verdict.limit = detail::Limit::kVeil;
  verdict.worst = need::WorstPlace{
      {3.25, -4.5, 1.6},   "summer", "wall", 80.0 * px / m, {8.0 * px / m, 10.0 * px / m, 12.0 * px / m},
      detail::Limit::kVeil};
  return verdict;
}

std::string text_of(const need::Verdict& verdict, Remedies remedies = Remedies::kLookedFor) {
  need::CheckResult result;
  result.verdicts = {verdict};
  return check_text(project(), result, remedies);
}

TEST(CheckText, TellsTheWorstPlaceAndItsLimit) {
  const std::string text = text_of(missed());
  EXPECT_THAT(text, HasSubstr("1 need, 2 cameras: 0 met, 0 marginal, 1 missed\n"));
  EXPECT_THAT(text, HasSubstr("person at the gate  missed   40 % (95 %)    veil   3.2, -4.5       10 (40)\n"));
  EXPECT_THAT(text, HasSubstr("    worst place: summer, camera wall: 10 px/m (8 to 12)\n"));
}

TEST(CheckText, OfAPassageTellsItsBestMomentAndItsFrames) {
  need::Verdict verdict = missed();
  verdict.worst->frames = need::PassageFrames{{0, 1.5, 4}, 3};
  EXPECT_THAT(text_of(verdict), HasSubstr("    best moment of the worst passage: summer, camera wall: 10 px/m (8 to "
                                          "12); 1.5 (0 to 4) of 3\n    frames\n"));
  verdict.worst->camera.clear();
  EXPECT_THAT(text_of(verdict), HasSubstr("    worst passage: summer, where no camera sees it\n"));
}

TEST(CheckText, TellsFeet) {
  need::Project in_feet = project();
  in_feet.settings.units = need::Units::kFeet;
  need::CheckResult result;
  result.verdicts = {missed()};
  const std::string text = check_text(in_feet, result, Remedies::kLookedFor);
  EXPECT_THAT(text, HasSubstr("10.7, -14.8"));
  EXPECT_THAT(text, HasSubstr("3.0 (12.2)"));
  EXPECT_THAT(text, Not(HasSubstr("px/m")));
}

TEST(CheckText, TellsARemedyAndWhatItWouldSpoil) {
  need::Verdict verdict = missed();
  verdict.remedy = need::Remedy{true, "wall", "wall: zoom to 8 mm", 1, Answer::kMet, {"face at the till"}};
  EXPECT_THAT(text_of(verdict), HasSubstr("    remedy: wall: zoom to 8 mm -> met, 100 %\n"
                                          "    it would spoil: face at the till\n"));
  verdict.remedy->mends = false;
  EXPECT_THAT(text_of(verdict), HasSubstr("no single change mends it; the best tried: wall: zoom to 8 mm"));
}

TEST(CheckText, SaysThatNothingHelpsOnlyWhenItWasLookedFor) {
  EXPECT_THAT(text_of(missed()), HasSubstr("no change of one camera helps"));
  EXPECT_THAT(text_of(missed(), Remedies::kNotLookedFor), Not(HasSubstr("remedy")));
  need::CheckResult stopped;
  stopped.verdicts = {missed()};
  stopped.stopped = true;
  const std::string text = check_text(project(), stopped, Remedies::kLookedFor);
  EXPECT_THAT(text, Not(HasSubstr("remedy")));
  EXPECT_THAT(text, HasSubstr("Stopped before its end"));
}

TEST(CheckText, SaysWhatWouldSettleAMarginalNeed) {
  need::Verdict verdict = missed();
  verdict.answer = Answer::kMarginal;
  verdict.settle = "the shutter: state it";
  EXPECT_THAT(text_of(verdict), HasSubstr("marginal: 10 % to 60 % of the samples may be good enough; settled by this: "
                                          "the shutter: state it"));
}

TEST(CheckText, APlaceThatNoCameraSees) {
  need::Verdict verdict = missed();
  verdict.limit = verdict.worst->limit = detail::Limit::kOutOfView;
  verdict.worst->camera.clear();
  const std::string text = text_of(verdict);
  EXPECT_THAT(text, HasSubstr("out of view  3.2, -4.5       unseen\n"));
  EXPECT_THAT(text, HasSubstr("worst place: summer, where no camera sees it"));
}

TEST(CheckText, AMetNeedHasARowAndNothingUnderIt) {
  need::Verdict verdict = missed();
  verdict.answer = Answer::kMet;
  verdict.limit = detail::Limit::kNone;
  const std::string text = text_of(verdict);
  EXPECT_THAT(text, testing::EndsWith("person at the gate  met      40 % (95 %)    -      3.2, -4.5       10 (40)\n"));
}

TEST(CheckText, NothingToJudge) {
  EXPECT_THAT(check_text(project(), {}, Remedies::kLookedFor), HasSubstr("0 needs, 2 cameras: nothing to judge\n"));
}

}  // namespace
}  // namespace sightfall::cli
