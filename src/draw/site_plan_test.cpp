// SPDX-License-Identifier: GPL-3.0-or-later
// The builder's plan: its scale is true, its words are there, none over another.
#include "draw/site_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

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
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, Contains(StartsWith("1  yard, 10.5 ft")));
}

TEST(SitePlan, NamesOfCablesLieOnNoLine) {
  const need::Project project = house();
  // Three cables side by side through the house, half a metre apart, and one across them.
  SitePlan plan{&project, {}, ""};
  for (const auto& [name, y] : {std::pair{"N1", 4.5}, {"N2", 5.0}, {"N3", 5.5}})
    plan.cables.push_back({name, "switch", {{2, y}, {18, y}}, false});
  plan.cables.push_back({"N4", "switch", {{10, 1}, {10, 9}}, false});
  const PlanSheet figure = site_figure(plan, 1000);
  const double per_metre = 932.0 / 26;  // 3 m around the house, 34 units at the page's edge
  const auto to_page = [&](geom::PlanPoint p) {
    return PagePoint{34 + per_metre * (p.x + 3), 34 + per_metre * (13 - p.y)};
  };
  int names = 0;
  for (const PlacedLabel& label : figure.labels.placed) {
    if (label.text.front() != 'N') continue;
    ++names;
    for (const PlanCable& cable : plan.cables)
      EXPECT_FALSE(overlap(label.box, box_along(to_page(cable.line[0]), to_page(cable.line[1]), 1)))
          << label.text << " on " << cable.name;
  }
  EXPECT_EQ(names, 4);
}

TEST(SitePlan, NoWordsLieOnACrossOfTheGrid) {
  need::Project project = house();
  project.site.solids.front().outline.outer = {{0, 0}, {20, 0}, {20, 4}, {0, 4}};
  project.site.mounts.front().at = {8, 10};  // words to its right would lie on the cross at 10, 10
  const PlanSheet figure = site_figure({&project, {}, ""}, 1000);
  const double per_metre = 932.0 / 26;  // as above
  ASSERT_THAT(figure.labels.placed, ::testing::Not(::testing::IsEmpty()));
  const PagePoint cross{34 + per_metre * 13, 34 + per_metre * 3};
  for (const PlacedLabel& label : figure.labels.placed)
    EXPECT_FALSE(overlap(label.box, {cross, 8, 8, 0})) << label.text;
}

/// Cameras side by side on the house's south wall, with names as users give them.
need::Project crowded(int count, double apart) {
  need::Project project = house();
  project.cameras.clear();
  project.site.mounts.clear();
  for (int i = 0; i < count; ++i) {
    site::Mount mount;
    mount.name = "mount " + std::to_string(i);
    mount.at = {5 + apart * i, 0};
    mount.height = 3.2 * m;
    project.site.mounts.push_back(mount);
    camera::Camera camera;
    camera.name = "loading bay door, lane " + std::to_string(i + 1);
    camera.mount = mount.name;
    camera.heading = 180 * deg;
    project.cameras.push_back(camera);
  }
  return project;
}

/// Numbers in the order of the cameras; each once, whether its words stand with it or in the list.
void expect_each_number(const need::Project& project, const PlanSheet& sheet) {
  for (size_t i = 0; i < project.cameras.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    const std::string whole = number + "  " + project.cameras[i].name + ", 3.2 m";
    const auto standing = [&](const std::string& text) {
      return std::count_if(sheet.labels.placed.begin(), sheet.labels.placed.end(),
                           [&](const PlacedLabel& one) { return one.text == text; });
    };
    const auto listed = std::count(sheet.labels.aside.begin(), sheet.labels.aside.end(), whole);
    EXPECT_EQ(standing(number) + standing(whole), 1) << number;
    EXPECT_EQ(listed, standing(number)) << number;
    EXPECT_THAT(sheet.words, Contains(whole));
  }
}

TEST(SitePlan, EveryCameraHasItsNumberHoweverManyHangTogether) {
  for (const double apart : {0.4, 0.1, 0.0}) {
    const need::Project project = crowded(24, apart);
    const PlanSheet sheet = site_sheet({&project, {}, ""}, kA3), figure = site_figure({&project, {}, ""}, 600);
    EXPECT_GT(figure.labels.aside.size(), 0U) << apart;
    for (const PlanSheet* one : {&sheet, &figure}) {
      expect_each_number(project, *one);
      for (size_t i = 0; i < one->labels.placed.size(); ++i)
        for (size_t j = 0; j < i; ++j)
          EXPECT_FALSE(overlap(one->labels.placed[i].box, one->labels.placed[j].box))
              << one->labels.placed[i].text << " over " << one->labels.placed[j].text;
    }
  }
}

TEST(SitePlan, AListThatIsLongTakesRoomFromThePlan) {
  const need::Project few = crowded(2, 1), many = crowded(45, 0.01);
  const PlanSheet sheet = site_sheet({&many, {}, ""}, kA3);
  expect_each_number(many, sheet);
  EXPECT_GT(sheet.labels.aside.size(), 20U);
  EXPECT_GT(sheet.scale, site_sheet({&few, {}, ""}, kA3).scale);
  const auto svg = drawn_svg(sheet.page, "House", "", sheet.drawing);
  EXPECT_GT(svg.value_or("").size(), 1000U);
}

TEST(SitePlan, IsHeardAsItIsWritten) {
  const need::Project project = house();
  EXPECT_THAT(heard(site_sheet(plan_of(project), kA3)), HasSubstr("1  yard, 3.2 m, C1; "));
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
