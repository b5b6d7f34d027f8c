// SPDX-License-Identifier: GPL-3.0-or-later
// What the demo site costs, added up by hand from its document, and what has no price is told as such.
#include "papers/cost.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/documents.h"
#include "papers/money.h"
#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// Without a price anywhere.
need::Project unpriced() {
  need::Project project = nursery();
  for (camera::Sheet& sheet : project.catalogue) sheet.price.reset();
  for (site::Feed& feed : project.site.feeds) {
    feed.price.reset();
    if (feed.disks) feed.disks->price.reset();
  }
  for (site::Run& run : project.site.runs) run.metre_price.reset();
  return project;
}

TEST(Cost, CountsCamerasFeedsDisksAndCable) {
  need::Project project = unpriced();
  for (camera::Sheet& sheet : project.catalogue) sheet.price = 100;
  for (site::Feed& feed : project.site.feeds) {
    feed.price = 10;
    if (feed.disks) feed.disks->price = 30;
  }
  for (site::Run& run : project.site.runs) run.metre_price = 0.5;
  const Job job = carried(project);
  const Cost cost = cost_of(job.here);
  const auto cameras = static_cast<double>(project.cameras.size()),
             feeds = static_cast<double>(project.site.feeds.size());
  double metres = 0;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.to_lay().name != "Cat5e U/UTP, outdoor") metres += laid.length.high.si();
  EXPECT_EQ(cost.cameras.sum, 100 * cameras);
  EXPECT_EQ(cost.feeds.sum, 10 * feeds);
  EXPECT_EQ(cost.disks.sum, 60);
  EXPECT_NEAR(cost.cable.sum, 0.5 * metres,
              0.5 * 0.05 * static_cast<double>(job.here.loads.cable.to_buy.size()) + 1e-9);
  EXPECT_EQ(cost.all().sum, cost.cameras.sum + cost.carriers().sum);
  // No run is entered with the cable that C5 is to be laid with in place of its own, so it has no price.
  EXPECT_EQ(cost.all().unpriced, 1U);
  EXPECT_EQ(cost.cable.unpriced, 1U);
}

TEST(Cost, TellsWhatHasNoPriceAndCountsItAsUnknown) {
  need::Project project = unpriced();
  EXPECT_EQ(cost_told(carried(project)), "No prices were entered.");
  for (site::Feed& feed : project.site.feeds)
    if (feed.disks) feed.disks->price = 150;
  const std::string told = cost_told(carried(project));
  EXPECT_THAT(told, HasSubstr("comes to 300" + currency_after(project) + ": 2 disks: 300. Not in it"));
  EXPECT_THAT(told, HasSubstr("no price was entered: 8 cameras; 5 other devices"));
  EXPECT_THAT(told, HasSubstr("brackets, fixings, ends of cables"));
}

TEST(Cost, TheOwnersPageHasTheSumAndMaterialsAddUpToIt) {
  const need::Project project = nursery();
  const Job job = hung(project);
  const Cost cost = cost_of(job.here);
  EXPECT_THAT(draw::words_of(owner_summary(job)), HasSubstr("comes to " + money_words(cost.all().sum)));
  double sum = 0;
  for (const Row& row : rows_of(materials_of(job)))
    if (const Cell& price = row.at("price, " + currency_of(project)); std::holds_alternative<double>(price))
      sum += std::get<double>(price);
  // Runs are rounded one by one there, and those that are to be settled first have no price yet.
  double open = 0;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.open_question)
      for (const loads::CableNeed& need : job.here.loads.cable.to_buy)
        if (need.cable == laid.to_lay().name) open += need.metre_price.value_or(0) * laid.length.high.si();
  EXPECT_NEAR(cost.all().sum, sum + open, 1);
  EXPECT_GT(sum, 2000);
}

}  // namespace
}  // namespace sightfall::papers
