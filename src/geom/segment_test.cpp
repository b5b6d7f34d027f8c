// SPDX-License-Identifier: GPL-3.0-or-later
// Segments by pencil.
#include "geom/segment.h"

#include <gtest/gtest.h>

namespace sightfall::geom {
namespace {

TEST(Segment, TheNearestPointIsItsFootOrAnEnd) {
  EXPECT_EQ(nearest_on_segment({3, 4}, {0, 0}, {10, 0}), (PlanPoint{3, 0}));
  EXPECT_EQ(nearest_on_segment({-3, 4}, {0, 0}, {10, 0}), (PlanPoint{0, 0}));
  EXPECT_EQ(nearest_on_segment({13, 4}, {0, 0}, {10, 0}), (PlanPoint{10, 0}));
  EXPECT_EQ(distance_to_segment({13, 4}, {0, 0}, {10, 0}), 5);
  EXPECT_EQ(distance_to_segment({3, 4}, {0, 0}, {0, 0}), 5) << "both ends are one point";
}

TEST(Segment, IsCutAtTheBox) {
  const Box2 box{{0, 0}, {4, 2}};
  EXPECT_EQ(part_within({-4, 1}, {4, 1}, box), (std::pair{0.5, 1.0}));
  EXPECT_EQ(part_within({1, 1}, {2, 1}, box), (std::pair{0.0, 1.0}));
  EXPECT_EQ(part_within({1, -1}, {1, 7}, box), (std::pair{0.125, 0.375}));
  EXPECT_TRUE(part_within({-1, 0}, {-1, 2}, box) == std::nullopt);
  EXPECT_TRUE(part_within({-3, 0}, {0, 3.5}, box) == std::nullopt) << "past a corner";
  EXPECT_EQ(part_within({4, 2}, {4, 2}, box), (std::pair{0.0, 1.0})) << "a point on its corner";
}

}  // namespace
}  // namespace sightfall::geom
