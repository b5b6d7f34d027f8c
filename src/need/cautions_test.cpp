// SPDX-License-Identifier: GPL-3.0-or-later
// Cautions: hands and heights, windows that a camera really shows, watches, places that no need names.
#include "need/cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<std::string> cautions(const Project& project, const std::string& word) {
  std::vector<std::string> texts;
  for (const Caution& caution : cautions_of(project, stations_of(project)))
    if (caution.text.find(word) != std::string::npos) texts.push_back(caution.about + ": " + caution.text);
  return texts;
}

Project at_height(double metres) {
  Project project = plain_project();
  project.site.mounts.front().height = Length{metres};
  return project;
}

TEST(Cautions, BelowThreeMetresAHandReachesTheCamera) {
  EXPECT_THAT(cautions(at_height(2.9), "reach of a hand"), ElementsAre(HasSubstr("eye: 2.9 m above ground")));
  EXPECT_THAT(cautions(at_height(3.0), "reach of a hand"), IsEmpty());
}

TEST(Cautions, WorkAtHeightIsToldOnceForTheHighestMount) {
  Project project = at_height(4);
  project.site.mounts.push_back(mount_at("mast", {5, 5}, 6));
  project.cameras.push_back(camera_on("high", "mast"));
  EXPECT_THAT(cautions(project, "work at height"), ElementsAre(HasSubstr("high: mounts up to 6.0 m")));
  EXPECT_THAT(cautions(at_height(1.8), "work at height"), IsEmpty());
}

/// A window in front of the camera that faces it.
Project with_window(double facing_deg = 180) {
  Project project = at_height(3);
  site::Window window;
  window.name = "kitchen";
  window.at = {0, 20};
  window.height = Length{3};
  window.facing = facing_deg * units::deg;
  project.site.neighbours = {window};
  return project;
}

TEST(Cautions, AWindowInThePictureIsToldWithItsDetail) {
  // 5 cm before the wall at 20 m: 2000 / 19.95 = 100 px/m.
  EXPECT_THAT(cautions(with_window(), "window"),
              ElementsAre(HasSubstr("eye: looks into the neighbour's window \"kitchen\" at 100 px/m")));
}

TEST(Cautions, AWindowThatFacesAwayIsNotTold) { EXPECT_THAT(cautions(with_window(0), "window"), IsEmpty()); }

TEST(Cautions, AHiddenWindowIsNotTold) {
  Project project = with_window();
  project.site.solids = {wall_of("wall", {{-3, 10}, {3, 10}}, 5)};
  EXPECT_THAT(cautions(project, "window"), IsEmpty());
}

TEST(Cautions, AWindowBehindAHedgeIsTold) {
  Project project = with_window();
  project.site.veils = {mesh_of("hedge", {{-3, 10}, {3, 10}}, 5, 0.1, 0.8)};
  EXPECT_THAT(cautions(project, "window"), testing::SizeIs(1));
}

TEST(Cautions, AWindowOutsideThePictureIsNotTold) {
  Project project = with_window();
  project.cameras.front().heading = 180 * units::deg;
  EXPECT_THAT(cautions(project, "window"), IsEmpty());
}

TEST(Cautions, AWindowUnderAMaskIsNotTold) {
  Project project = with_window();
  project.cameras.front().masks = {{"upper half", 0, 0, 1, 0.55}};
  EXPECT_THAT(cautions(project, "window"), IsEmpty());
}

TEST(Cautions, AWindowInAWallIsTold) {
  Project project = with_window();
  site::Solid house;
  house.name = "house";
  house.outline = {rectangle(-5, 20, 5, 28), {}};
  house.height = Length{6};
  project.site.solids = {house};  // the window lies on its face
  EXPECT_THAT(cautions(project, "window"), testing::SizeIs(1));
}

TEST(Watches, TellWhichCameraHasWhichInItsPicture) {
  Project project = at_height(3);
  project.site.mounts.push_back(mount_at("ahead", {1, 15}, 3));
  project.cameras.push_back(camera_on("other", "ahead"));  // looks north, away from the first
  const auto watches = [&] {
    std::vector<std::string> pairs;
    for (const Watch& w : watches_of(stations_of(project), site::Scene{project.site, site::Leaves::kOn}))
      pairs.push_back(w.camera + " sees " + w.sees);
    return pairs;
  };
  EXPECT_THAT(watches(), ElementsAre("eye sees other"));
  project.site.mounts.back().at = {1, 400};  // too far for anybody there to be made out
  EXPECT_THAT(watches(), IsEmpty());
  project.site.mounts.back().at = {1, 15};
  project.cameras.back().heading = 180 * units::deg;
  EXPECT_THAT(watches(), ElementsAre("eye sees other", "other sees eye"));
  project.site.solids = {wall_of("wall", {{-3, 8}, {3, 8}}, 5)};
  EXPECT_THAT(watches(), IsEmpty());
}

TEST(PlacesWithoutNeed, AreThoseThatNoNeedNames) {
  Project project = plain_project();
  project.site.places = {zone_of("yard", rectangle(0, 0, 1, 1)), zone_of("till", rectangle(2, 0, 3, 1)),
                         zone_of("lane", rectangle(4, 0, 5, 1))};
  project.needs = {need_of(Subject::kFace, "till", "fine")};
  EXPECT_THAT(places_without_need(project), ElementsAre("yard", "lane"));
}

}  // namespace
}  // namespace sightfall::need
