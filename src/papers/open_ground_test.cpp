// SPDX-License-Identifier: GPL-3.0-or-later
// Where a verdict is less than the reach on open ground, the report says why; where they agree it says nothing.
#include "papers/open_ground.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "file/golden_test.h"
#include "file/project.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::Optional;

/// A camera and its need, whose verdict is then made to say otherwise.
class OpenGround : public ::testing::Test {
 protected:
  OpenGround() {
    auto read =
        file::load_project((file::source_folder() / "tests" / "case" / "files" / "wired.sightfall.json").string());
    EXPECT_TRUE(read);
    project_ = std::move(*read);
    Asked asked;
    asked.pictures = asked.mask_costs = false;
    auto gathered_job = gathered(project_, nullptr, asked);
    EXPECT_TRUE(gathered_job);
    job_ = std::move(*gathered_job);
    need::Verdict& verdict = this->verdict();
    verdict.answer = need::Answer::kMissed;
    verdict.required = PixelDensity{40};
    verdict.worst = need::WorstPlace{};
    verdict.worst->camera = part().camera->name;
    verdict.worst->condition = "day";
    verdict.worst->limit = detail::Limit::kOcclusion;
    verdict.worst->delivered = {PixelDensity{10}, PixelDensity{20}, PixelDensity{30}};
    stand_away(10);
    reach({Length{2}, Length{30}});
  }

  need::Verdict& verdict() { return job_.here.check.verdicts.front(); }
  CameraPart& part() { return job_.cameras.front(); }
  void stand_away(double metres) { verdict().worst->at_site = {part().mount->at.x + metres, part().mount->at.y, 0}; }
  void reach(std::pair<Length, Length> from_to, std::vector<card::Gap> gaps = {}) {
    for (card::LevelReach& one : part().card.reach)
      one.nearest = from_to.first, one.farthest = from_to.second, one.gaps = gaps;
  }
  std::optional<std::string> said() { return less_than_reach(job_, part(), verdict()); }

  need::Project project_;
  Job job_;
};

TEST_F(OpenGround, AMissWithinReachIsExplainedByItsLimit) {
  EXPECT_THAT(said(), Optional(AllOf(HasSubstr("MISSED at its worst place, 10.0 m away"), HasSubstr("of 40 px/m"),
                                     HasSubstr("something stands in the way"))));
}

TEST_F(OpenGround, WhereBothAgreeNothingIsSaid) {
  stand_away(31);
  EXPECT_EQ(said(), std::nullopt);
  stand_away(10);
  reach({Length{2}, Length{30}}, {{Length{9}, Length{11}}});
  EXPECT_EQ(said(), std::nullopt);
  reach({Length{2}, Length{30}});
  verdict().answer = need::Answer::kMet;
  EXPECT_EQ(said(), std::nullopt);
}

TEST_F(OpenGround, AnotherCamerasNeedIsNotExplained) {
  verdict().worst->camera = "another";
  EXPECT_EQ(said(), std::nullopt);
}

TEST_F(OpenGround, ByNightTheNightsReachCounts) {
  verdict().worst->condition = "night";
  part().card.reach_night.clear();
  EXPECT_EQ(said(), std::nullopt);
}

TEST_F(OpenGround, EnoughNominallyIsLessAtTheLowEnd) {
  verdict().answer = need::Answer::kMarginal;
  verdict().worst->delivered = {PixelDensity{30}, PixelDensity{50}, PixelDensity{60}};
  EXPECT_THAT(said(), Optional(AllOf(HasSubstr("MARGINAL"), HasSubstr("low end"), Not(HasSubstr("in the way")))));
}

}  // namespace
}  // namespace sightfall::papers
