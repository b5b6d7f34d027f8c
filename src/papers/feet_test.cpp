// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths by hand: 1 ft is 0.3048 m.
#include "papers/feet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

#include "papers/documents.h"
#include "papers/materials.h"
#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using ::testing::HasSubstr;

TEST(Feet, TellLengthsWithTheirRanges) {
  EXPECT_EQ(in_feet("47.1 (42.3 to 56.1) of 100 m"), "155 (139 to 184) of 328 ft");
  EXPECT_EQ(in_feet("at least 106 m of 100 m: use"), "at least 348 ft of 328 ft: use");
  EXPECT_EQ(in_feet("95 to 120 m of 100 m: measure"), "312 to 394 ft of 328 ft: measure");
  EXPECT_EQ(in_feet("service loops: 3 m (1 to 6): spare"), "service loops: 9.84 ft (3.28 to 19.7): spare");
  EXPECT_EQ(in_feet("stands 1.1 m out for 4.2 m up (one out for four up)"),
            "stands 3 ft 7 in out for 13 ft 9 in up (one out for four up)");
  EXPECT_EQ(in_feet("lies 0.60 m deep (above 0.3 m)"), "lies 2 ft 0 in deep (above 0.984 ft)");
  EXPECT_EQ(in_feet("2.8 m above ground is within reach"), "9 ft 2 in above ground is within reach");
  EXPECT_EQ(in_feet("500 m"), "1640 ft");
  EXPECT_EQ(in_feet("at 70 px/m: turn it; 61 px/m (48 to 75)"), "at 21.3 px/ft: turn it; 18.6 px/ft (14.6 to 22.9)");
}

TEST(Feet, LeaveNamesAndOtherQuantitiesAlone) {
  for (const char* words : {"in a fresh breeze (10.7 m/s, steady)", "40 mm inside", "850 nm", "12 m2 of ground",
                            "run to \"mast, 3 m\" first", "2 x 2.5 mm2", "", "10 Mbit/s", "\"3 m"})
    EXPECT_EQ(in_feet(words), words);
  EXPECT_EQ(in_feet("\"mast, 3 m\" is 6 m away"), "\"mast, 3 m\" is 19.7 ft away");
}

TEST(Feet, ADocumentInFeetHasLoadsInFeet) {
  auto project =
      file::load_project((file::source_folder() / "tests" / "case" / "files" / "wired.sightfall.json").string());
  ASSERT_TRUE(project);
  const std::vector<loads::Ask> metric = carried(*project).here.asks;
  project->settings.units = need::Units::kFeet;
  Asked asked;
  asked.pictures = asked.mask_costs = false;
  const auto job = gathered(*project, nullptr, asked);
  ASSERT_TRUE(job);
  ASSERT_EQ(job->here.asks.size(), metric.size());
  const std::regex metres(R"(\d (px/)?m(?![\w/]))");
  int lengths = 0;
  for (size_t i = 0; i < metric.size(); ++i) {
    lengths += std::regex_search(metric[i].words, metres) ? 1 : 0;
    EXPECT_FALSE(std::regex_search(job->here.asks[i].words + job->here.asks[i].remedy, metres))
        << job->here.asks[i].words;
  }
  EXPECT_GT(lengths, 0);
  const std::string words = draw::words_of(report(*job));
  std::smatch found;
  EXPECT_FALSE(std::regex_search(words, found, metres)) << words.substr(static_cast<size_t>(found.position()) - 80, 90);
  EXPECT_THAT(words, HasSubstr("of 328 ft"));
  for (const std::string& told : {words, draw::words_of(field_sheet(*job))}) {
    EXPECT_THAT(told, HasSubstr("9 ft 2 in above the ground"));  // 2.8 m
    EXPECT_FALSE(
        std::regex_search(told, found, std::regex(R"(\d ft (from|away at|on the ground|above|deep|out|up)\b)")))
        << told.substr(static_cast<size_t>(found.position()) - 40, 80);
  }
  for (const Schedule& schedule : schedules(*job)) {
    const std::string told = csv_of(schedule);
    EXPECT_FALSE(std::regex_search(told, found, std::regex(R"(, m"|(\d|,)m (at most|on the plan)|\d m\b)"))) << told;
  }
}

TEST(Feet, ASchedulesLengthsAndWhatIsCountedByThem) {
  need::Project project;
  const auto row = [&](need::Units units) {
    project.settings.units = units;
    const Job job{{}, Verdicts{&project, {}, {}, {}}};
    Schedule all{"materials", {}, {}};
    count_length(job, all, {"cable", "Cat6", "", 0.9, ""}, Length{56.1}, "at most");
    return all.rows.front();
  };
  EXPECT_EQ(row(need::Units::kMetres), (std::vector<Cell>{"cable", "Cat6", "", 56.1, "m at most", 0.9, 50.49, ""}));
  EXPECT_EQ(row(need::Units::kFeet), (std::vector<Cell>{"cable", "Cat6", "", 184.1, "ft at most", 0.2743, 50.5, ""}));
  EXPECT_EQ(LengthsIn{need::Units::kFeet}.column("east"), "east, ft");
  EXPECT_EQ(LengthsIn{need::Units::kFeet}.cell(Length{10}, 2), Cell{32.81});
  EXPECT_EQ(LengthsIn{need::Units::kMetres}.cell(Length{10}, 2), Cell{10.0});
}

}  // namespace
}  // namespace sightfall::papers
