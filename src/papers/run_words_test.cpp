// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/run_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "draw/document.h"
#include "papers/documents.h"
#include "papers/test_job.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(RunWords, ARunThatIsTooLongHasOneSolutionInEveryPaperThatNamesIt) {
  const need::Project project = nursery();
  const Job job = carried(project);
  const loads::LaidRun& laid = laid_of(job, "C8");
  const std::string remedy = laid.reach.remedy, fibre = "fibre, two multimode OM3, outdoor";
  ASSERT_THAT(remedy, HasSubstr("of 100 m: use \"" + fibre + "\""));
  ASSERT_THAT(laid.otherwise, HasSubstr("switch on the way"));
  const Row cable = row_with(cables_of(job), "label", "C8"), port = row_with(ports_of(job), "cable", "C8");
  for (const Row& row : {cable, port}) {
    EXPECT_EQ(text_in(row, "as planned"), "missed");
    EXPECT_THAT(text_in(row, "remarks"), HasSubstr(remedy));
    EXPECT_THAT(text_in(row, "remarks"), HasSubstr(loads::kNoPowerByFibre));
  }
  EXPECT_EQ(text_in(cable, "cable"), fibre);
  EXPECT_EQ(text_in(cable, "in place of"), "Cat6 U/UTP, outdoor");
  EXPECT_EQ(port.at("draws at most, W"), Cell{});
  EXPECT_EQ(text_in(row_with(materials_of(job), "what", "C8: " + fibre), "kind"), "cable");
  EXPECT_EQ(text_in(row_with(materials_of(job), "kind", "injector"), "what"), "of class 3, for fuel store");
  const std::string settings = draw::words_of(settings_sheets(job));
  EXPECT_THAT(settings, HasSubstr("MISSED: " + std::string{loads::kNoPowerByFibre}));
  EXPECT_THAT(settings, HasSubstr("by " + fibre + ", in place of Cat6 U/UTP, outdoor"));
  EXPECT_THAT(csv_of(cables_of(job)), HasSubstr("otherwise: " + laid.otherwise));
  for (const std::string& paper : {csv_of(ports_of(job)), csv_of(materials_of(job)), settings})
    EXPECT_THAT(paper, Not(HasSubstr("switch on the way")));
  for (const draw::PlanCable& drawn : plan_of(job).cables)
    if (drawn.name == "C8") {
      EXPECT_TRUE(drawn.fibre);
    }
}

TEST(RunWords, WhatIsAnOpenQuestionIsSettledBeforeItIsBought) {
  need::Project project = nursery();
  for (site::Cable& cable : project.settings.cables) cable.longest = Length{60};  // fibre, too: C8 finds none
  const Job job = carried(project);
  ASSERT_TRUE(laid_of(job, "C8").open_question);
  EXPECT_EQ(text_in(row_with(materials_of(job), "what", "C8: Cat6 U/UTP, outdoor"), "kind"), "settle before buying");
}

TEST(RunWords, WhatIsSoundToBuyIsSummedWithoutWhatIsNot) {
  const need::Project project = nursery();
  const Job job = carried(project);
  const Schedule materials = materials_of(job);
  double sum = 0;
  for (const char* run : {"C1", "C2", "C4", "C6", "C7"})
    sum += std::get<double>(row_with(materials, "what", run + std::string(": Cat6 U/UTP, outdoor")).at("quantity"));
  const auto rows = rows_of(materials);
  const auto total = std::find_if(rows.begin(), rows.end(), [](const Row& row) {
    return text_in(row, "kind") == "cable in all" && text_in(row, "what") == "Cat6 U/UTP, outdoor";
  });
  ASSERT_NE(total, rows.end());
  EXPECT_NEAR(std::get<double>(total->at("quantity")), sum, 0.01);
}

TEST(RunWords, ASupplyThatDoesNotFitIsSettledBeforeAnythingIsBought) {
  const need::Project fits = yard_on_supply(12), other = yard_on_supply(48);
  const Job fine = carried(fits), job = carried(other);
  ASSERT_FALSE(job.here.loads.power.supply_runs.front().mismatch.empty());
  const std::string cable = "D1: 2 x 0.75 mm2, flexible, outdoor";
  EXPECT_EQ(text_in(row_with(materials_of(fine), "what", cable), "kind"), "cable");
  EXPECT_EQ(text_in(row_with(materials_of(job), "what", cable), "kind"), "settle before buying");
  EXPECT_THAT(text_in(row_with(materials_of(job), "what", "spare"), "remarks"),
              HasSubstr("settle before buying: door"));
  EXPECT_THAT(text_in(row_with(materials_of(fine), "what", "spare"), "remarks"), Not(HasSubstr("settle")));
  EXPECT_EQ(text_in(row_with(cables_of(job), "label", "D1"), "as planned"), "missed");
  EXPECT_EQ(text_in(row_with(cables_of(fine), "label", "D1"), "as planned"), "met");
  const auto terminal = [](const Job& of) {
    return text_in(row_with(materials_of(of), "kind", "terminal"), "remarks");
  };
  EXPECT_THAT(terminal(job), HasSubstr("D1 (settle before buying: missed)"));
  EXPECT_THAT(terminal(fine), Not(HasSubstr("settle")));
  EXPECT_THAT(draw::words_of(settings_sheets(hung(other))), HasSubstr("Its cable D1 is MISSED as planned"));
  EXPECT_THAT(draw::words_of(owner_summary(job)), HasSubstr("settled that do"));
}

TEST(RunWords, SurgeProtectionHasOneWordInEveryPaper) {
  need::Project project = yard();
  const auto words = [&](bool stated) {
    project.site.runs.front().surge_protected = stated;
    const Job job = carried(project);
    EXPECT_THAT(text_in(row_with(materials_of(job), "kind", "surge protector"), "what"),
                HasSubstr(stated ? "for Cat6" : "advised"));
    return text_in(row_with(cables_of(job), "label", "C1"), "surge protection");
  };
  EXPECT_EQ(words(true), "as stated, both ends");
  EXPECT_EQ(words(false), "advised, both ends");
}

TEST(RunWords, ASurgeProtectorIsForTheCableThatIsToBeUsed) {
  const need::Project project = nursery();
  const Job job = carried(project);
  EXPECT_EQ(laid_of(job, "C5").to_lay().name, "Cat5e U/UTP, outdoor");
  EXPECT_EQ(laid_of(job, "C1").to_lay().name, "Cat6 U/UTP, outdoor");
  for (const Row& row : rows_of(materials_of(job)))
    if (text_in(row, "kind") == "surge protector") {
      EXPECT_THAT(text_in(row, "what"), Not(HasSubstr("indoor")));
      EXPECT_THAT(text_in(row, "remarks"), Not(HasSubstr("C8")));  // fibre takes none
    }
}

TEST(RunWords, AFreePortIsProposedWhereTheDocumentNumbersNone) {
  need::Project project = nursery();
  const site::Run& uplink = need::the_named(project.site.runs, "N1");
  EXPECT_EQ(port_there(project, uplink), "7 (proposed)");  // 1 to 6 give power
  EXPECT_EQ(port_there(project, need::the_named(project.site.runs, "C1")), "");
  for (site::Feed& feed : project.site.feeds)
    if (feed.name == "shop switch") feed.ports.count = feed.ports.powered = 5;
  EXPECT_EQ(port_there(project, uplink), "none is free");
  for (site::Feed& feed : project.site.feeds)
    if (feed.name == "shop switch") feed.ports.count = 0;
  EXPECT_EQ(port_there(project, uplink), "any free");
}

TEST(RunWords, NoTwoRunsAreGivenOnePort) {
  need::Project project = nursery();
  for (site::Run& run : project.site.runs) run.port.reset();
  for (const site::Feed& feed : project.site.feeds) {
    std::vector<int> ports;
    for (const PortTaken& one : ports_taken(project, feed))
      if (one.port > 0) ports.push_back(one.port);
    std::sort(ports.begin(), ports.end());
    EXPECT_EQ(std::adjacent_find(ports.begin(), ports.end()), ports.end()) << feed.name;
  }
}

TEST(RunWords, PowerByClassOverTheBudgetIsToldWithTheSwitch) {
  const need::Project project = nursery();
  const Job job = carried(project);
  const std::string told = "by class 68.6 of 65 W: buy a switch that allots by what is drawn, or one of 68.6 W";
  EXPECT_THAT(text_in(row_with(materials_of(job), "what", "shop switch"), "remarks"), HasSubstr(told));
  EXPECT_THAT(draw::words_of(settings_sheets(job)), HasSubstr(told));
}

TEST(RunWords, AKeepingThatIsTooShortIsCalledByItsDays) {
  const need::Project project = nursery();
  EXPECT_THAT(draw::words_of(owner_summary(carried(project))),
              HasSubstr("likely 11.5 days, 7.9 at least and 14.1 at most, of 14 wanted: too short as planned"));
}

TEST(RunWords, NothingIsSaidToWhoDrawsTheSite) {
  const need::Project project = nursery();
  const Job job = carried(project);
  for (const Schedule& schedule : schedules(job))
    EXPECT_THAT(csv_of(schedule), Not(HasSubstr("say that"))) << schedule.name;
  EXPECT_EQ(surge_words(laid_of(job, "C1")), "advised, both ends");
  EXPECT_EQ(surge_words(laid_of(job, "C3")), "not needed");
  EXPECT_EQ(surge_words(laid_of(job, "F1")), "not needed");
}

}  // namespace
}  // namespace sightfall::papers
