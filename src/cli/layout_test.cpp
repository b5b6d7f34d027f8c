// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/layout.h"

#include <gtest/gtest.h>

namespace sightfall::cli {
namespace {

TEST(Layout, CountsCodePointsNotBytes) {
  EXPECT_EQ(columns_of("gate"), 4U);
  EXPECT_EQ(columns_of("Grüße"), 5U);
  EXPECT_EQ(columns_of(""), 0U);
}

TEST(Layout, BreaksAtBlanksAndKeepsLineEnds) {
  using Lines = std::vector<std::string>;
  EXPECT_EQ(broken("one two three", 7), (Lines{"one two", "three"}));
  EXPECT_EQ(broken("one two three", 6), (Lines{"one", "two", "three"}));
  EXPECT_EQ(broken("a unbreakable b", 4), (Lines{"a", "unbreakable", "b"}));
  EXPECT_EQ(broken("above\nbelow", 40), (Lines{"above", "below"}));
  EXPECT_EQ(broken("  two   blanks ", 40), (Lines{"two blanks"}));
  EXPECT_EQ(broken("", 40), (Lines{""}));
}

TEST(Layout, WrapsBehindAnIndent) {
  EXPECT_EQ(wrapped("one two three", 2, 9), "  one two\n  three\n");
  EXPECT_EQ(wrapped("one two three", 4, 3), "    one\n    two\n    three\n");
}

TEST(Layout, LinesColumnsUpWithoutTrailingBlanks) {
  EXPECT_EQ(table({{"need", "share"}, {"a face", "5 %"}, {"x", "100 %"}}),
            "need    share\n"
            "a face  5 %\n"
            "x       100 %\n");
  EXPECT_EQ(table({{"a", ""}, {"bb", ""}}), "a\nbb\n");
}

TEST(Layout, SetsColumnsFlushRight) {
  EXPECT_EQ(table({{"m", "px/m"}, {"5", "1200"}, {"10", "90"}}, {0, 1}),
            " m  px/m\n"
            " 5  1200\n"
            "10    90\n");
}

TEST(Layout, LinesUpByCodePoints) {
  EXPECT_EQ(table({{"Tür", "met"}, {"gate", "missed"}}), "Tür   met\ngate  missed\n");
}

TEST(Layout, NarrowsTheFirstColumnWhereTheTableIsTooWide) {
  const auto rows = table_rows({{"need", "verdict"}, {"face of anyone who walks in", "missed"}}, {}, 30);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0], "need                   verdict\n");
  EXPECT_EQ(rows[1], "face of anyone who     missed\nwalks in\n");
}

TEST(Layout, NarrowsTheFirstColumnNoFurtherThanItCanBeRead) {
  const auto rows = table_rows({{"face of anyone who walks in", "missed"}}, {}, 5);
  EXPECT_EQ(rows[0], "face of anyone    missed\nwho walks in\n");
  const auto narrow = table_rows({{"face", "a long second column"}}, {}, 5);
  EXPECT_EQ(narrow[0], "face  a long second column\n");
}

TEST(Layout, SetsMeaningsBehindTheirTerms) {
  EXPECT_EQ(described_list({{"--need NAME", "judge this need alone; more than once"}, {"--json", "as JSON"}}, 43),
            "  --need NAME  judge this need alone; more\n"
            "               than once\n"
            "  --json       as JSON\n");
}

}  // namespace
}  // namespace sightfall::cli
