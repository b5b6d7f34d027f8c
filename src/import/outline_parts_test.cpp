// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/outline_parts.h"

#include <gtest/gtest.h>

namespace sightfall::import {
namespace {

geom::Ring rectangle(double x, double y, double width, double depth) {
  return {{x, y}, {x + width, y}, {x + width, y + depth}, {x, y + depth}};
}

double area(const Joined& whole) {
  double sum = 0;
  for (const geom::Outline& outline : whole.outlines) sum += geom::area(outline).si();
  return sum;
}

TEST(Joined, a_sound_outline_stays_as_it_is_but_for_its_millimetres) {
  const Joined whole = joined({{{{0, 0}, {10.00049, 0}, {10, 4}, {0, 4}}, {rectangle(2, 1, 2, 2)}}});
  ASSERT_EQ(whole.outlines.size(), 1U);
  EXPECT_EQ(whole.outlines[0].outer[1], (geom::PlanPoint{10, 0}));
  EXPECT_EQ(whole.outlines[0].holes.size(), 1U);
  EXPECT_DOUBLE_EQ(area(whole), 36);
  EXPECT_EQ(whole.repaired + whole.dropped, "");
}

TEST(Joined, parts_that_touch_become_one) {
  // Two triangles of a square, and a rectangle along half of one side.
  const Joined whole =
      joined({{{{0, 0}, {4, 0}, {4, 4}}, {}}, {{{0, 0}, {4, 4}, {0, 4}}, {}}, {rectangle(4, 1, 3, 2), {}}});
  ASSERT_EQ(whole.outlines.size(), 1U);
  EXPECT_NEAR(area(whole), 16 + 6, 1e-9);
  EXPECT_EQ(whole.repaired, "");
}

TEST(Joined, parts_that_overlap_count_once) {
  EXPECT_NEAR(area(joined({{rectangle(0, 0, 4, 4), {}}, {rectangle(2, 2, 4, 4), {}}})), 16 + 16 - 4, 1e-9);
}

TEST(Joined, parts_apart_stay_apart) {
  const Joined whole = joined({{rectangle(0, 0, 4, 4), {}}, {rectangle(10, 0, 2, 2), {}}});
  EXPECT_EQ(whole.outlines.size(), 2U);
  EXPECT_NEAR(area(whole), 20, 1e-9);
}

TEST(Joined, parts_around_a_yard_leave_it_open) {
  const Joined whole = joined({{rectangle(0, 0, 10, 2), {}},
                               {rectangle(0, 8, 10, 2), {}},
                               {rectangle(0, 2, 2, 6), {}},
                               {rectangle(8, 2, 2, 6), {}}});
  ASSERT_EQ(whole.outlines.size(), 1U);
  EXPECT_EQ(whole.outlines[0].holes.size(), 1U);
  EXPECT_NEAR(area(whole), 100 - 36, 1e-9);
}

TEST(Joined, both_halves_of_a_crossed_outline_count_and_the_repair_is_told) {
  const Joined whole = joined({{{{0, 0}, {4, 4}, {4, 0}, {0, 4}}, {}}});
  EXPECT_NEAR(area(whole), 8, 1e-9) << "two triangles of 4 wide and 2 deep";
  EXPECT_NE(whole.repaired.find("Self-intersection"), std::string::npos) << whole.repaired;
  for (const geom::Outline& outline : whole.outlines) EXPECT_FALSE(geom::flaw(outline));
}

TEST(Joined, a_hole_beyond_its_outline_is_repaired) {
  const Joined whole = joined({{rectangle(0, 0, 4, 4), {rectangle(3, 1, 2, 2)}}});
  EXPECT_FALSE(whole.outlines.empty());
  EXPECT_NE(whole.repaired, "");
  for (const geom::Outline& outline : whole.outlines) EXPECT_FALSE(geom::flaw(outline));
}

TEST(Joined, what_has_no_area_is_dropped_with_its_reason) {
  for (const geom::Ring& ring :
       {geom::Ring{}, geom::Ring{{1, 1}}, geom::Ring{{0, 0}, {5, 0}}, geom::Ring{{0, 0}, {5, 0}, {10, 0}},
        rectangle(0, 0, 0.05, 0.05), geom::Ring{{0, 0}, {1e-5, 0}, {0, 1e-5}}}) {
    const Joined whole = joined({{ring, {}}});
    EXPECT_TRUE(whole.outlines.empty());
    EXPECT_NE(whole.dropped, "");
  }
  EXPECT_NE(joined({}).dropped, "");
}

TEST(Joined, repeated_corners_and_the_closing_one_are_dropped) {
  const Joined whole = joined({{{{0, 0}, {0, 0}, {4, 0}, {4, 4}, {4, 4.0002}, {0, 4}, {0, 0}}, {}}});
  ASSERT_EQ(whole.outlines.size(), 1U);
  EXPECT_EQ(whole.outlines[0].outer.size(), 4U);
}

}  // namespace
}  // namespace sightfall::import
