// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/grid_plan.h"

#include <gtest/gtest.h>

#include <random>

namespace sightfall::import {
namespace {

std::vector<bool> cells(const std::string& text) {
  std::vector<bool> set;
  for (const char c : text)
    if (c != ' ') set.push_back(c == '#');
  return set;
}

/// By trying every rectangle.
int largest_by_trying(const std::vector<bool>& set, int columns, int rows) {
  int best = 0;
  for (int top = 0; top < rows; ++top)
    for (int left = 0; left < columns; ++left)
      for (int bottom = top; bottom < rows; ++bottom)
        for (int right = left; right < columns; ++right) {
          bool all = true;
          for (int row = top; row <= bottom; ++row)
            for (int column = left; column <= right; ++column)
              all = all && set[static_cast<size_t>(row) * static_cast<size_t>(columns) + static_cast<size_t>(column)];
          if (all) best = std::max(best, (bottom - top + 1) * (right - left + 1));
        }
  return best;
}

TEST(LargestBlock, of_a_diamond) {
  const Block block = largest_block(cells("..#.. .###. ##### .###. ..#.."), 5);
  EXPECT_EQ(block.column, 1);
  EXPECT_EQ(block.row, 1);
  EXPECT_EQ(block.columns, 3);
  EXPECT_EQ(block.rows, 3);
}

TEST(LargestBlock, of_everything_and_of_nothing) {
  EXPECT_EQ(largest_block(cells("### ###"), 3).columns, 3);
  EXPECT_EQ(largest_block(cells("### ###"), 3).rows, 2);
  EXPECT_EQ(largest_block(cells("... ..."), 3).columns, 0);
  EXPECT_EQ(largest_block({}, 0).rows, 0);
}

TEST(LargestBlock, agrees_with_trying_every_rectangle) {
  constexpr unsigned kSeed = 7;
  std::mt19937 random{kSeed};
  constexpr int kColumns = 7, kRows = 6;
  for (int round = 0; round < 300; ++round) {
    std::vector<bool> set(static_cast<size_t>(kColumns * kRows));
    for (auto cell : set) cell = random() % 4 != 0;
    const Block block = largest_block(set, kColumns);
    ASSERT_EQ(block.columns * block.rows, largest_by_trying(set, kColumns, kRows))
        << "seed " << kSeed << " round " << round;
    for (int row = block.row; row < block.row + block.rows; ++row)
      for (int column = block.column; column < block.column + block.columns; ++column)
        ASSERT_TRUE(set[static_cast<size_t>(row * kColumns + column)]) << "round " << round;
  }
}

}  // namespace
}  // namespace sightfall::import
