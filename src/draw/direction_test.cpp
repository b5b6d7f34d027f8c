// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers behind names that are written from right to left, after Unicode Standard Annex 9.
#include "draw/direction.h"

#include <gtest/gtest.h>

namespace sightfall::draw {
namespace {

TEST(Direction, ANumberBehindANameThatRunsTheOtherWayStaysBehindIt) {
  EXPECT_EQ(kept_in_order("بوابة 2.8 m"), "بوابة\u200E 2.8 m");
  EXPECT_EQ(kept_in_order("שער, 12 m to שער 3"), "שער\u200E, 12 m to שער\u200E 3");
}

TEST(Direction, WhatIsInOrderStaysAsItIs) {
  const std::string once = kept_in_order("بوابة 2.8 m");
  EXPECT_EQ(kept_in_order(once), once);
}

TEST(Direction, NothingElseIsChanged) {
  for (const char* text : {"", "gate 2.8 m", "باب الدار", "شجرة tree 3", "門 2", "ворота 2", "2 بوابة"})
    EXPECT_EQ(kept_in_order(text), text);
  EXPECT_EQ(kept_in_order("\xFF 2"), "\xFF 2") << "no text at all";
}

}  // namespace
}  // namespace sightfall::draw
