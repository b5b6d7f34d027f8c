// SPDX-License-Identifier: GPL-3.0-or-later
// Where somebody stands before a camera, by pencil.
#include "walk/standing.h"

#include <gtest/gtest.h>

#include "need/test_project.h"
#include "walk/marks.h"
#include "walk/subject.h"

namespace sightfall::walk {
namespace {

using namespace units;

need::Project level(double tilt_deg) {
  need::Project project;
  project.settings.typical = need::plain_typical();
  project.catalogue = {need::plain_sheet()};
  project.site.mounts = {need::mount_at("m", {0, 0}, 4)};
  project.cameras = {need::camera_on("eye", "m", 0, tilt_deg)};
  return project;
}

geom::PlanPoint middle_of(const need::Project& project) {
  return middle_of_picture(project, project.cameras.front(), site::Scene{project.site, site::Leaves::kOff});
}

TEST(Standing, AStepBeforeTheAxisMeetsTheGround) {
  // 45 degrees down from 4 m: 5.657 m along the axis, a metre less, seen from above.
  const geom::PlanPoint at = middle_of(level(45));
  EXPECT_NEAR(at.x, 0, 1e-9);
  EXPECT_NEAR(at.y, (4 * M_SQRT2 - 1) / M_SQRT2, 1e-4);
}

TEST(Standing, NoFartherThan25M) { EXPECT_NEAR(middle_of(level(0)).y, 25, 1e-9); }

TEST(Standing, AFaceIsAsHighAsVerdictsHaveIt) {
  need::Project project = level(10);
  const site::Condition day{"day", site::Leaves::kOn};
  const geom::PlanPoint at{0.5, 8};
  const site::Place way = way_towards({0, 0}, at);
  const Walk walk = Walk::standing({&project, &day, &project.cameras.front(), &way, Mover::kWalker, {}, 1});
  const Mark& mark = walk.marks().front();
  EXPECT_NEAR(mark.foot.x, at.x, 1e-9);
  EXPECT_NEAR(mark.foot.y, at.y, 1e-9);
  double crown = 0;
  for (const geom::Vec3& corner : walker(mark.gone / kStrideLength).mesh.vertices) crown = std::max(crown, corner.z);
  EXPECT_NEAR(crown, 1.75, 0.005);
}

TEST(Standing, TheWayLeadsToTheMountHalfAMetre) {
  const site::Place way = way_towards({0, 0}, {3, 4});
  EXPECT_NEAR(way.line[1].x, 3 - 0.3, 1e-12);
  EXPECT_NEAR(way.line[1].y, 4 - 0.4, 1e-12);
  EXPECT_NEAR(way_towards({1, 1}, {1, 1}).line[1].y, 1.5, 1e-12);
}

}  // namespace
}  // namespace sightfall::walk
