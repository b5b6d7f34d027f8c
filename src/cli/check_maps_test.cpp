// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check_maps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "file/project.h"

namespace sightfall::cli {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::Not;

/// The shed of tests/case with a lamp over its door.
need::Project lit_shed() {
  const auto read = file::load_project(std::string{SIGHTFALL_SOURCE_DIR} + "/tests/case/files/shed.sightfall.json");
  EXPECT_TRUE(read.has_value());
  need::Project project = read.value_or(need::Project{});
  site::Lamp lamp;
  lamp.name = "over the door";
  lamp.at = {0, 9.8};
  lamp.height = Length{2.6};
  lamp.tilt = 90 * units::deg;
  lamp.lumens = LuminousFlux{1200};
  project.site.lamps = {lamp};
  return project;
}

/// A folder of this process: tests run side by side.
fs::path folder_of_plans() {
  return fs::path(testing::TempDir()) / ("sightfall_check_maps_test_" + std::to_string(::getpid()));
}

/// The words of the one plan that is drawn.
std::string plan_of(const need::Project& project) {
  const fs::path path = folder_of_plans();
  PictureFolder folder(path.string());
  EXPECT_TRUE(folder.open().has_value());
  const auto drawn = draw_maps(project, need::check(project, {.remedies = false}), folder, {});
  EXPECT_TRUE(drawn && drawn->drawn == 1 && drawn->all == 1);
  std::ostringstream text;
  text << std::ifstream(path / "01-face-at-the-door.svg").rdbuf();
  return text.str();
}

TEST(CheckMaps, ALampIsDrawnAsItBurnsInThePlansCondition) {
  need::Project project = lit_shed();
  EXPECT_THAT(plan_of(project), HasSubstr("\nlamp, off"));
  EXPECT_THAT(plan_of(project), HasSubstr("\nover the door"));
  project.conditions.front().light = site::NamedLight::kLitNight;
  EXPECT_THAT(plan_of(project), HasSubstr("\nlamp, burning"));
  EXPECT_THAT(plan_of(project), Not(HasSubstr("\nlamp, off")));
  project.site.lamps.clear();
  EXPECT_THAT(plan_of(project), Not(HasSubstr("\nlamp")));
}

TEST(CheckMaps, NothingIsLeftOfAFolderThatIsNotKept) {
  plan_of(lit_shed());
  EXPECT_FALSE(fs::exists(folder_of_plans()));
}

}  // namespace
}  // namespace sightfall::cli
