// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/words.h"

#include <gtest/gtest.h>

#include <array>

#include "file/utf8.h"

namespace sightfall::file {
namespace {

TEST(Words, QuotesCannotDisturbATerminal) {
  EXPECT_EQ(in_quotes("a\x1b[31m\"\\"), R"("a\u001b[31m\"\\")");
  EXPECT_EQ(in_quotes("\xC2\x9B"
                      "1m"),
            R"("\xc2\x9b1m")");  // the one-character form of escape [
  EXPECT_EQ(in_quotes("caf\xE9"), R"("caf\xe9")");
  EXPECT_EQ(in_quotes("café 漢"), "\"café 漢\"");
}

TEST(Words, LongQuotesAreCutBetweenCharacters) {
  std::string text = "x";
  for (int i = 0; i < 100; ++i) text += "é";
  const std::string quote = in_quotes(text);
  EXPECT_LT(quote.size(), 80U);
  EXPECT_TRUE(quote.ends_with("é...\"")) << quote;
}

TEST(Words, WhatWasFoundIsShownWhenShort) {
  EXPECT_EQ(found(List{1, "a", true}), "[1, \"a\", true]");
  EXPECT_EQ(found(List{1, 2, 3, 4, 5}), "a list of 5");
  EXPECT_EQ(found(List{List{}}), "a list of 1");
  EXPECT_EQ(found(Value{}), "null");
  EXPECT_EQ(found(Object{}), "an object");
}

TEST(Words, TheNearestNameIsSuggested) {
  constexpr std::array<std::string_view, 4> kNames{"height_m", "headings_deg", "focal_mm", "contrast_face"};
  EXPECT_EQ(nearest("hieght_m", kNames), "height_m");
  EXPECT_EQ(nearest("heading", kNames), "headings_deg");
  EXPECT_EQ(nearest("focal", kNames), "focal_mm");
  EXPECT_EQ(nearest("contrast_fase", kNames), "contrast_face");
  EXPECT_EQ(nearest("brand", kNames), std::nullopt);
  EXPECT_EQ(nearest(std::string(100000, 'h'), kNames), std::nullopt);
}

TEST(Words, LongListsOfNamesAreCut) {
  const std::vector<std::string_view> names(20, "n");
  EXPECT_TRUE(listed(names).ends_with("\"n\" and 4 more")) << listed(names);
}

TEST(Utf8, KnowsCharactersFromOtherBytes) {
  EXPECT_EQ(character_length("a"), 1U);
  EXPECT_EQ(character_length("é"), 2U);
  EXPECT_EQ(character_length("漢"), 3U);
  EXPECT_EQ(character_length("😀"), 4U);
  for (const char* bytes : {"", "\x80", "\xC3", "\xC3x", "\xE6\xBC", "\xC0\x80", "\xFF"})
    EXPECT_EQ(character_length(bytes), 0U) << bytes;
}

}  // namespace
}  // namespace sightfall::file
