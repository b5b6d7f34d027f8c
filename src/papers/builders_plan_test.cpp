// SPDX-License-Identifier: GPL-3.0-or-later
// What of a job is on its builder's plan.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/documents.h"
#include "papers/papers.h"
#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsSupersetOf;

std::vector<std::string> labels_of(const std::vector<draw::PlanMark>& marks) {
  std::vector<std::string> labels;
  labels.reserve(marks.size());
  for (const draw::PlanMark& mark : marks) labels.push_back(mark.label);
  return labels;
}

TEST(BuildersPlan, HasEveryPointThatIsAimedByAlsoTheOneUnderTheLens) {
  const need::Project project = nursery();
  Job job = hung(project);
  job.cameras[0].aim.points = {{"pier", {1, 2, 0}, {}, {}, 0.5, 0.5}, {"corner", {3, 4, 0}, {}, {}, 0.5, 0.5}};
  job.cameras[1].aim.points = {{need::kPlumb, {5, 6, 0}, {}, {}, 0.5, 0.5}};
  const draw::SitePlan plan = plan_of(job);
  EXPECT_THAT(labels_of(plan.marks), ElementsAre("1a", "1b", "2a, under the lens"));
  EXPECT_EQ(plan.marks[2].at, (geom::PlanPoint{5, 6}));
}

TEST(BuildersPlan, WalkTestsHaveTheNumbersOfTheFieldSheet) {
  const need::Project project = nursery();
  Job job = hung(project);
  need::Verdict without;
  without.need = project.needs[0].name;
  need::Verdict first = without, second = without;
  first.worst = need::WorstPlace{{10, 11, 0}};
  second.worst = need::WorstPlace{{20, 21, 0}};
  job.here.check.verdicts = {first, without, second};
  const draw::SitePlan plan = plan_of(job);
  EXPECT_THAT(labels_of(plan.tests), ElementsAre("1", "2"));
  EXPECT_EQ(plan.tests[1].at, (geom::PlanPoint{20, 21}));
}

TEST(BuildersPlan, CablesHaveTheWaysThatTheyTake) {
  const need::Project project = nursery();
  const Job job = carried(project);
  for (const draw::PlanCable& cable : plan_of(job).cables)
    if (cable.name == "F1") {
      EXPECT_THAT(cable.along, IsSupersetOf({"shop eaves", "yard conduit", "shed eaves"}));
    }
}

TEST(BuildersPlan, TheA3PlanOfTheDemoNamesWhatOthersMeasureFrom) {
  const need::Project project = nursery();
  const auto words = draw::site_sheet(plan_of(hung(project)), {1191, 842}).words;
  for (const site::Solid& solid : project.site.solids)
    EXPECT_THAT(words, Contains(::testing::AnyOf(solid.name, HasSubstr("  " + solid.name))));
  for (const site::Veil& veil : project.site.veils)
    EXPECT_THAT(words, Contains(::testing::AnyOf(veil.name, HasSubstr("  " + veil.name))));
  EXPECT_THAT(words, IsSupersetOf({"C1 C2 C4 F1", "walk in at the gate", "yard conduit, 0.6 m deep"}));
}

TEST(BuildersPlan, TheSvgFileIsAsLargeAsItsPaper) {
  const need::Project project = nursery();
  std::string svg;
  const Job job = hung(project);
  ASSERT_TRUE(write_papers(job, [&](const std::string& name, std::string_view bytes) -> Result<void> {
    if (name == "plan.svg") svg = bytes.substr(0, 400);
    return {};
  }));
  // 1191 x 842 points are 420 x 297 mm.
  EXPECT_THAT(svg, HasSubstr("width=\"1191pt\" height=\"842pt\" viewBox=\"0 0 1191 842\""));
}

}  // namespace
}  // namespace sightfall::papers
