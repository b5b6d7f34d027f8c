// SPDX-License-Identifier: GPL-3.0-or-later
// Of every example: each entry of the table of assumptions that moves the loads is told; and the lines that are told
// are as bad as the whole.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "detail/typical_entries.h"
#include "file/golden_test.h"
#include "file/loads_answer.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;
using namespace units;

std::vector<fs::path> examples() {
  std::vector<fs::path> paths;
  for (const char* folder : {"schema/examples", "tests/case/files", "demo"})
    for (const fs::directory_entry& entry : fs::directory_iterator(source_folder() / folder))
      if (entry.path().filename().string().ends_with(".sightfall.json")) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

need::Project wired() {
  auto project = load_project((source_folder() / "tests/case/files/wired.sightfall.json").string());
  EXPECT_TRUE(project);
  return std::move(*project);
}

loads::Loads loads_of(const need::Project& project) { return loads::loads(project, {{}, false, false}); }

loads::Held worst_of(const loads::Loads& loads) {
  loads::Held worst = loads::Held::kMet;
  for (const loads::Ask& ask : loads::asks_of(loads)) worst = loads::worse(worst, ask.held);
  return worst;
}

TEST(LoadsLines, AreAsBadAsTheWholeInEveryExample) {
  ASSERT_GE(examples().size(), 5U);
  for (const fs::path& path : examples()) {
    const auto project = load_project(path.string());
    ASSERT_TRUE(project) << path;
    const loads::Loads loads = loads_of(*project);
    EXPECT_EQ(worst_of(loads), loads.held()) << path;
  }
}

/// What makes the whole worse has a line of its own.
TEST(LoadsLines, TellWhatMakesTheWholeWorse) {
  using Change = void (*)(need::Project&);
  const std::vector<Change> changes{
      [](need::Project& p) {
        p.site.feeds[1].disks = site::Disks{2, 4e12 * byte, site::Redundancy::kRaid5, {}};
      },
      [](need::Project& p) { p.site.feeds[1].disks.reset(); },
      [](need::Project& p) { p.site.runs.clear(); },
      [](need::Project& p) { p.site.feeds[0].battery.clear(), p.site.feeds[4].wanted = 4.0 * hour; },
      [](need::Project& p) { p.cameras[0].recording.card = 1e7 * byte; },
      [](need::Project& p) { p.site.feeds[0].ports.count = 1, p.site.feeds[0].ports.powered = 1; },
  };
  for (size_t i = 0; i < changes.size(); ++i) {
    need::Project project = wired();
    const loads::Held before = worst_of(loads_of(project));
    changes[i](project);
    const loads::Loads loads = loads_of(project);
    EXPECT_EQ(worst_of(loads), loads.held()) << i;
    EXPECT_TRUE(loads.held() == loads::Held::kMissed || loads.held() == loads::Held::kUnknown) << i;
    EXPECT_NE(before, loads.held()) << i;
  }
}

/// The wired shed of which little is stated, so that every kind of assumption is made; in three variants.
std::vector<need::Project> silent() {
  std::vector<need::Project> all;
  for (const site::Cells cells : {site::Cells::kLeadFlooded, site::Cells::kLeadSealed, site::Cells::kLithium}) {
    need::Project project = wired();
    project.site.wind.reset();
    project.site.feeds[4].cells = cells;
    camera::Sheet& sheet = project.catalogue.front();
    sheet.mass.reset(), sheet.body.reset(), sheet.power.typical.reset(), sheet.infrared->draw.reset();
    if (cells == site::Cells::kLithium) sheet.power.largest.reset();
    project.cameras.front().stream = camera::Stream{camera::Codec::kH264, camera::RateControl::kFree, {}, {}};
    all.push_back(std::move(project));
  }
  return all;
}

std::string figures_of(const need::Project& project, loads::Loads loads) {
  loads.assumptions.clear();
  return answer_text(project, loads);
}

TEST(LoadsAssumed, EachEntryThatMovesAnAnswerIsTold) {
  const auto entries = detail::typical_entries();
  const auto first =
      std::find_if(entries.begin(), entries.end(), [](const auto& one) { return one.name == "cable_slack"; });
  const auto last =
      std::find_if(entries.begin(), entries.end(), [](const auto& one) { return one.name == "fixing_arm"; });
  std::vector<detail::TypicalEntry> carriers(first, last + 1);
  for (const char* name : {"stream_quality", "infrared_draw", "infrared_share"})
    carriers.push_back(*detail::find_entry(name));
  std::set<std::string_view> moved;
  std::vector<need::Project> projects = silent();
  projects.push_back(wired());
  for (need::Project& project : projects) {
    const loads::Loads as_it_is = loads_of(project);
    const std::string before = figures_of(project, as_it_is);
    for (const detail::TypicalEntry& entry : carriers) {
      detail::TypicalValue& value = project.settings.typical.*entry.member;
      const Ranged<double> kept = value.value;
      value.value = {0.5 * kept.low, 0.7 * kept.nominal, 0.9 * kept.high};
      const bool moves = figures_of(project, loads_of(project)) != before;
      value.value = kept;
      const bool told =
          std::any_of(as_it_is.assumptions.begin(), as_it_is.assumptions.end(),
                      [&](const Assumption& one) { return one.what.find(value.meaning) != std::string::npos; });
      EXPECT_EQ(moves, told) << entry.name;
      if (moves) moved.insert(entry.name);
    }
  }
  for (const detail::TypicalEntry& entry : carriers) EXPECT_TRUE(moved.contains(entry.name)) << entry.name;
}

}  // namespace
}  // namespace sightfall::file
