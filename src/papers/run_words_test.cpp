// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/run_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "draw/document.h"
#include "file/golden_test.h"
#include "file/project.h"
#include "papers/documents.h"
#include "papers/schedule.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::Not;

need::Project nursery() {
  auto project = file::load_project((file::source_folder() / "demo" / "alder_lane.sightfall.json").string());
  EXPECT_TRUE(project);
  return std::move(*project);
}

/// The job without the verdicts of needs, which runs do not ask for.
Job carried(const need::Project& project) {
  Job job;
  job.here.project = &project;
  job.here.loads = loads::loads(project, {{}, false, false});
  job.here.asks = loads::asks_of(job.here.loads);
  job.addresses = *addresses_of(project, job.asked.network);
  return job;
}

using Row = std::map<std::string, Cell>;

std::vector<Row> rows_of(const Schedule& schedule) {
  std::vector<Row> rows;
  for (const auto& cells : schedule.rows) {
    Row row;
    for (size_t i = 0; i < cells.size(); ++i) row[schedule.columns[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  return rows;
}

Row row_with(const Schedule& schedule, const std::string& column, const std::string& text) {
  for (const Row& row : rows_of(schedule))
    if (row.at(column) == Cell{text}) return row;
  ADD_FAILURE() << schedule.name << " has no " << text;
  return rows_of(schedule).front();
}

std::string text_in(const Row& row, const std::string& column) {
  const auto* text = std::get_if<std::string>(&row.at(column));
  return text != nullptr ? *text : std::string{};
}

TEST(RunWords, ARunThatIsTooLongIsToldInEveryPaperThatNamesIt) {
  const need::Project project = nursery();
  const Job job = carried(project);
  const std::string remedy = laid_of(job, "C8").reach.remedy;
  ASSERT_THAT(remedy, HasSubstr("of 100 m"));
  const Row cable = row_with(cables_of(job), "label", "C8"), port = row_with(ports_of(job), "cable", "C8");
  for (const Row& row : {cable, port}) {
    EXPECT_EQ(text_in(row, "held"), "missed");
    EXPECT_THAT(text_in(row, "remarks"), HasSubstr(remedy));
  }
  const Row material = row_with(materials_of(job), "what", "C8: Cat6 U/UTP, outdoor");
  EXPECT_EQ(text_in(material, "kind"), "settle before buying");
  EXPECT_THAT(text_in(material, "remarks"), HasSubstr(remedy));
  EXPECT_THAT(draw::words_of(settings_sheets(job)), HasSubstr("MISSED: " + remedy));
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

TEST(RunWords, ASurgeProtectorIsForTheCableThatIsToBeUsed) {
  const need::Project project = nursery();
  const Job job = carried(project);
  EXPECT_EQ(cable_to_use(job, laid_of(job, "C5")).name, "Cat5e U/UTP, outdoor");
  EXPECT_EQ(cable_to_use(job, laid_of(job, "C1")).name, "Cat6 U/UTP, outdoor");
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
              HasSubstr("likely 11.5 of the 14 days wanted, 8.1 at least and 13.7 at most: too short as planned"));
}

TEST(RunWords, NothingIsSaidToWhoDrawsTheSite) {
  const need::Project project = nursery();
  const Job job = carried(project);
  for (const Schedule& schedule : schedules(job))
    EXPECT_THAT(csv_of(schedule), Not(HasSubstr("or say that they are"))) << schedule.name;
  EXPECT_EQ(for_installer("sways; the document says 0.05 deg: put in what the pole gives"),
            "sways; the verdicts count with 0.05 deg: have the verdicts worked out again with what the pole gives");
  EXPECT_EQ(surge_words(laid_of(job, "C1")), "needed, none stated");
  EXPECT_EQ(surge_words(laid_of(job, "C3")), "not needed");
  EXPECT_EQ(surge_words(laid_of(job, "F1")), "not needed");
}

}  // namespace
}  // namespace sightfall::papers
