// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/sway.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "need/station.h"
#include "need/test_project.h"
#include "site/pole.h"

namespace sightfall::need {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

/// A camera of 2 kg and 0.2 x 0.1 m, 4 m up on a steel tube of 5 m.
Project on_pole() {
  Project project = plain_project();
  project.site.mounts.front().height = Length{4};
  project.site.mounts.front().pole = site::Pole{site::PoleMaterial::kSteel, 60.3 * mm, 2.9 * mm, Length{5}};
  project.catalogue.front().mass = 2.0 * kg;
  project.catalogue.front().body = camera::Ends<Length>{200.0 * mm, 100.0 * mm};
  project.settings.typical.body_drag = exactly(1.2, "drag");
  return project;
}

/// By hand, in a breeze of 10.7 m/s: 71.556 N/m2, 1.72 N on the camera, 5.18 N/m on the tube.
TEST(Sway, IsThePolesBendInAFreshBreezeWhereNoneIsStated) {
  const Project project = on_pole();
  const site::Mount& mount = project.site.mounts.front();
  const double slope = bent_by_force(*mount.pole, Force{1.2 * 0.02 * 71.556}, Length{4}, Length{4}).slope.si() +
                       bent_by_wind(*mount.pole, LineLoad{1.2 * 0.0603 * 71.556}, Length{4}).slope.si();
  const Sway sway = sway_of(project, mount);
  EXPECT_EQ(sway.assumed, SwayAssumed::kBendOfPole);
  EXPECT_NEAR(sway.amplitude.si(), slope, 1e-4 * slope);
  EXPECT_NEAR(sway.frequency.si(), own_frequency(*mount.pole, {{2.0 * kg, Length{4}}}).si(), 1e-12);
  EXPECT_GT(sway_of(project, mount, Length{0.5}).amplitude, sway.amplitude);
}

TEST(Sway, FeedsTheShakeOfThePictureAndIsSaid) {
  const Project project = on_pole();
  const Sway sway = sway_of(project, project.site.mounts.front());
  const Station station = station_of(project, project.cameras.front());
  EXPECT_NEAR(station.constants.sway_rate, 2 * std::numbers::pi * sway.frequency.si() * sway.amplitude.si(), 1e-15);
  EXPECT_GT(station.constants.sway_rate, 0.01);
  EXPECT_THAT(station.assumptions, Contains(Field(&Assumption::what, HasSubstr("taken from its pole"))));
}

TEST(Sway, WhatTheDocumentStatesStands) {
  Project project = on_pole();
  site::Mount& mount = project.site.mounts.front();
  mount.sway = 1.0 * deg;
  EXPECT_EQ(sway_of(project, mount).amplitude, 1.0 * deg);
  EXPECT_GT(sway_of(project, mount).frequency, Frequency{1}) << "its own, for none is stated";
  mount.sway_frequency = Frequency{3};
  EXPECT_EQ(sway_of(project, mount).frequency, Frequency{3});
  EXPECT_EQ(sway_of(project, mount).assumed, SwayAssumed::kNothing);
  EXPECT_EQ(sway_of(project, mount).factor, Ranged<double>::exact(1));
  EXPECT_THAT(station_of(project, project.cameras.front()).assumptions,
              Not(Contains(Field(&Assumption::what, HasSubstr("taken from its pole")))));
}

TEST(Sway, WorkedOutIsWithinARangeThatIsSaid) {
  Project project = on_pole();
  const Angle bend = sway_of(project, project.site.mounts.front()).amplitude;
  project.settings.typical.pole_sway = {{0.5, 2, 5}, "1", "sway of a pole", "test", "film it"};
  const Sway sway = sway_of(project, project.site.mounts.front());
  EXPECT_NEAR(sway.amplitude / bend, 2, 1e-12);
  EXPECT_EQ(sway.factor, (Ranged<double>{0.25, 1, 2.5}));
  const Station station = station_of(project, project.cameras.front());
  EXPECT_EQ(station.inputs[static_cast<size_t>(detail::Input::kSway)], sway.factor);
  const double degrees = sway.amplitude.in(deg);
  EXPECT_THAT(station.assumptions,
              Contains(AllOf(Field(&Assumption::what, HasSubstr(fmt::format("{:.3f} degrees ({:.3f} to {:.3f})",
                                                                            degrees, degrees / 4, degrees * 2.5))),
                             Field(&Assumption::settle, "film it"))));
  EXPECT_EQ(entry_of(detail::Input::kSway, station, Subject::kFace, project.settings.typical).meaning,
            "sway of a pole");
}

TEST(Sway, StatedWithoutHowOftenIsAsOftenAsItsPoleWithinARange) {
  Project project = on_pole();
  site::Mount& mount = project.site.mounts.front();
  mount.sway = 1.0 * deg;
  project.settings.typical.pole_frequency = {{0.7, 1, 1.1}, "1", "frequency of a pole", "test", "count it"};
  const Sway sway = sway_of(project, mount);
  EXPECT_EQ(sway.assumed, SwayAssumed::kPolesFrequency);
  EXPECT_EQ(sway.frequency, pole_sway(project, mount, mount.height).frequency);
  EXPECT_EQ(sway.factor, (Ranged<double>{0.7, 1, 1.1}));
  const Station station = station_of(project, project.cameras.front());
  EXPECT_THAT(station.assumptions,
              Contains(AllOf(Field(&Assumption::what, HasSubstr("not stated, taken from its pole: ")),
                             Field(&Assumption::settle, "count it"))));
}

TEST(Sway, StatedOffAPoleWithoutHowOftenIsAsOftenAsUsualWithinARange) {
  Project project = plain_project();
  project.site.mounts.front().sway = 0.3 * deg;
  project.settings.typical.sway_frequency = {{0.5, 2, 5}, "Hz", "frequency of a mount", "test", "count it"};
  const Sway sway = sway_of(project, project.site.mounts.front());
  EXPECT_EQ(sway.assumed, SwayAssumed::kUsualFrequency);
  EXPECT_EQ(sway.frequency, 2.0 * Hz);
  const Station station = station_of(project, project.cameras.front());
  EXPECT_NEAR(station.constants.sway_rate, 2 * std::numbers::pi * 2 * (0.3 * deg).si(), 1e-15);
  EXPECT_EQ(station.inputs[static_cast<size_t>(detail::Input::kSway)], (Ranged<double>{0.25, 1, 2.5}));
  EXPECT_THAT(station.assumptions,
              Contains(AllOf(Field(&Assumption::what, HasSubstr("taken as 2.0 times a second (0.5 to 5.0)")),
                             Field(&Assumption::settle, "count it"))));
  EXPECT_EQ(entry_of(detail::Input::kSway, station, Subject::kFace, project.settings.typical).meaning,
            "frequency of a mount");
}

TEST(Sway, AnotherBracketOnThePoleBendsItMore) {
  Project project = on_pole();
  const Sway alone = sway_of(project, project.site.mounts.front());
  site::Mount other = project.site.mounts.front();
  other.name = "upper", other.height = Length{5};
  project.site.mounts.push_back(other);
  project.cameras.push_back(camera_on("second", "upper"));
  EXPECT_THAT(on_same_pole(project.site, other), SizeIs(2));
  const Sway both = sway_of(project, project.site.mounts.front());
  const double more = bent_by_force(*other.pole, Force{1.2 * 0.02 * 71.556}, Length{5}, Length{4}).slope.si();
  EXPECT_NEAR(both.amplitude.si() - alone.amplitude.si(), more, 1e-4 * more);
  EXPECT_LT(both.frequency, alone.frequency);
  project.site.mounts.back().at.x += 2;  // a pole of its own
  EXPECT_EQ(sway_of(project, project.site.mounts.front()).amplitude, alone.amplitude);
}

TEST(Sway, WithoutAPoleOrInABuildingThereIsNone) {
  Project project = on_pole();
  site::Solid hall;
  hall.outline.outer = {{-5, -5}, {5, -5}, {5, 5}, {-5, 5}};
  hall.height = Length{6};
  project.site.solids = {hall};
  EXPECT_EQ(sway_of(project, project.site.mounts.front()).amplitude, Angle{0});
  project.site.solids.clear();
  project.site.mounts.front().pole.reset();
  EXPECT_EQ(sway_of(project, project.site.mounts.front()).amplitude, Angle{0});
}

}  // namespace
}  // namespace sightfall::need
