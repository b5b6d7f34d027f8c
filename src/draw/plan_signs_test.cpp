// SPDX-License-Identifier: GPL-3.0-or-later
// Signs that would lie over others, by pencil.
#include "draw/plan_signs.h"

#include <gtest/gtest.h>

namespace sightfall::draw {
namespace {

TEST(PlanSigns, StandAtTheirPlacesWhereThatIsFree) {
  SignRoom room{{0, 0}, {200, 200}};
  room.take({50, 50}, 7);
  EXPECT_EQ(room.settle({100, 100}, 5), (PagePoint{100, 100}));
}

TEST(PlanSigns, GiveWayToTheSideOnWhichTheyHang) {
  SignRoom room{{0, 0}, {200, 200}};
  room.take({100, 100}, 7);
  const PagePoint at = room.settle({98, 100}, 5);
  EXPECT_LT(at.x, 100 - 7 - 5);
  EXPECT_NEAR(at.y, 100, 1e-9);
}

TEST(PlanSigns, ManyAtOnePlaceLieOverNoneAndTheirLinesThroughNone) {
  SignRoom room{{0, 0}, {300, 300}};
  const PagePoint place{150, 150};
  std::vector<PagePoint> signs;
  for (int i = 0; i < 12; ++i) {
    const PagePoint at = room.settle(place, 6);
    for (const PagePoint before : signs) {
      EXPECT_GT(geom::norm(at - before), 12) << i;
      if (before != place) {
        EXPECT_GT(distance_to_line({place, at}, before), 6) << i;
      }
    }
    signs.push_back(at);
  }
}

TEST(PlanSigns, KeepOffLinesAndOnThePage) {
  SignRoom room{{0, 0}, {200, 200}};
  room.take({100, 100}, 7);
  room.keep_off({{0, 101}, {95, 101}});
  EXPECT_GT(distance_to_line({{0, 101}, {95, 101}}, room.settle({98, 100}, 5)), 5);
  SignRoom corner{{0, 0}, {200, 200}};
  corner.take({4, 4}, 7);
  const PagePoint at = corner.settle({3, 3}, 5);
  EXPECT_GE(at.x, 5);
  EXPECT_GE(at.y, 5);
}

}  // namespace
}  // namespace sightfall::draw
