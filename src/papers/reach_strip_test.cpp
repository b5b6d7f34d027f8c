// SPDX-License-Identifier: GPL-3.0-or-later
// The strip of reaches: distances by their logarithm.
#include "papers/reach_strip.h"

#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

TEST(ReachStrip, EqualRatiosAreEqualStretches) {
  EXPECT_NEAR(strip_at(Length{10}) - strip_at(Length{2}), strip_at(Length{50}) - strip_at(Length{10}), 1e-9);
  EXPECT_LT(strip_at(Length{1}), strip_at(Length{1.01}));
}

TEST(ReachStrip, EndsAreKept) {
  EXPECT_EQ(strip_at(Length{0.2}), strip_at(Length{1}));
  EXPECT_EQ(strip_at(Length{std::numeric_limits<double>::infinity()}), strip_at(Length{200}));
}

TEST(ReachStrip, HasARowForEachLevelOfTheFirstTable) {
  card::RangeCard card;
  card.reach = {{"ours", "a", Length{1}, Length{20}, {}}, {"ours", "b", {}, {}, {}}, {"other", "c", {}, {}, {}}};
  const int two = reach_strip(card, need::Units::kMetres).size.height;
  card.reach.pop_back();
  EXPECT_EQ(reach_strip(card, need::Units::kMetres).size.height, two);
  card.reach.pop_back();
  EXPECT_LT(reach_strip(card, need::Units::kMetres).size.height, two);
}

}  // namespace
}  // namespace sightfall::papers
