// SPDX-License-Identifier: GPL-3.0-or-later
// A station: an assumption for each thing the sheet is silent about and for nothing else; ranges and limits of inputs.
#include "need/station.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

using detail::Input;
using testing::HasSubstr;

const Ranged<double>& input(const Station& station, Input which) { return station.inputs[static_cast<size_t>(which)]; }

std::vector<std::string> assumed(const Station& station) {
  std::vector<std::string> texts;
  for (const Assumption& a : station.assumptions) texts.push_back(a.what + " / " + a.settle);
  return texts;
}

Station with(const std::function<void(camera::Sheet&, camera::Camera&)>& change,
             const detail::Typical& typical = plain_typical()) {
  camera::Sheet sheet = plain_sheet();
  camera::Camera camera = camera_on("eye", "post");
  change(sheet, camera);
  return station_at(sheet, camera, {0, 0, 3}, typical);
}

TEST(StationEstimates, StandInForTheEntryOfTheTable) {
  const Station station = with([](auto& sheet, auto&) {
    sheet.estimates = {{"read_noise", {1, 2, 3}, "a test"}, {"lens_blur_precise", {0.2, 0.3, 0.4}, "a test"}};
  });
  EXPECT_EQ(input(station, Input::kReadNoise), (Ranged<double>{1, 2, 3}));
  EXPECT_EQ(input(station, Input::kLensBlur), (Ranged<double>{0.2, 0.3, 0.4}));
  EXPECT_EQ(input(station, Input::kThreshold), plain_typical().contrast_threshold.value);
}

TEST(StationAssumptions, NoneWhenEverythingIsStated) {
  EXPECT_TRUE(with([](auto&, auto&) {}).assumptions.empty());
}

TEST(StationAssumptions, OneForEachThingTheSheetIsSilentAbout) {
  const auto only = [](const Station& station) {
    EXPECT_EQ(station.assumptions.size(), 1U);
    return station.assumptions.empty() ? std::string{} : assumed(station).front();
  };
  EXPECT_THAT(only(with([](auto& sheet, auto&) { sheet.f_number.reset(); })), HasSubstr("f-number not stated"));
  EXPECT_THAT(only(with([](auto& sheet, auto&) { sheet.lens_class.reset(); })), HasSubstr("lens class not stated"));
  EXPECT_THAT(only(with([](auto& sheet, auto&) { sheet.frame_rates.clear(); })), HasSubstr("frame rate not stated"));
  EXPECT_THAT(only(with([](auto&, auto& camera) { camera.focus.reset(); })), HasSubstr("focus distance not given"));
  EXPECT_THAT(only(with([](auto& sheet, auto&) {
                sheet.active_width.reset();
                sheet.optical_format = "1/2.8";
              })),
              HasSubstr("angle of view not stated"));
}

TEST(StationAssumptions, ACameraSettingStandsInForTheSheet) {
  EXPECT_TRUE(with([](auto& sheet, auto& camera) {
                sheet.frame_rates.clear();
                camera.frame_rate = 12;
                sheet.f_number.reset();
                camera.f_number = 4;
              }).assumptions.empty());
}

TEST(StationAssumptions, SayTheRangeAndHowToSettleIt) {
  detail::Typical typical = plain_typical();
  typical.f_number_unknown.value = {1.4, 1.6, 2.0};
  const Station station = with([](auto& sheet, auto&) { sheet.f_number.reset(); }, typical);
  EXPECT_THAT(assumed(station).front(), HasSubstr("f/1.6 (1.4 to 2)"));
  EXPECT_THAT(assumed(station).front(), HasSubstr("settle the f-number when none is given"));
  EXPECT_EQ(input(station, Input::kFNumber), (Ranged<double>{1.4, 1.6, 2.0}));
}

TEST(StationInputs, StatedValuesAreExact) {
  detail::Typical typical = plain_typical();
  typical.focus_setting.value = {0.5, 1, 2};
  typical.shutter_slowest.value = {0.002, 0.005, 0.01};
  const Station station = with(
      [](auto&, auto& camera) {
        camera.focus = Length{7};
        camera.shutter = Time{0.004};
      },
      typical);
  EXPECT_EQ(input(station, Input::kFocus), Ranged<double>::exact(7));
  EXPECT_EQ(input(station, Input::kShutter), Ranged<double>::exact(0.004));
  EXPECT_TRUE(station.constants.shutter_fixed);
}

TEST(StationInputs, AnUnknownFocusIsTheHyperfocalDistanceOfTwoPixelsAsARange) {
  detail::Typical typical = plain_typical();
  typical.focus_setting.value = {0.5, 1, 2};
  const Station station = with([](auto&, auto& camera) { camera.focus.reset(); }, typical);
  // H = f^2 / (N c) + f with c = 2 pixels of 2.5 um, f 5 mm, f/2
  const double hyperfocal = 25e-6 / (2 * 5e-6) + 5e-3;
  EXPECT_NEAR(input(station, Input::kFocus).nominal, hyperfocal, 1e-9);
  EXPECT_NEAR(input(station, Input::kFocus).low, 0.5 * hyperfocal, 1e-9);
  EXPECT_NEAR(input(station, Input::kFocus).high, 2 * hyperfocal, 1e-9);
  const Station far = with([](auto& sheet, auto& camera) {
    camera.focus.reset();
    sheet.closest_focus = Length{4};
  });
  EXPECT_DOUBLE_EQ(input(far, Input::kFocus).nominal, 4) << "no lens is set nearer than it focuses";
}

TEST(StationInputs, ToleranceFollowsWhatTheWidthCameFrom) {
  detail::Typical typical = plain_typical();
  typical.view_tolerance.value = {0.97, 1, 1.03};
  typical.format_tolerance.value = {0.92, 1, 1.08};
  EXPECT_EQ(input(with([](auto&, auto&) {}, typical), Input::kDensityFactor), typical.view_tolerance.value);
  const Station nominal = with(
      [](auto& sheet, auto&) {
        sheet.active_width.reset();
        sheet.optical_format = "1/2.8";
      },
      typical);
  EXPECT_EQ(input(nominal, Input::kDensityFactor), typical.format_tolerance.value);
}

TEST(StationInputs, LensBlurFollowsTheClass) {
  const auto blur = [](camera::LensClass lens_class) {
    return input(with([&](auto& sheet, auto&) { sheet.lens_class = lens_class; }), Input::kLensBlur).nominal;
  };
  EXPECT_DOUBLE_EQ(blur(camera::LensClass::kEconomy), 2);
  EXPECT_DOUBLE_EQ(blur(camera::LensClass::kStandard), 0.5);
  EXPECT_DOUBLE_EQ(blur(camera::LensClass::kPrecise), 0.1);
}

TEST(SlowestShutter, KeepsWithinTheSheetsLimits) {
  detail::Typical typical = plain_typical();
  typical.shutter_slowest.value = {0.002, 0.005, 0.01};
  camera::Sheet sheet = plain_sheet();
  EXPECT_EQ(slowest_shutter(sheet, {}, typical), (Ranged<double>{0.002, 0.005, 0.01}));
  sheet.shutter = camera::Ends<Time>{Time{0.004}, Time{0.04}};  // shortest, longest
  EXPECT_EQ(slowest_shutter(sheet, {}, typical), (Ranged<double>{0.004, 0.005, 0.01}));
  sheet.shutter = camera::Ends<Time>{Time{0.0001}, Time{0.003}};
  EXPECT_EQ(slowest_shutter(sheet, {}, typical), (Ranged<double>{0.002, 0.003, 0.003}));
  camera::Camera set;
  set.slowest_shutter = Time{0.02};
  EXPECT_EQ(slowest_shutter(sheet, set, typical), Ranged<double>::exact(0.02));
  EXPECT_FALSE(with([](auto&, auto&) {}).constants.shutter_fixed);
}

TEST(SwayRate, IsTwoPiFrequencyTimesAmplitude) {
  Project project = plain_project();
  EXPECT_EQ(station_of(project, project.cameras.front()).constants.sway_rate, 0);
  project.site.mounts.front().sway = Angle{0.001};
  project.site.mounts.front().sway_frequency = Frequency{1.5};
  EXPECT_DOUBLE_EQ(station_of(project, project.cameras.front()).constants.sway_rate, 2 * std::numbers::pi * 1.5e-3);
}

TEST(StationOf, StandsOnItsGroundAndLooksWhereItIsAimed) {
  Project project = plain_project();
  project.site.terrain = {{-10, -10}, Length{20}, 2, 2, {5, 5, 5, 5}};
  project.cameras.front() = camera_on("eye", "post", 90, 30);
  const Station station = station_of(project, project.cameras.front());
  EXPECT_NEAR(station.pose.eye_site.z, 6.6, 1e-12);
  const geom::Vec3 axis = station.pose.camera_from_site.row[2];
  EXPECT_NEAR(axis.x, std::cos(std::numbers::pi / 6), 1e-12);
  EXPECT_NEAR(axis.z, -0.5, 1e-12);
}

TEST(StationOf, TellsWhenTheStatedAngleAndTheSheetsOwnWidthDisagree) {
  Project project = plain_project();
  const auto told = [&](double view_degrees) {
    const Angle view = view_degrees * units::deg;
    project.catalogue.front().view = camera::Ends<Angle>{view, view};
    return assumed(station_of(project, project.cameras.front()));
  };
  // 5 mm of active width behind 5 mm of focal length are 2 atan(1/2) = 53.13 degrees; 5 % off that is the bound.
  EXPECT_THAT(told(51), testing::IsEmpty());
  EXPECT_THAT(told(50), testing::ElementsAre(HasSubstr("states 50.0 degrees across, its active width gives 53.1")));
}

TEST(StationOf, TakesTheHighestFrameRateUnlessOneIsSet) {
  EXPECT_EQ(with([](auto&, auto&) {}).frame_rate, 20);
  EXPECT_EQ(with([](auto&, auto& camera) { camera.frame_rate = 10; }).frame_rate, 10);
}

TEST(SubjectInputs, SpeedIsStatedOrTheSubjectsOwn) {
  const Station station = with([](auto&, auto&) {});
  const detail::Typical typical = plain_typical();
  const auto speed = [&](Subject subject) {
    Need need = need_of(subject, "yard", "fine");
    need.speed.reset();
    return subject_inputs(station, need, typical)[static_cast<size_t>(Input::kSpeed)].nominal;
  };
  EXPECT_DOUBLE_EQ(speed(Subject::kFace), 1.4);
  EXPECT_DOUBLE_EQ(speed(Subject::kPerson), 1.4);
  EXPECT_DOUBLE_EQ(speed(Subject::kPlate), 2.8);
  EXPECT_DOUBLE_EQ(speed(Subject::kVehicle), 2.8);
  EXPECT_DOUBLE_EQ(speed(Subject::kObject), 0);
  Need stated = need_of(Subject::kPlate, "yard", "fine");
  stated.speed = Speed{9};
  stated.shutter = Time{0.001};
  const detail::RangedInputs inputs = subject_inputs(station, stated, typical);
  EXPECT_EQ(inputs[static_cast<size_t>(Input::kSpeed)], Ranged<double>::exact(9));
  EXPECT_EQ(inputs[static_cast<size_t>(Input::kShutter)], Ranged<double>::exact(0.001));
}

TEST(EntryOf, IsTheEntryThatTheStationUsed) {
  detail::Typical typical = plain_typical();
  const Station economy = with([](auto& sheet, auto&) { sheet.lens_class = camera::LensClass::kEconomy; });
  EXPECT_EQ(entry_of(Input::kLensBlur, economy, Subject::kFace, typical).meaning, "blur of an economy lens");
  const Station silent = with([](auto& sheet, auto&) { sheet.f_number.reset(); });
  EXPECT_EQ(entry_of(Input::kFNumber, silent, Subject::kFace, typical).meaning, "f-number when none is given");
  EXPECT_EQ(entry_of(Input::kSpeed, economy, Subject::kPlate, typical).meaning, "driving speed");
  EXPECT_EQ(entry_of(Input::kSpeed, economy, Subject::kFace, typical).meaning, "walking speed");
}

TEST(StationIris, MovesOnlyWhereItIsAutomaticAndNotSet) {
  Project project = plain_project();
  const auto range = [&] { return station_of(project, project.cameras.front()).constants.limits.iris_range; };
  EXPECT_EQ(range(), 1);
  project.catalogue.front().iris = camera::Iris::kAutomatic;
  EXPECT_NEAR(range(), 16, 1e-9) << "f/2 to f/8, which is typical";
  project.catalogue.front().smallest_iris = 4;
  EXPECT_NEAR(range(), 4, 1e-9);
  project.cameras.front().f_number = 2.8;
  EXPECT_EQ(range(), 1);
}

}  // namespace
}  // namespace sightfall::need
