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
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, Contains(StartsWith("1  yard, 10 ft 6 in")));
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

/// The house with a pier, a hedge and a spare mount, two devices at one place, and a route that a need asks about.
need::Project furnished() {
  need::Project project = house();
  site::Solid pier;
  pier.name = "gate pier";
  pier.kind = site::SolidKind::kBox;
  pier.at = {15, -4};
  pier.size_across = pier.size_along = 0.5 * m;
  project.site.solids.push_back(pier);
  site::Solid canopy;
  canopy.name = "canopy";
  canopy.kind = site::SolidKind::kRoof;
  canopy.outline.outer = {{20, 4}, {26, 4}, {26, 8}, {20, 8}};
  project.site.solids.push_back(canopy);
  site::Veil hedge;
  hedge.name = "hedge";
  hedge.kind = site::VeilKind::kHedge;
  hedge.line = {{0, -6}, {12, -6}};
  hedge.thickness = 0.8 * m;
  project.site.veils = {hedge};
  site::Window window;
  window.name = "kitchen window";
  window.at = {3, 14};
  project.site.neighbours = {window};
  site::Mount spare;
  spare.name = "west wall";
  spare.at = {0, 5};
  project.site.mounts.push_back(spare);
  site::Place way;
  way.name = "up the path";
  way.kind = site::PlaceKind::kRoute;
  way.line = {{8, -5}, {8, -1}};
  project.site.places = {way};
  need::Need need;
  need.name = "who comes";
  need.place = way.name;
  project.needs = {need};
  return project;
}

TEST(SitePlan, ASheetNamesAllThatStandsThere) {
  const need::Project project = furnished();
  const auto words = site_sheet(plan_of(project), kA3).words;
  for (const char* name : {"gate pier", "canopy", "hedge", "kitchen window", "mount west wall", "up the path",
                           "mount, no camera", "way walked or driven"})
    EXPECT_THAT(words, Contains(name));
  EXPECT_THAT(site_figure(plan_of(project), 1000).words, ::testing::Not(Contains("gate pier")));
}

TEST(SitePlan, ARouteThatNoNeedAsksAboutIsNotDrawn) {
  need::Project project = furnished();
  project.needs.clear();
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, ::testing::Not(Contains("up the path")));
}

TEST(SitePlan, WhatFindsNoRoomForItsNameHasALetterAndALineInAList) {
  need::Project project = house();
  site::Solid box;
  box.kind = site::SolidKind::kBox;
  box.size_across = box.size_along = 0.2 * m;
  for (int i = 0; i < 60; ++i) {
    box.name = "bollard of the inner row " + std::to_string(i);
    box.at = {10 + 0.02 * i, -2};
    project.site.solids.push_back(box);
  }
  const PlanSheet sheet = site_sheet(plan_of(project), kA3);
  ASSERT_FALSE(sheet.labels.lettered.empty());
  EXPECT_THAT(sheet.labels.lettered.front(), StartsWith("A  bollard"));
  for (const auto& solid : project.site.solids) {
    const auto stands = std::count_if(sheet.labels.placed.begin(), sheet.labels.placed.end(),
                                      [&](const PlacedLabel& one) { return one.text == solid.name; });
    const auto listed =
        std::count_if(sheet.labels.lettered.begin(), sheet.labels.lettered.end(),
                      [&](const std::string& line) { return line.substr(line.find("  ") + 2) == solid.name; });
    EXPECT_EQ(stands + listed, 1) << solid.name;
  }
  for (const std::string& line : sheet.labels.lettered) {
    const std::string letters = line.substr(0, line.find("  "));
    EXPECT_EQ(std::count_if(sheet.labels.placed.begin(), sheet.labels.placed.end(),
                            [&](const PlacedLabel& one) { return one.text == letters; }),
              1)
        << letters;
    EXPECT_THAT(sheet.words, Contains(line));
  }
}

TEST(SitePlan, EachStretchTellsWhichCablesLieInIt) {
  const need::Project project = house();
  const SitePlan plan{&project,
                      {{"C1", "yard", {{2, 5}, {10, 5}, {10, 0}}, false},
                       {"F1", "shed", {{2, 5}, {10, 5}, {18, 5}}, true},
                       {"N1", "recorder", {{2, 5}, {2, 8}}, false}},
                      ""};
  const auto words = site_sheet(plan, kA3).words;
  for (const char* name : {"C1 F1", "F1", "N1", "cable, copper", "cable, fibre", "copper and fibre"})
    EXPECT_THAT(words, Contains(name));
  // Where a camera's cable lies alone the camera's words have its name.
  EXPECT_THAT(words, ::testing::Not(Contains("C1")));
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, ::testing::Not(Contains("copper and fibre")));
}

TEST(SitePlan, WaysThatCablesTakeAreNamed) {
  need::Project project = house();
  site::Way eaves;
  eaves.name = "eaves";
  eaves.line = {{5, 5}, {10, 5}, {10, 0}};
  eaves.height = 3.2 * m;
  project.site.ways = {eaves};
  SitePlan plan = plan_of(project);
  EXPECT_THAT(site_sheet(plan, kA3).words, ::testing::Not(Contains(StartsWith("eaves"))));
  plan.cables.front().along = {"eaves"};
  EXPECT_THAT(site_sheet(plan, kA3).words, Contains("eaves, wall, 3.2 m up"));
}

TEST(SitePlan, WalkTestsHaveTheirNumbersThoseOfOnePlaceTogether) {
  const need::Project project = house();
  SitePlan plan = plan_of(project);
  plan.tests = {{"1", {4, -1}}, {"2", {14, -1}}, {"3", {4, -1}}};
  const auto words = site_sheet(plan, kA3).words;
  for (const char* text : {"1, 3", "2", "place of a walk test"}) EXPECT_THAT(words, Contains(text));
  EXPECT_THAT(site_figure(plan, 1000).words, ::testing::Not(Contains("1, 3")));
}

TEST(SitePlan, WhatHasANumberOrALampLiesOnTheSheet) {
  need::Project project = house();
  const geom::Box2 before = plan_extent(project);
  site::Lamp lamp;
  lamp.name = "mast";
  lamp.at = {40, 5};
  project.site.lamps = {lamp};
  EXPECT_LT(before.high.x, 40);
  EXPECT_GT(plan_extent(project).high.x, 40);
  SitePlan plan = plan_of(project);
  plan.tests = {{"1", {4, -60}}};
  const auto placed = site_sheet(plan, kA3).labels.placed;
  EXPECT_TRUE(std::any_of(placed.begin(), placed.end(), [](const PlacedLabel& one) { return one.text == "1"; }));
  EXPECT_GT(site_sheet(plan, kA3).scale, site_sheet(plan_of(project), kA3).scale);
}

TEST(SitePlan, WhereThePlansNorthIsNotTrueBothAreNamed) {
  need::Project project = house();
  project.site.anchor.emplace();
  const std::string from = "Headings are clockwise from the plan's north, which is up.";
  project.site.anchor->turn = Angle{0};
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, ::testing::Not(Contains(from)));
  project.site.anchor->turn = 30 * units::deg;
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, Contains(from));
}

TEST(SitePlan, DevicesAtOnePlaceStandBesideIt) {
  need::Project project = house();
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, ::testing::Not(Contains("true place of a symbol")));
  site::Feed recorder;
  recorder.name = "recorder";
  recorder.at = {5.2, 5};
  project.site.feeds.push_back(recorder);
  EXPECT_THAT(site_sheet(plan_of(project), kA3).words, Contains("true place of a symbol"));
}

}  // namespace
}  // namespace sightfall::draw
