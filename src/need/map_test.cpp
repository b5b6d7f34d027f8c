// SPDX-License-Identifier: GPL-3.0-or-later
// The detail map: its frame, and its values against a trial's view of the same points.
#include "need/map.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "need/sweep.h"
#include "need/test_told.h"
#include "need/view.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

geom::PlanPoint point_of(const DetailMap& map, int c, int r) {
  return map.south_west + map.step.si() * geom::PlanPoint{static_cast<double>(c), static_cast<double>(r)};
}

TEST(DetailMap, CoversThePlaceItsCamerasAndAMargin) {
  Project project = plain_project();
  project.site.places = {zone_of("yard", rectangle(-4, 10, 4, 20))};
  project.site.mounts.push_back(mount_at("far", {500, 0}, 3));
  project.cameras.push_back(camera_on("far eye", "far"));
  const DetailMap map = detail_map(project, "yard", "day", 2000);
  EXPECT_EQ(map.place, "yard");
  EXPECT_EQ(map.condition, "day");
  EXPECT_DOUBLE_EQ(map.south_west.x, -10);
  EXPECT_DOUBLE_EQ(map.south_west.y, -6);  // the camera at the origin is in it, the far one is not
  const geom::PlanPoint last = point_of(map, map.columns - 1, map.rows - 1);
  EXPECT_NEAR(last.x, 10, map.step.si());
  EXPECT_NEAR(last.y, 26, map.step.si());
  EXPECT_NEAR(map.columns * map.rows, 2000, 120);
  EXPECT_EQ(map.delivered.size(), static_cast<size_t>(map.columns * map.rows));
}

TEST(DetailMap, HoldsWhatTheBestCameraDeliversThere) {
  const Project project = busy_project();
  Need face;
  face.subject = Subject::kFace;
  face.speed = Speed{0};
  Project wide = project;
  wide.settings.typical.face_pitch =
      exactly(90, "pitch");  // a map shows detail; whether a face is seen too steeply is the need's
  for (const site::Condition& condition : project.conditions) {
    const DetailMap map = detail_map(project, "yard", condition.name, 900);
    const Lit lit_site{wide, condition};
    const site::Scene& scene = lit_site.scene();
    const double faintest_px_m = faintest(project.settings.levels).si();
    int compared = 0, lit = 0;
    for (int r = 0; r < map.rows; ++r)
      for (int c = 0; c < map.columns; ++c) {
        const geom::SitePoint at = site::above_ground(project.site.terrain, point_of(map, c, r), Length{1.6});
        double best = 0;
        bool clear = true;
        for (const camera::Camera& camera : project.cameras) {
          const Station station = station_of(project, camera);
          const SampleView view = lit_site.views(station, face, {{at, {}, 0, 0}}).front();
          const geom::Vec3 in_camera = station.pose.camera_from_site * (at - station.pose.eye_site);
          const auto image = camera::image_point(station.lens.projector, in_camera);
          const bool centre_in = image && camera::in_picture(station.lens.projector, *image);
          const bool centre_lit = centre_in && scene.passed({station.pose.eye_site, at}) > 0;
          // A map takes a face for its middle; where the whole head's answer differs, the two cannot be held together.
          if (centre_lit != (view.gate == detail::Limit::kNone)) clear = false;
          if (view.gate != detail::Limit::kNone || view.seen.density < faintest_px_m) continue;
          if (std::abs(view.seen.passed - scene.passed({station.pose.eye_site, at})) > 1e-6) clear = false;
          const Station by_day = in_condition(station, lit_site.lighting());
          const auto values = detail::nominal(subject_inputs(by_day, face, project.settings.typical));
          best = std::max(best, detail::delivered(by_day.constants, view.seen, values));
        }
        if (!clear) continue;
        ++compared;
        lit += best > 0 ? 1 : 0;
        EXPECT_NEAR(static_cast<double>(map.at(c, r)), best, 2 * kSweepError * best + 1e-9) << c << " " << r;
      }
    EXPECT_GT(compared, 600);
    EXPECT_GT(lit, 300);
  }
}

TEST(DetailMap, SeasonsDiffer) {
  const Project project = busy_project();
  const DetailMap summer = detail_map(project, "behind", "summer", 600),
                  winter = detail_map(project, "behind", "winter", 600);
  ASSERT_EQ(summer.delivered.size(), winter.delivered.size());
  int more = 0;
  for (size_t i = 0; i < summer.delivered.size(); ++i) {
    EXPECT_GE(winter.delivered[i], summer.delivered[i]);
    more += winter.delivered[i] > summer.delivered[i] ? 1 : 0;
  }
  EXPECT_GT(more, 20);
}

}  // namespace
}  // namespace sightfall::need
