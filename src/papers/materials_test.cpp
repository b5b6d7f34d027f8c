// SPDX-License-Identifier: GPL-3.0-or-later
// What is bought for the demo site and for what is changed in it: each quantity by counting what the site has.
#include "papers/materials.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "draw/document.h"
#include "papers/documents.h"
#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<Row> of_kind(const Schedule& schedule, const std::string& kind) {
  std::vector<Row> rows;
  for (const Row& row : rows_of(schedule))
    if (text_in(row, "kind") == kind) rows.push_back(row);
  return rows;
}

double quantity_of(const Schedule& schedule, const std::string& kind) {
  double sum = 0;
  for (const Row& row : of_kind(schedule, kind)) sum += std::get<double>(row.at("quantity"));
  return sum;
}

TEST(Materials, EveryRunHasTwoEndsAndTwoLabels) {
  const need::Project project = nursery();
  const Schedule materials = materials_of(hung(project));
  // C1 to C7 end at cameras by pairs; C8 and F1 are fibre; N1 and N2 are cords with their plugs.
  EXPECT_EQ(quantity_of(materials, "plug"), 7);
  EXPECT_EQ(quantity_of(materials, "outlet or panel port"), 7);
  EXPECT_EQ(quantity_of(materials, "patch cord"), 9);  // two more where an injector stands behind C8's converter
  EXPECT_EQ(quantity_of(materials, "fibre cord"), 4);
  EXPECT_EQ(quantity_of(materials, "fibre end"), 4);
  EXPECT_EQ(quantity_of(materials, "module or media converter"), 4);
  EXPECT_EQ(quantity_of(materials, "label"), 22);
}

TEST(Materials, ABoxHasAGlandForEachOfItsCablesAndTheConnectorIsNamed) {
  need::Project project = yard_on_supply(12);
  project.site.mounts.front().back_box = true;
  const Schedule materials = materials_of(hung(project));
  EXPECT_EQ(of_kind(materials, "gland").size(), 2U);
  EXPECT_THAT(text_in(row_with(materials, "kind", "terminal"), "what to ask for"), HasSubstr("5.5 mm barrel"));
  EXPECT_THAT(text_in(row_with(materials, "kind", "camera"), "what to ask for"), HasSubstr("RJ45 and 5.5 mm barrel"));
}

TEST(Materials, ACameraWhoseNeedsAreAllMissedIsSettledBeforeItIsBought) {
  const need::Project project = nursery();
  Job job = hung(project);
  const std::string camera = project.cameras.front().name;
  const auto told = [&] {
    return csv_of(materials_of(job)).find(camera + " (settle before buying") != std::string::npos;
  };
  need::Verdict missed;
  missed.need = project.needs.front().name;
  missed.answer = need::Answer::kMissed;
  missed.conditions.emplace_back();
  missed.conditions.front().camera = camera, missed.conditions.front().condition = project.conditions.front().name;
  EXPECT_FALSE(told());
  job.here.check.verdicts = {missed};
  EXPECT_TRUE(told());
  job.here.check.verdicts.push_back(missed);
  job.here.check.verdicts.back().answer = need::Answer::kMet;
  EXPECT_FALSE(told());
}

TEST(Materials, ANameThatIsPartOfAnotherIsListedToo) {
  Schedule all;
  for (const char* where : {"yard gate", "gate", "gate"}) count(all, {"bracket", "for a dome", "", {}, where});
  ASSERT_EQ(all.rows.size(), 1U);
  EXPECT_EQ(all.rows.front()[3], Cell{3.0});
  EXPECT_EQ(all.rows.front()[7], Cell{"yard gate; gate"});
}

TEST(Materials, ASurgeProtectorForEachEndOfCopperOutdoors) {
  const need::Project project = nursery();
  const Job job = hung(project);
  int ends = 0;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.to_lay().medium == site::CableMedium::kPairs && (laid.outdoors || laid.between_buildings)) ends += 2;
  EXPECT_GT(ends, 0);
  EXPECT_EQ(quantity_of(materials_of(job), "surge protector"), ends);
}

TEST(Materials, ConduitsAndTrenchesByTheMetreOfThePlan) {
  need::Project project = nursery();
  const Row conduit = row_with(materials_of(hung(project)), "kind", "conduit");
  EXPECT_EQ(text_in(conduit, "what"), "40 mm inside");
  // (52, 28.1) (52, 48) (38, 50) (38, 53.9) (36.1, 53.9)
  EXPECT_NEAR(std::get<double>(conduit.at("quantity")), 19.9 + std::hypot(14, 2) + 3.9 + 1.9, 0.05);
  EXPECT_EQ(text_in(conduit, "unit"), "m on the plan");
  // The gate trench, the yard conduit's and the north trench: (36.1, 64.1) (37, 70) (87, 70) (87, 63.1).
  EXPECT_NEAR(quantity_of(materials_of(hung(project)), "trench, to dig"), 5.4 + 39.84 + std::hypot(0.9, 5.9) + 50 + 6.9,
              0.11);
  std::erase_if(project.site.runs, [](const site::Run& run) { return run.name != "C3"; });  // stays in the shop
  EXPECT_TRUE(of_kind(materials_of(hung(project)), "conduit").empty());
}

TEST(Materials, FixingsByKindAndNumber) {
  const need::Project project = nursery();
  int stated = 0;
  std::set<std::string> mounts;
  for (const camera::Camera& camera : project.cameras) mounts.insert(camera.mount);
  for (const site::Mount& mount : project.site.mounts)
    if (mount.fixing && mounts.contains(mount.name)) stated += mount.fixing->count;
  EXPECT_EQ(quantity_of(materials_of(hung(project)), "fixing"), stated);
}

TEST(Materials, ASwitchIsAskedForByItsPortsAndWatts) {
  const need::Project project = nursery();
  const Row shop = row_with(materials_of(hung(project)), "what", "shop switch");
  EXPECT_THAT(
      text_in(shop, "what to ask for"),
      HasSubstr("8 ports (7 of them taken) of 1000 Mbit/s, 6 with power over Ethernet of class 4, 65 W for all"));
  EXPECT_THAT(text_in(shop, "remarks"), HasSubstr("what hangs on it draws at most"));
}

TEST(Materials, WhatTheProjectDoesNotTellIsDecidedOnTheSpot) {
  const need::Project project = nursery();
  const Row bushing = row_with(materials_of(hung(project)), "kind", "bushing and seal");
  EXPECT_EQ(bushing.at("quantity"), Cell{});
  EXPECT_THAT(text_in(bushing, "remarks"), HasSubstr(kOnTheSpot));
}

TEST(Materials, DisksThatAreTooFewSayWhatToSettle) {
  const need::Project project = nursery();
  EXPECT_THAT(text_in(row_with(materials_of(hung(project)), "kind", "disk"), "remarks"),
              HasSubstr("settle before buying: "));
}

TEST(Materials, PricesNameTheirCurrencyOrSayThatItIsYours) {
  need::Project project = nursery();
  project.settings.currency.clear();
  EXPECT_EQ(materials_of(hung(project)).columns[5], "price each, in the currency of your prices");
  project.settings.currency = "EUR";
  const Job job = hung(project);
  EXPECT_EQ(materials_of(job).columns[6], "price, EUR");
  EXPECT_EQ(cameras_of(job).columns.back(), "price, EUR");
}

TEST(Materials, HavePricesWhereTheDocumentGivesThem) {
  need::Project project = nursery();
  EXPECT_EQ(row_with(materials_of(hung(project)), "kind", "switch").at("quantity"), Cell{1.0});
  for (site::Feed& feed : project.site.feeds) {
    feed.price = 90;
    if (feed.disks) feed.disks->price = 50;
  }
  for (site::Run& run : project.site.runs) run.metre_price = 2;
  const Schedule materials = materials_of(hung(project));
  const std::string price = materials.columns[6];
  EXPECT_EQ(row_with(materials, "kind", "switch").at(price), Cell{90.0});
  EXPECT_EQ(row_with(materials, "kind", "disk").at(price), Cell{100.0});  // two of them
  const Row cable = row_with(materials, "kind", "cable");
  EXPECT_NEAR(std::get<double>(cable.at(price)), 2 * std::get<double>(cable.at("quantity")), 0.006);
}

TEST(Materials, HaveABoxAndAGlandForATailOutdoors) {
  need::Project project = nursery();
  const Job job = hung(project);
  EXPECT_EQ(text_in(row_with(materials_of(job), "kind", "back box"), "what"), "advised, for tail and plug");
  EXPECT_EQ(quantity_of(materials_of(job), "gland"), quantity_of(materials_of(job), "back box"));
  for (site::Mount& mount : project.site.mounts) mount.back_box = true;
  EXPECT_EQ(text_in(row_with(materials_of(hung(project)), "kind", "back box"), "what"), "for tail and plug");
}

}  // namespace
}  // namespace sightfall::papers
