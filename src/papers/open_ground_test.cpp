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

TEST_F(OpenGround, ANightThatReachesFartherThanTheDayIsExplained) {
  camera::Sheet sheet = *part().sheet;
  sheet.iris = camera::Iris::kFixed;
  part().sheet = &sheet;
  const auto told = [&] { return farther_by_night(part(), need::Units::kMetres); };
  card::Mark near, far;
  near.distance = Length{20}, far.distance = Length{40};
  far.day.limit = detail::Limit::kLens, far.night.limit = detail::Limit::kPixels;
  far.day.delivered.nominal = PixelDensity{35}, far.night.delivered.nominal = PixelDensity{56};
  part().card.marks = {near, far};
  part().card.reach = {{"2025", "discern", Length{2}, Length{17}, {}}, {"2025", "outline", Length{2}, Length{34}, {}}};
  part().card.reach_night = part().card.reach;
  EXPECT_EQ(told(), std::nullopt);
  part().card.reach_night.back().farthest = Length{47};
  EXPECT_THAT(told(), Optional(AllOf(HasSubstr("farther than by day for \"outline\"."),
                                     HasSubstr("At 40.0 m lens is the limit by day (35 px/m are left)"),
                                     HasSubstr(", pixels by night (56 px/m)"), Not(HasSubstr("iris")))));
  sheet.iris = camera::Iris::kAutomatic;
  EXPECT_THAT(told(), Optional(HasSubstr("its iris closes")));
  part().card.reach.back().nearest = part().card.reach.back().farthest = std::nullopt;  // nowhere by day
  EXPECT_THAT(told(), Optional(HasSubstr("At 20.0 m")));
}

TEST_F(OpenGround, EnoughNominallyIsLessAtTheLowEnd) {
  verdict().answer = need::Answer::kMarginal;
  verdict().worst->delivered = {PixelDensity{30}, PixelDensity{50}, PixelDensity{60}};
  EXPECT_THAT(said(), Optional(AllOf(HasSubstr("MARGINAL"), HasSubstr("low end"), Not(HasSubstr("in the way")))));
}

}  // namespace
}  // namespace sightfall::papers
