// SPDX-License-Identifier: GPL-3.0-or-later
// The demo site and a small yard as jobs, and schedules by their columns, for tests.
#pragma once
#include <gtest/gtest.h>

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "file/golden_test.h"
#include "file/project.h"
#include "papers/schedule.h"

namespace sightfall::papers {

inline need::Project nursery() {
  auto project = file::load_project((file::source_folder() / "demo" / "alder_lane.sightfall.json").string());
  EXPECT_TRUE(project);
  return std::move(*project);
}

/// A shed with a camera, a switch and a recorder, one need; invented.
inline need::Project yard() {
  auto project =
      file::load_project((file::source_folder() / "tests" / "case" / "files" / "wired.sightfall.json").string());
  EXPECT_TRUE(project);
  project->catalogue.front().price = 120;
  project->needs.front().level = "overview";
  project->needs.front().conditions = {"day"};
  return std::move(*project);
}

/// The yard with its camera on the spare supply, of `volts`, by a thin cable as well as on the switch.
inline need::Project yard_on_supply(double volts) {
  need::Project project = yard();
  for (site::Feed& feed : project.site.feeds)
    if (feed.name == "spare") feed.voltage = volts * units::V;
  project.catalogue.front().power.supply = "PoE class 3 or 12 V DC";
  project.catalogue.front().connector = "RJ45 and 5.5 mm barrel";
  project.site.runs.push_back(
      {.name = "D1", .from = "spare", .to = "door", .cable = "2 x 0.75 mm2, flexible, outdoor"});
  return project;
}

inline Asked quick() {
  Asked asked;
  asked.date = "2026-11-27";
  asked.pictures = asked.mask_costs = false;
  return asked;
}

inline Job job_of(const need::Project& project, const need::Project* other = nullptr) {
  auto job = gathered(project, other, quick());
  EXPECT_TRUE(job);
  return std::move(*job);
}

/// The job without the verdicts of needs, which runs do not ask for.
inline Job carried(const need::Project& project) {
  Job job;
  job.here.project = &project;
  job.here.loads = loads::loads(project, {{}, false, false});
  job.here.asks = loads::asks_of(job.here.loads);
  job.addresses = *addresses_of(project, job.asked.network);
  return job;
}

/// With all that the materials ask of a job, which hangs cameras as the document has them.
inline Job hung(const need::Project& project) {
  Job job = carried(project);
  for (const camera::Camera& camera : project.cameras) {
    CameraPart part;
    part.number = static_cast<int>(job.cameras.size()) + 1;
    part.camera = &camera;
    part.sheet = &need::the_named(project.catalogue, camera.sheet);
    part.mount = &need::the_named(project.site.mounts, camera.mount);
    job.cameras.push_back(std::move(part));
  }
  return job;
}

using Row = std::map<std::string, Cell>;

inline std::vector<Row> rows_of(const Schedule& schedule) {
  std::vector<Row> rows;
  for (const auto& cells : schedule.rows) {
    Row row;
    for (size_t i = 0; i < cells.size(); ++i) row[schedule.columns[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  return rows;
}

inline Row row_with(const Schedule& schedule, const std::string& column, const std::string& text) {
  for (const Row& row : rows_of(schedule))
    if (row.at(column) == Cell{text}) return row;
  ADD_FAILURE() << schedule.name << " has no " << text;
  return rows_of(schedule).front();
}

inline std::string text_in(const Row& row, const std::string& column) {
  const auto* text = std::get_if<std::string>(&row.at(column));
  return text != nullptr ? *text : std::string{};
}

}  // namespace sightfall::papers
