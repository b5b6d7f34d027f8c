// SPDX-License-Identifier: GPL-3.0-or-later
// The builder's plan: its scale is true, its words are there, none over another.
#include "draw/site_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/files.h"
#include "draw/test_plan.h"

namespace sightfall::draw {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::StartsWith;
using namespace units;

constexpr PageSize kA3{1191, 842};

/// A house of 20 m by 10 m with a camera on its south wall and a switch inside.
need::Project house() {
  need::Project project;
  project.name = "House";
  site::Solid solid;
  solid.name = "house";
  solid.kind = site::SolidKind::kBuilding;
  solid.outline.outer = {{0, 0}, {20, 0}, {20, 10}, {0, 10}};
  solid.height = 4 * m;
  project.site.solids = {solid};
  site::Mount mount;
  mount.name = "south wall";
  mount.at = {10, 0};
  mount.height = 3.2 * m;
  project.site.mounts = {mount};
  camera::Camera camera;
  camera.name = "yard";
  camera.mount = "south wall";
  camera.heading = 180 * deg;
  project.cameras = {camera};
  site::Feed feed;
  feed.name = "switch";
  feed.at = {5, 5};
  project.site.feeds = {feed};
  return project;
}

SitePlan plan_of(const need::Project& project) {
  return {&project, {{"C1", "yard", {{5, 5}, {10, 5}, {10, 0}}, false}}, "2026-11-27"};
}

TEST(SitePlan, HasTheLargestScaleAtWhichTheSiteFits) {
  // 26 m by 16 m with what is around: at 1 : 100 that is 260 mm by 160 mm, at 1 : 50 more than the sheet.
  const need::Project project = house();
  EXPECT_EQ(site_sheet(plan_of(project), kA3).scale, 100);
}

TEST(SitePlan, TellsCamerasWithNumberHeightAndCable) {
  const need::Project project = house();
  const auto words = site_sheet(plan_of(project), kA3).words;
  EXPECT_THAT(words, Contains("1  yard, 3.2 m, C1"));
  EXPECT_THAT(words, Contains("switch"));
  EXPECT_THAT(words, Contains("cable, copper"));
  EXPECT_THAT(words, Contains(HasSubstr("1 : 100")));
}

TEST(SitePlan, InFeetHeightsAreInFeet) {
  need::Project project = house();
  project.settings.units = need::Units::kFeet;
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, Contains(StartsWith("1  yard, 10 ft")));
}

TEST(SitePlan, IsDrawnTheSameEachTime) {
  const need::Project project = house();
  const auto bytes = [&] {
    const PlanSheet sheet = site_sheet(plan_of(project), kA3);
    return drawn_svg(sheet.page, "House", "", sheet.drawing).value_or("");
  };
  EXPECT_THAT(bytes(), HasSubstr("<svg"));
  EXPECT_EQ(bytes(), bytes());
}

TEST(SitePlan, AnEmptySiteHasAPlan) {
  need::Project project;
  project.name = "Nothing yet";
  EXPECT_EQ(site_sheet({&project, {}, ""}, kA3).scale, 50);
  EXPECT_GT(site_figure({&project, {}, ""}, 800).page.height, 0);
}

TEST(SitePlan, AFigureIsAsWideAsAskedFor) {
  const need::Project project = house();
  const PlanSheet figure = site_figure(plan_of(project), 1000);
  EXPECT_EQ(figure.page.width, 1000);
  EXPECT_NEAR(figure.page.height, 68 + 932.0 * 16 / 26, 2);
}

}  // namespace
}  // namespace sightfall::draw
