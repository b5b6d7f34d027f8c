// SPDX-License-Identifier: GPL-3.0-or-later
// What stands still, kept from frame to frame, against the same cast anew, for visitors here and there.
#include "walk/still.h"

#include <gtest/gtest.h>

#include "walk/test_yard.h"

namespace sightfall::walk {
namespace {

TEST(StillCast, WithAVisitorsShadowIsTheSameAsCastAnew) {
  const Yard yard;
  const Stage empty{yard.project, yard.condition, yard.station, Visitor{}};
  const StillCast still{empty, yard.station};
  for (const auto& [x, y] : {std::pair{0.5, 6.0}, std::pair{-3.0, 9.0}, std::pair{2.0, 12.5}, std::pair{0.0, 30.0}}) {
    const Stage visited{empty, Yard::walker_at(x, y)};
    const Background quick = still.background(visited, 0.7), anew = StillCast{visited, yard.station}.background(0.7);
    EXPECT_EQ(quick.rate.at, anew.rate.at) << x << " " << y;
    EXPECT_EQ(quick.depth.at, anew.depth.at);
    EXPECT_EQ(quick.swinging.at, anew.swinging.at);
    EXPECT_EQ(quick.stray.at, anew.stray.at);
    EXPECT_EQ(quick.hue, anew.hue);
    EXPECT_LE(still.tiles_shaded(visited), still.tile_count());
  }
}

TEST(StillCast, OutsideAFisheyesCircleThereIsNothingWhateverWasCastBefore) {
  Yard yard;
  yard.station.lens.projector = {camera::Mapping::kFisheye, 320, 240, 80, {}, Angle{1.5}};
  const Stage empty{yard.project, yard.condition, yard.station, Visitor{}};
  const StillCast still{empty, yard.station};
  ASSERT_EQ(camera::ray_camera(yard.station.lens.projector, {0, 0}), std::nullopt);
  for (const double y : {3.0, 4.0, 6.0, 3.5}) {
    const Stage visited{empty, Yard::car_at(0, y)};
    EXPECT_GT(still.tiles_shaded(visited), still.tile_count() / 2);
    const Background quick = still.background(visited, 0.7), anew = StillCast{visited, yard.station}.background(0.7);
    EXPECT_EQ(quick.rate.at, anew.rate.at) << y;
    EXPECT_EQ(quick.rate.at.front(), 0);
  }
}

TEST(StillCast, TheShadowIsThereAndElsewhereNothingChanges) {
  const Yard yard;
  const Stage empty{yard.project, yard.condition, yard.station, Visitor{}};
  const StillCast still{empty, yard.station};
  const Stage visited{empty, Yard::walker_at(0.5, 6)};
  const Background before = still.background(1), with = still.background(visited, 1);
  size_t darker = 0;
  for (size_t i = 0; i < before.rate.at.size(); ++i) {
    EXPECT_LE(with.rate.at[i], before.rate.at[i] * 1.0001F) << "a shadow takes";
    if (with.rate.at[i] < 0.99F * before.rate.at[i]) ++darker;
  }
  EXPECT_GT(darker, 100U);
  EXPECT_LT(darker, before.rate.at.size() / 4);
}

TEST(StillCast, OwnInfraredGoesWithItsPower) {
  const Yard yard{160, 120};
  const Stage empty{yard.project, yard.condition, yard.station, Visitor{}};
  const StillCast still{empty, yard.station};
  const Background none = still.background(0), half = still.background(0.5), full = still.background(1);
  for (size_t i = 0; i < none.rate.at.size(); i += 7) {
    EXPECT_NEAR(half.rate.at[i], (none.rate.at[i] + full.rate.at[i]) / 2, 1e-5 * full.rate.at[i]);
    EXPECT_GT(full.rate.at[i], none.rate.at[i]);
  }
}

}  // namespace
}  // namespace sightfall::walk
