// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies: each kind is found in a scenario that it alone mends, it keeps its promise when it is carried out, and it
// tells what it spoils.
#include "need/remedy.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>

#include "need/check.h"
#include "need/lit_project.h"
#include "need/test_project.h"

namespace sightfall::need {
namespace {

using detail::Limit;
using site::PlaceKind;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::MatchesRegex;
using testing::StartsWith;

/// The one trial of a project's need, as a check makes it for remedies.
class Tried {
 public:
  explicit Tried(const Project& project, size_t need = 0)
      : project_{project},
        day_{project_},
        trial_{{&project_, &day_.lighting(), "day"},
               project.needs.at(need),
               in_condition(stations_of(project), day_.lighting()),
               256} {}

  std::vector<Change> changes(size_t camera = 0) const {
    return changes_of(project_, project_.cameras.at(camera), trial_.need(), trial_.shortfall_middle());
  }
  std::optional<Remedy> remedy(const Spoils& spoils, const Progress& progress) const {
    return find_remedy(project_, {trial_}, spoils, progress);
  }
  double share_with(const Change& change, size_t camera = 0) const { return replacing(change, camera).nominal_share(); }
  Answer answer_with(const Change& change, size_t camera = 0) const { return replacing(change, camera).judge().answer; }

 private:
  Replacing replacing(const Change& change, size_t camera) const {
    return {trial_, camera, changed_station(project_, change)};
  }

  const Project& project_;
  Lit day_;
  Trial trial_;
};

/// The project with the remedy of its first need carried out.
Project mended(Project project, const Remedy& remedy) {
  const auto camera = static_cast<size_t>(
      std::find_if(project.cameras.begin(), project.cameras.end(), [&](auto& c) { return c.name == remedy.camera; }) -
      project.cameras.begin());
  for (const Change& change : Tried{project}.changes(camera)) {
    if (remedy.camera + ": " + change.text != remedy.text) continue;
    project.cameras[camera] = change.camera;
    for (site::Mount& mount : project.site.mounts)
      if (mount.name == change.camera.mount) mount.height = mount.height + change.raised;
    return project;
  }
  ADD_FAILURE() << "no change reads " << remedy.text;
  return project;
}

/// The remedy of the first need, which must mend it when it is carried out.
std::string mending_text(const Project& project) {
  const Verdict before = check(project).verdicts.at(0);
  EXPECT_NE(before.answer, Answer::kMet);
  if (!before.remedy) return "none";
  const Verdict after = check(mended(project, *before.remedy)).verdicts.at(0);
  EXPECT_TRUE(before.remedy->mends);
  EXPECT_EQ(before.remedy->answer_after, Answer::kMet);
  EXPECT_EQ(after.answer, Answer::kMet) << before.remedy->text;
  EXPECT_NEAR(after.share.nominal, before.remedy->share_after, 1.0 / 256);
  EXPECT_THAT(before.remedy->spoils, IsEmpty());
  return before.remedy->text;
}

Project along(double from, double upto) {
  return project_with(way_of("axis", PlaceKind::kLine, {{0, from}, {0, upto}}),
                      need_of(Subject::kFace, "axis", "fine"));
}

TEST(Remedy, SetsTheFocus) {
  Project project = along(10, 19);
  project.cameras.front().focus = Length{0.5};
  EXPECT_THAT(mending_text(project), StartsWith("eye: focus at "));
}

TEST(Remedy, IsNotLookedForOnceItIsStopped) {
  Project project = along(10, 19);
  project.cameras.front().focus = Length{0.5};
  const Tried tried{project};
  std::atomic<bool> stop{false};
  Progress progress;
  progress.stop = &stop;
  int asked = 0;
  const auto spoils = [&](size_t, const Station&) {
    ++asked;
    stop = true;
    return std::vector<std::string>{"another need"};  // so that it would go on looking
  };
  EXPECT_EQ(tried.remedy(spoils, progress), std::nullopt);
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(tried.remedy(spoils, progress), std::nullopt);
  EXPECT_EQ(asked, 1) << "nothing is tried";
  stop = false;
  EXPECT_NE(tried.remedy([](size_t, const Station&) { return std::vector<std::string>{}; }, progress), std::nullopt);
}

TEST(Remedy, NeverFocusesNearerThanTheLensCan) {
  Project project = along(10, 19);
  project.catalogue.front().closest_focus = Length{12};
  for (const Change& change : Tried{project}.changes()) EXPECT_GE(change.camera.focus.value_or(Length{12}).si(), 12);
}

TEST(Remedy, TurnsTheCamera) {
  Project project = along(10, 19);
  project.cameras.front().heading = 60 * units::deg;
  EXPECT_THAT(mending_text(project), MatchesRegex("eye: turn to heading [0-9]+, tilt -?[0-9]+ degrees"));
}

TEST(Remedy, TellsHeadingsAsACompassDoes) {
  Project project = along(10, 19);
  for (const double heading : {5.0, 355.0})
    for (const double steps : {-1.0, 1.0}) {
      project.cameras.front().heading = (heading + 3 * steps) * units::deg;
      for (const Change& change : Tried{project}.changes()) {
        EXPECT_GE(change.camera.heading.in(units::deg), 0) << change.text;
        EXPECT_LT(change.camera.heading.in(units::deg), 360) << change.text;
        EXPECT_THAT(change.text, testing::Not(HasSubstr("heading 360")));
      }
    }
}

TEST(Remedy, Zooms) {
  Project project = along(24, 30);
  project.catalogue.front().focal = {Length{5e-3}, Length{20e-3}};
  project.cameras.front().focal = Length{5e-3};
  EXPECT_THAT(mending_text(project), StartsWith("eye: zoom to "));
}

TEST(Remedy, ShortensTheShutter) {
  Need need = need_of(Subject::kObject, "drive", "fine");
  need.height = Length{1.6};
  need.speed = Speed{10};
  const Project project = project_with(way_of("drive", PlaceKind::kRoute, {{-5, 15}, {5, 15}}), need);
  EXPECT_THAT(mending_text(project), HasSubstr("let the shutter be no slower than 1/"));
}

TEST(Remedy, TriesNoShutterThatTheSheetDoesNotHaveOrTheNeedFixes) {
  Need need = need_of(Subject::kObject, "drive", "fine");
  need.speed = Speed{10};
  Project project = project_with(way_of("drive", PlaceKind::kRoute, {{-5, 15}, {5, 15}}), need);
  const auto shutters = [&] {
    const auto changes = Tried{project}.changes();
    return std::count_if(changes.begin(), changes.end(),
                         [](const Change& c) { return c.text.find("shutter") != std::string::npos; });
  };
  EXPECT_EQ(shutters(), 3);
  project.catalogue.front().shutter = camera::Ends<Time>{Time{1.0 / 600}, Time{0.04}};
  EXPECT_EQ(shutters(), 1);  // 1/500 s alone
  project.needs.front().shutter = Time{0.01};
  EXPECT_EQ(shutters(), 0);
}

TEST(Remedy, MovesTheMount) {
  Project project = along(8.8, 10);  // seen from 7.6 m it is too steep nearer than 10.4 m, from 6.1 m not
  project.site.mounts.front().height = Length{7.6};
  project.cameras.front().tilt = 28 * units::deg;
  EXPECT_THAT(mending_text(project), HasSubstr("eye: move the mount down to "));
}

TEST(Remedy, UsesAnotherSheetTheCheapestFirst) {
  Project project = along(24, 30);
  for (const auto& [name, price] : {std::pair{"dear", 300.0}, std::pair{"cheap", 200.0}}) {
    project.catalogue.push_back(plain_sheet(name));
    project.catalogue.back().columns = 4000;
    project.catalogue.back().rows = 3000;
    project.catalogue.back().price = price;
  }
  project.catalogue.front().price = 100;
  EXPECT_THAT(mending_text(project), StartsWith("eye: use cheap (price 200)"));
  project.settings.currency = "EUR";
  EXPECT_THAT(mending_text(project), StartsWith("eye: use cheap (price 200 EUR)"));
}

TEST(Remedy, UsesAnotherSheetTurnedAndFocusedTogether) {
  Project project = along(36, 40);
  project.cameras.front().heading = 20 * units::deg;  // a longer lens alone would look past it
  project.catalogue.push_back(plain_sheet("long"));
  project.catalogue.back().focal = {Length{15e-3}, Length{15e-3}};
  EXPECT_THAT(mending_text(project),
              MatchesRegex("eye: use long, turned to heading [0-9]+, tilt .* degrees, focus .*"));
}

TEST(Remedy, ZoomsTurnsAndFocusesTogether) {
  Project project = along(36, 40);
  project.cameras.front().heading = 20 * units::deg;
  project.catalogue.front().focal = {Length{5e-3}, Length{20e-3}};
  EXPECT_THAT(mending_text(project), MatchesRegex("eye: zoom to .* mm, turn to heading .*, tilt .* degrees, focus .*"));
}

TEST(Remedy, IsNoneWhenNothingHelps) {
  Project project = along(10, 19);
  project.site.solids = {wall_of("wall", {{-60, 8}, {60, 8}}, 30)};
  project.catalogue.push_back(plain_sheet("other"));
  const Verdict verdict = check(project).verdicts.at(0);
  EXPECT_EQ(verdict.limit, Limit::kOcclusion);
  EXPECT_FALSE(verdict.remedy);
}

TEST(Remedy, WhenNoneMendsTheBestOneTriedIsTold) {
  const Project project = along(15, 200);  // a mount never goes far enough
  const Verdict verdict = check(project).verdicts.at(0);
  if (verdict.remedy) {
    EXPECT_FALSE(verdict.remedy->mends);
    EXPECT_GT(verdict.remedy->share_after, verdict.share.nominal);
  }
  Project zooming = project;
  zooming.catalogue.front().focal = {Length{5e-3}, Length{20e-3}};
  const Verdict better = check(zooming).verdicts.at(0);
  ASSERT_TRUE(better.remedy);
  EXPECT_FALSE(better.remedy->mends);
  EXPECT_EQ(better.remedy->answer_after, Answer::kMissed);
  EXPECT_THAT(better.remedy->text, HasSubstr("zoom to 20.0 mm"));
  EXPECT_NEAR(better.remedy->share_after, (80.0 - 15) / (200 - 15), 0.01);  // 8000 / 100 px/m
}

TEST(Remedy, AMetNeedHasNoneAndNoneIsSoughtWhenNotAsked) {
  EXPECT_FALSE(check(along(10, 19)).verdicts.at(0).remedy);
  Project project = along(10, 19);
  project.cameras.front().focus = Length{0.5};
  CheckOptions options;
  options.remedies = false;
  EXPECT_FALSE(check(project, options).verdicts.at(0).remedy);
}

TEST(Remedy, KeepsWithinTheMountsHeadings) {
  Project project = along(10, 19);
  project.cameras.front().heading = 60 * units::deg;
  site::Mount& mount = project.site.mounts.front();
  mount.heading_from = 30 * units::deg;
  mount.heading_to = 120 * units::deg;
  for (const Change& change : Tried{project}.changes()) {
    const double heading = change.camera.heading.in(units::deg);
    EXPECT_TRUE(heading >= 30 - 1e-9 && heading <= 120 + 1e-9) << change.text;
  }
  const Verdict verdict = check(project).verdicts.at(0);
  EXPECT_TRUE(!verdict.remedy || !verdict.remedy->mends);
  mount.heading_from = 330 * units::deg;  // across north
  EXPECT_THAT(mending_text(project), StartsWith("eye: turn to heading"));
}

TEST(Remedy, OfOneKindTheSmallestThatMends) {
  Project project = along(10, 19);
  project.cameras.front().heading = 60 * units::deg;
  const std::string text = mending_text(project);
  const Tried tried{project};
  double smallest = 1e300;
  std::string smallest_text;
  for (const Change& change : tried.changes()) {
    if (change.text.rfind("turn", 0) != 0 || tried.answer_with(change) != Answer::kMet) continue;
    if (change.size < smallest) smallest_text = change.text;
    smallest = std::min(smallest, change.size);
  }
  EXPECT_EQ(text, "eye: " + smallest_text);
}

/// One camera that looks at the first place; the second is to the east.
Project two_places() {
  Project project = along(10, 19);
  Need east = need_of(Subject::kFace, "east", "fine");
  project.site.places.push_back(way_of("east", PlaceKind::kLine, {{10, 0}, {19, 0}}));
  project.needs.insert(project.needs.begin(), east);
  return project;
}

TEST(Remedy, TellsWhatItSpoils) {
  const Project project = two_places();
  const CheckResult before = check(project);
  ASSERT_EQ(before.verdicts.at(1).answer, Answer::kMet);
  ASSERT_TRUE(before.verdicts.at(0).remedy);
  EXPECT_TRUE(before.verdicts.at(0).remedy->mends);
  EXPECT_THAT(before.verdicts.at(0).remedy->spoils, ElementsAre("see axis"));
  const CheckResult after = check(mended(project, *before.verdicts.at(0).remedy));
  EXPECT_EQ(after.verdicts.at(0).answer, Answer::kMet);
  EXPECT_NE(after.verdicts.at(1).answer, Answer::kMet);
}

TEST(Remedy, IsTheSameWhenItIsLookedForAfterTheCheck) {
  const Project project = two_places();
  const LitProject lit{project};
  const CheckResult at_once = check(project);
  CheckResult later = check(lit, {.remedies = false});
  EXPECT_FALSE(later.verdicts.at(0).remedy);
  add_remedies(lit, {}, later);
  ASSERT_TRUE(later.verdicts.at(0).remedy);
  EXPECT_EQ(later.verdicts.at(0).remedy->text, at_once.verdicts.at(0).remedy->text);
  EXPECT_EQ(later.verdicts.at(0).remedy->spoils, at_once.verdicts.at(0).remedy->spoils);
  EXPECT_FALSE(later.verdicts.at(1).remedy) << "it is met";
}

/// Changes that lead nowhere are told by their geometry: the best of all is still the one that is found.
TEST(Remedy, WhereNothingMendsItIsTheBestOfAllThatWereTried) {
  Project project = along(10, 60);
  project.cameras.front().heading = 70 * units::deg;
  const Verdict verdict = check(project).verdicts.at(0);
  ASSERT_TRUE(verdict.remedy);
  EXPECT_FALSE(verdict.remedy->mends);
  const Tried tried{project};
  double most = 0;
  for (const Change& change : tried.changes()) most = std::max(most, tried.share_with(change));
  EXPECT_GT(most, 0);
  EXPECT_EQ(verdict.remedy->share_after, most);
}

TEST(Remedy, PrefersTheCameraWhoseChangeSpoilsNothing) {
  Project project = two_places();
  project.site.mounts.push_back(mount_at("idle post", {0, -3}, 1.6));  // farther off than the busy one
  project.cameras.push_back(camera_on("idle", "idle post", 180));
  const Verdict verdict = check(project).verdicts.at(0);
  ASSERT_TRUE(verdict.remedy);
  EXPECT_TRUE(verdict.remedy->mends);
  EXPECT_EQ(verdict.remedy->camera, "idle");
  EXPECT_THAT(verdict.remedy->spoils, IsEmpty());
}

TEST(Remedy, SpoilsTheSecondConditionCounts) {
  Project project = along(10, 19);
  project.cameras.front().focus = Length{0.5};
  project.conditions = {{"winter", site::Leaves::kOff}, {"summer", site::Leaves::kOn}};
  project.site.veils = {mesh_of("hedge", {{-3, 8}, {3, 8}}, 30, 0.1, 1)};
  const Verdict verdict = check(project).verdicts.at(0);
  EXPECT_FALSE(verdict.remedy && verdict.remedy->mends) << "what mends the winter alone is no remedy";
}

}  // namespace
}  // namespace sightfall::need
