// SPDX-License-Identifier: GPL-3.0-or-later
// Expected fills are worked out by pencil; limits from NEC chapter 9 table 1 (from memory).
#include "loads/conduit.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

using namespace units;

TEST(Conduit, FillIsTheAreasOfCablesOverTheBore) {
  // Four of 7 mm in 20 mm: 4 x 49 / 400.
  const Ranged<double> share = fill({7 * mm, 7 * mm, 7 * mm, 7 * mm}, 20 * mm);
  EXPECT_NEAR(share.nominal, 0.49, 1e-12);
  EXPECT_NEAR(share.low, 0.49 * 0.81, 1e-12);
  EXPECT_NEAR(share.high, 0.49 * 1.21, 1e-12);
}

TEST(Conduit, MixedCablesAddUp) { EXPECT_NEAR(fill({3 * mm, 4 * mm}, 10 * mm).nominal, 0.25, 1e-12); }

TEST(Conduit, TwoMayTakeLessThanOneOrThree) {
  EXPECT_DOUBLE_EQ(most_fill(1), 0.53);
  EXPECT_DOUBLE_EQ(most_fill(2), 0.31);
  EXPECT_DOUBLE_EQ(most_fill(3), 0.40);
  EXPECT_DOUBLE_EQ(most_fill(30), 0.40);
}

TEST(Conduit, TheBoreThatWouldDoHoldsEvenThickCables) {
  for (size_t count = 1; count <= 12; ++count) {
    const std::vector<Length> cables(count, 7 * mm);
    const Length bore = bore_for(cables);
    EXPECT_NEAR(fill(cables, bore).high, most_fill(static_cast<int>(count)), 1e-12);
  }
}

TEST(Conduit, BendsAddUpWhicheverWayTheyTurn) {
  EXPECT_NEAR(bends({{0, 0}, {5, 0}}).in(units::deg), 0, 1e-9);
  EXPECT_NEAR(bends({{0, 0}, {5, 0}, {9, 0}}).in(units::deg), 0, 1e-9);
  EXPECT_NEAR(bends({{0, 0}, {5, 0}, {5, 5}, {9, 5}}).in(units::deg), 180, 1e-9);
  EXPECT_NEAR(bends({{0, 0}, {5, 0}, {6, 1}}).in(units::deg), 45, 1e-9);
  EXPECT_NEAR(bends({{0, 0}, {5, 0}, {0, 0}}).in(units::deg), 180, 1e-9);
}

}  // namespace
}  // namespace sightfall::loads
