// SPDX-License-Identifier: GPL-3.0-or-later
// What a camera has of a sample: inside or outside the picture, the gates just inside and just outside, what one hidden
// point does to each subject, veils, and densities by pencil.
#include "need/view.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "need/test_project.h"

namespace sightfall::need {
namespace {

using detail::Limit;
using geom::PlanPoint;

constexpr double kDegree = std::numbers::pi / 180;

/// The plain project's camera on a site, looked through at one sample.
struct Looking {
  site::Site site;
  camera::Camera camera = camera_on("eye", "post");
  camera::Sheet sheet = plain_sheet();
  geom::SitePoint eye{0, 0, 1.6};

  const Project& lit() const {
    project.site = site;
    project.settings.typical = plain_typical();
    return project;
  }
  mutable Project project;

  SampleView at(const Need& need, geom::SitePoint point, PlanPoint travel = {}) const {
    const Station station = station_at(sheet, camera, eye, plain_typical());
    return Lit{lit()}.views(station, need, {{point, travel, 0, 0}}).front();
  }
};

Need facing(Subject subject, double heading_deg) {
  Need need = need_of(subject, "yard", "fine");
  need.facing = Facing::kHeading;
  need.facing_heading = heading_deg * units::deg;
  return need;
}

/// Turned to the camera's side, so that across is east and west.
Need facing_south(Subject subject) { return facing(subject, 180); }

TEST(View, EndsAtThePicturesEdges) {
  const Looking looking;
  const Need need = facing_south(Subject::kFace);  // 0.07 m to either side, 0.10 m up and down must be inside
  EXPECT_EQ(looking.at(need, {4.929, 10, 1.6}).gate, Limit::kNone);  // the edge is at 5 m
  EXPECT_EQ(looking.at(need, {4.931, 10, 1.6}).gate, Limit::kOutOfView);
  EXPECT_EQ(looking.at(need, {-4.929, 10, 1.6}).gate, Limit::kNone);
  EXPECT_EQ(looking.at(need, {-4.931, 10, 1.6}).gate, Limit::kOutOfView);
  EXPECT_EQ(looking.at(need, {0, 10, 1.6 + 3.649}).gate, Limit::kNone);  // the edge is 3.75 m up
  EXPECT_EQ(looking.at(need, {0, 10, 1.6 + 3.651}).gate, Limit::kOutOfView);
  EXPECT_EQ(looking.at(need, {0, -10, 1.6}).gate, Limit::kOutOfView);
}

TEST(View, WhatAMaskCoversIsNotSeen) {
  Looking looking;
  const Need need = facing_south(Subject::kFace);
  looking.camera.masks = {{"left half", 0, 0, 0.5, 1}};
  EXPECT_EQ(looking.at(need, {-2, 10, 1.6}).gate, Limit::kMask);
  EXPECT_EQ(looking.at(need, {0.06, 10, 1.6}).gate, Limit::kOutOfView);  // its middle is clear, an eye is not
  EXPECT_EQ(looking.at(need, {0.08, 10, 1.6}).gate, Limit::kNone);
  EXPECT_EQ(looking.at(need, {-20, 10, 1.6}).gate, Limit::kOutOfView);
}

TEST(View, AFaceIsGatedByYaw) {
  const Looking looking;
  const auto gate = [&](double turn) { return looking.at(facing(Subject::kFace, 180 + turn), {0, 10, 1.6}).gate; };
  EXPECT_EQ(gate(44.9), Limit::kNone);
  EXPECT_EQ(gate(45.1), Limit::kAngle);
  EXPECT_EQ(gate(-44.9), Limit::kNone);
  EXPECT_EQ(gate(-45.1), Limit::kAngle);
  EXPECT_EQ(gate(180), Limit::kAngle);
}

TEST(View, AFaceIsGatedByPitch) {
  Looking looking;
  looking.camera.tilt = 30 * units::deg;
  const auto gate = [&](double pitch) {
    looking.eye.z = 1.6 + 10 * std::tan(pitch * kDegree);
    return looking.at(facing_south(Subject::kFace), {0, 10, 1.6}).gate;
  };
  EXPECT_EQ(gate(29.9), Limit::kNone);
  EXPECT_EQ(gate(30.1), Limit::kAngle);
}

TEST(View, APlateIsGatedByTheAngleToItsNormal) {
  Looking looking;
  const auto turned = [&](double turn) { return looking.at(facing(Subject::kPlate, 180 + turn), {0, 10, 1.6}).gate; };
  EXPECT_EQ(turned(59.9), Limit::kNone);
  EXPECT_EQ(turned(60.1), Limit::kAngle);
  looking.camera.tilt = 45 * units::deg;
  looking.eye.z = 1.6 + 10;  // 45 degrees from above leaves 45 to the side: cos 60 = cos 45 cos 45
  EXPECT_EQ(turned(44.9), Limit::kNone);
  EXPECT_EQ(turned(45.1), Limit::kAngle);
}

TEST(View, ABodyIsSeenFromAnySide) {
  const Looking looking;
  for (const Subject subject : {Subject::kPerson, Subject::kVehicle, Subject::kObject})
    for (const double heading : {0.0, 90.0, 179.0, 270.0}) {
      const SampleView view = looking.at(facing(subject, heading), {0, 20, 1.6});
      EXPECT_EQ(view.gate, Limit::kNone) << heading;
      EXPECT_NEAR(view.seen.density, kScale / 20, 1e-9) << "its plane is the one turned to the camera";
    }
}

TEST(View, OneHiddenPointHidesAFace) {
  Looking looking;
  const Need need = facing_south(Subject::kFace);
  looking.site.solids = {wall_of("post", {{0.036, 5}, {0.3, 5}}, 4)};  // the ear's ray passes at 0.035 m
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}).gate, Limit::kNone);
  looking.site.solids = {wall_of("post", {{0.034, 5}, {0.3, 5}}, 4)};
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}).gate, Limit::kOcclusion);
}

TEST(View, OneHiddenPointHidesAPlate) {
  Looking looking;
  const Need need = facing_south(Subject::kPlate);
  looking.site.solids = {wall_of("post", {{0.126, 5}, {0.5, 5}}, 4)};
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}).gate, Limit::kNone);
  looking.site.solids = {wall_of("post", {{0.124, 5}, {0.5, 5}}, 4)};
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}).gate, Limit::kOcclusion);
}

TEST(View, APersonNeedsMostPoints) {
  Looking looking;
  const Need need = facing_south(Subject::kPerson);  // points at 1.55, 1.3, 1.3, 1.0 and 0.5 m
  const auto behind = [&](double wall) {
    looking.site.solids = {wall_of("wall", {{-3, 9.99}, {3, 9.99}}, wall)};
    return looking.at(need, {0, 10, 0.85}).gate;
  };
  EXPECT_EQ(behind(1.1), Limit::kNone);
  EXPECT_EQ(behind(1.35), Limit::kOcclusion);
}

TEST(View, APointCountsWhenItIsInThePictureAndUnhidden) {
  Looking looking;
  const Need need = facing_south(Subject::kPerson);
  // The picture's lower edge lies at 1.2 m there: of five points the three upper ones are in it.
  looking.eye.z = 1.2 + 3.75;
  EXPECT_EQ(looking.at(need, {0, 10, 0.85}).gate, Limit::kNone);
  // A box hides one of the three; the two that are not hidden below the picture do not stand in for it.
  looking.site.solids = {wall_of("post", {{0.1, 9.9}, {1, 9.9}}, 6)};
  EXPECT_EQ(looking.at(need, {0, 10, 0.85}).gate, Limit::kOcclusion);
}

TEST(View, AVeilsFractionIsCarried) {
  Looking looking;
  const Need need = facing_south(Subject::kFace);
  looking.site.veils = {mesh_of("mesh", {{-2, 5}, {2, 5}}, 4, 0.6, 0.9)};
  EXPECT_NEAR(looking.at(need, {0, 10, 1.6}).seen.passed, 0.6, 1e-6);
  looking.site.veils.push_back(mesh_of("second", {{-2, 6}, {2, 6}}, 4, 0.5, 0.9));
  EXPECT_NEAR(looking.at(need, {0, 10, 1.6}).seen.passed, 0.3, 1e-6);
  looking.site.veils.clear();
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}).seen.passed, 1);
}

TEST(View, ABodyPassesWhatItsClearestPointsPass) {
  Looking looking;
  const auto behind = [&](double rail) {
    looking.site.veils = {mesh_of("rail", {{-3, 9.99}, {3, 9.99}}, rail, 0.5, 0.5)};
    return looking.at(facing_south(Subject::kPerson), {0, 10, 0.85}).seen.passed;
  };
  EXPECT_NEAR(behind(1.1), 1, 1e-6);                     // three of five points stand clear of it
  EXPECT_NEAR(behind(1.35), (1 + 0.5 + 0.5) / 3, 1e-6);  // one does
  EXPECT_NEAR(behind(1.8), 0.5, 1e-6);
}

TEST(View, HidingTheVeiledPartOfABodyDoesNotClearTheRest) {
  Looking looking;
  looking.site.veils = {mesh_of("rail", {{-3, 9.99}, {3, 9.99}}, 1.35, 0.5, 0.5)};
  const Need need = facing_south(Subject::kPerson);
  const double before = looking.at(need, {0, 10, 0.85}).seen.passed;
  looking.site.solids = {wall_of("kerb", {{-3, 9.98}, {3, 9.98}}, 1.1)};
  EXPECT_LE(looking.at(need, {0, 10, 0.85}).seen.passed, before + 1e-6);
}

TEST(View, DensityOfAFrontalPlaneIsScaleOverDepth) {
  const Looking looking;
  for (const Subject subject : {Subject::kFace, Subject::kPlate, Subject::kObject}) {
    const SampleView view = looking.at(facing_south(subject), {0, 16, 1.6});
    EXPECT_NEAR(view.seen.density, kScale / 16, 1e-9);
    EXPECT_NEAR(view.height_density, kScale / 16, 1e-9);
    EXPECT_NEAR(view.seen.depth, 16, 1e-12);
  }
  // Parallel to the picture, also away from the axis.
  EXPECT_NEAR(looking.at(facing_south(Subject::kPlate), {5, 16, 3}).seen.density, kScale / 16, 1e-9);
}

TEST(View, ATurnedPlateIsForeshortenedAcrossAndNotInHeight) {
  const Looking looking;
  const SampleView view = looking.at(facing(Subject::kPlate, 180 + 40), {0, 16, 1.6});
  EXPECT_NEAR(view.seen.density, kScale / 16 * std::cos(40 * kDegree), 1e-9);
  EXPECT_NEAR(view.height_density, kScale / 16, 1e-9);
}

TEST(View, FromAboveHeightIsForeshortened) {
  Looking looking;
  looking.camera.tilt = 45 * units::deg;
  looking.eye.z = 0.85 + 10;
  const SampleView view = looking.at(need_of(Subject::kPerson, "yard", "fine"), {0, 10, 0.85});
  const double away = 10 * std::numbers::sqrt2;
  EXPECT_NEAR(view.seen.depth, away, 1e-9);
  EXPECT_NEAR(view.height_density, kScale / away / std::numbers::sqrt2, 1e-9);
  EXPECT_NEAR(view.seen.density, view.height_density, 1e-9);
}

TEST(View, MotionAcrossTheViewMovesThePictureAndAlongTheAxisDoesNot) {
  const Looking looking;
  const Need need = need_of(Subject::kObject, "drive", "fine");
  EXPECT_NEAR(looking.at(need, {0, 20, 1.6}, {1, 0}).seen.motion_density, kScale / 20, 1e-9);
  EXPECT_NEAR(looking.at(need, {0, 20, 1.6}, {0, -1}).seen.motion_density, 0, 1e-9);
  // Along the axis but 4 m beside it: u = f x / z, so du/dz = f x / z^2.
  EXPECT_NEAR(looking.at(need, {4, 20, 1.6}, {0, -1}).seen.motion_density, kScale * 4 / 400, 1e-9);
}

TEST(View, WithoutTravelAFaceComesTowardsTheCameraAndABodyCrosses) {
  const Looking looking;
  EXPECT_NEAR(looking.at(need_of(Subject::kFace, "yard", "fine"), {0, 20, 1.6}).seen.motion_density, 0, 1e-9);
  EXPECT_NEAR(looking.at(need_of(Subject::kPerson, "yard", "fine"), {0, 20, 1.6}).seen.motion_density, kScale / 20,
              1e-9);
}

TEST(View, FacingTravelFollowsTheWay) {
  const Looking looking;
  Need need = need_of(Subject::kFace, "drive", "fine");
  need.facing = Facing::kTravel;
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}, {0, -1}).gate, Limit::kNone);
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}, {0, 1}).gate, Limit::kAngle);
  EXPECT_EQ(looking.at(need, {0, 10, 1.6}, {1, 0}).gate, Limit::kAngle);
}

TEST(View, AFisheyesDepthIsTheDistance) {
  Looking looking;
  looking.sheet.projection = camera::Projection::kFisheye;
  const SampleView view = looking.at(need_of(Subject::kFace, "yard", "fine"), {3, 10, 1.6});
  EXPECT_EQ(view.gate, Limit::kNone);
  EXPECT_NEAR(view.seen.depth, std::hypot(3, 10), 1e-9);
}

TEST(View, ManySamplesAreEachTheirOwn) {
  Looking looking;
  looking.site.solids = {wall_of("wall", {{-1, 8}, {1, 8}}, 4)};
  const Station station = station_at(looking.sheet, looking.camera, looking.eye, plain_typical());
  const Lit day{looking.lit()};
  const Need need = need_of(Subject::kFace, "yard", "fine");
  std::vector<Sample> samples;
  for (int i = 0; i < 200; ++i) samples.push_back({{0.1 * i - 10, 10, 1.6}, {}, 0, 0});
  const auto together = day.views(station, need, samples);
  for (size_t i = 0; i < samples.size(); ++i) {
    const SampleView alone = day.views(station, need, {samples[i]}).front();
    EXPECT_EQ(together[i].gate, alone.gate);
    EXPECT_EQ(together[i].seen.density, alone.seen.density);
  }
}

}  // namespace
}  // namespace sightfall::need
