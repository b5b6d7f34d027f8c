// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/label.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::draw {
namespace {

constexpr double kQuarter = M_PI / 4;

LabelRoom open_room(double width, double height) {
  return {{0, 0}, {width, height}, [](PagePoint) { return false; }};
}

TEST(Label, TurnedBoxesByPencil) {
  const TurnedBox box{{0, 0}, 10, 2, 0};
  EXPECT_TRUE(overlap(box, {{4, 0}, 10, 2, 0}));
  EXPECT_FALSE(overlap(box, {{10.5, 0}, 10, 2, 0}));
  EXPECT_FALSE(overlap(box, {{0, 2.5}, 10, 2, 0}));
  // A unit square on its corner reaches sqrt(1/2) to either side.
  EXPECT_FALSE(overlap(box, {{0, 1.72}, 1, 1, kQuarter}));
  EXPECT_TRUE(overlap(box, {{0, 1.69}, 1, 1, kQuarter}));
  // Two crossed bars overlap although no corner of one lies in the other.
  EXPECT_TRUE(overlap(box, {{0, 0}, 10, 2, 2 * kQuarter}));
}

TEST(Label, TheFirstComeKeepsItsPlaceAndTheLastIsLeftOut) {
  LabelRoom room = open_room(300, 200);
  int placed = 0;
  while (placed < 100 && room.place_beside({150, 100}, 5, "a mount", {})) ++placed;
  EXPECT_GT(placed, 2);
  EXPECT_LE(placed, 80);
  const auto& labels = room.placed();
  ASSERT_EQ(labels.size(), static_cast<size_t>(placed));
  EXPECT_GT(labels.front().box.middle.x, 150) << "the first goes to the right";
  EXPECT_TRUE(labels.front().leader.empty());
  EXPECT_FALSE(labels.back().leader.empty()) << "the last stands off and needs a leader";
  for (size_t i = 0; i < labels.size(); ++i) {
    EXPECT_LE(labels[i].box.middle.x + labels[i].box.width / 2, 300);
    EXPECT_GE(labels[i].box.middle.x - labels[i].box.width / 2, 0);
    for (size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(labels[i].box, labels[j].box));
  }
}

TEST(Label, CrowdedGroundIsUsedOnlyWhenNothingElseIsLeft) {
  LabelRoom room = open_room(300, 100);
  room.crowd({{220, 50}, 140, 100, 0});
  ASSERT_TRUE(room.place_beside({150, 50}, 4, "wide words", {}));
  EXPECT_LT(room.placed()[0].box.middle.x, 150);
  LabelRoom narrow = open_room(300, 100);
  narrow.crowd({{150, 50}, 300, 100, 0});
  EXPECT_TRUE(narrow.place_beside({150, 50}, 4, "wide words", {}));
}

TEST(Label, CoveredGroundIsUsedBeforeCrowdedGround) {
  // A solid everywhere, and a line through the favourite place.
  LabelRoom room{{0, 0}, {300, 200}, [](PagePoint) { return true; }};
  room.crowd(line_shape({{150, 100}, {300, 100}}), 4);
  ASSERT_TRUE(room.place_beside({150, 100}, 4, "words", {}));
  EXPECT_FALSE(room.is_crowded(room.placed()[0].box));
  EXPECT_TRUE(room.is_covered(room.placed()[0].box));
}

TEST(Label, TheNextPointServesWhereTheFirstHasNoRoom) {
  LabelRoom room = open_room(300, 100);
  room.crowd(line_shape({{10, 20}, {10, 80}}), 130);
  ASSERT_TRUE(room.place_beside(std::vector<PagePoint>{{10, 50}, {200, 50}}, 4, "words", {}));
  EXPECT_GT(room.placed()[0].box.middle.x, 200);
}

TEST(Label, WordsKeepOffALeader) {
  LabelRoom room = open_room(400, 400);
  room.take({{200, 200}, 60, 60, 0});
  ASSERT_TRUE(room.place_beside({200, 200}, 10, "far", {.size = 10}));
  const auto leader = room.placed()[0].leader;
  ASSERT_EQ(leader.size(), 2U);
  EXPECT_TRUE(room.is_crowded(box_along(leader.front(), leader.back(), 1)));
}

TEST(Label, TakenGroundIsNeverUsed) {
  LabelRoom room = open_room(300, 100);
  room.take({{150, 50}, 300, 100, 0});
  EXPECT_FALSE(room.place_beside({150, 50}, 4, "words", {}));
  EXPECT_TRUE(room.placed().empty());
}

TEST(Label, TextHasItsSize) {
  const TextSize one = measured("125", {.size = 15}), twice = measured("125", {.size = 30});
  EXPECT_GT(one.width, 15);
  EXPECT_NEAR(twice.width, 2 * one.width, 0.1 * one.width);
  EXPECT_GT(measured("one two three four", {.size = 15, .wrap = 60}).height, 1.9 * one.height);
}

TEST(Label, ALeaderGoesRoundOtherWordsWhereItCan) {
  LabelRoom room{{0, 0}, {400, 400}, [](PagePoint) { return false; }};
  const PagePoint at{200, 200};
  // Signs all round, so that words must stand off; words to the right, where the first leader would go.
  room.take({at, 60, 60, 0});
  const TurnedBox words{{234, 200}, 6, 8, 0};
  ASSERT_TRUE(room.place_at(words, "x", {.size = 5}));
  ASSERT_TRUE(room.place_beside(at, 10, "far", {.size = 10}));
  const PlacedLabel& far = room.placed().back();
  ASSERT_EQ(far.leader.size(), 2U);
  const PagePoint along = far.leader.back() - far.leader.front();
  EXPECT_FALSE(overlap(
      {0.5 * (far.leader.front() + far.leader.back()), geom::norm(along), 1, std::atan2(along.y, along.x)}, words));
}

TEST(Label, ALeaderGoesRoundASignWhereItCan) {
  LabelRoom room = open_room(400, 400);
  const PagePoint at{200, 200};
  // Its own sign, so large that words must stand off; another's to the right, where the first leader would go.
  room.take({at, 60, 60, 0});
  const TurnedBox sign{{234, 200}, 6, 8, 0};
  room.take(sign);
  ASSERT_TRUE(room.place_beside(at, 10, "far", {.size = 10}));
  const PlacedLabel& far = room.placed().back();
  ASSERT_EQ(far.leader.size(), 2U);
  EXPECT_FALSE(overlap(box_along(far.leader.front(), far.leader.back(), 1), sign));
}

TEST(Label, WordsThatMayStrikeNothingAreLeftOutWhereTheirLeaderWould) {
  LabelRoom room = open_room(400, 400);
  const PagePoint at{200, 200};
  // A ring of others' signs: what stands beyond it has a leader through it.
  for (const PagePoint middle : {PagePoint{200, 185}, {200, 215}}) room.take({middle, 50, 4, 0});
  for (const PagePoint middle : {PagePoint{177, 200}, {223, 200}}) room.take({middle, 4, 34, 0});
  EXPECT_FALSE(room.place_beside(std::vector{at}, 5, "beyond the ring", {}, false));
  EXPECT_TRUE(room.place_beside(std::vector{at}, 5, "beyond the ring", {}));
}

}  // namespace
}  // namespace sightfall::draw
