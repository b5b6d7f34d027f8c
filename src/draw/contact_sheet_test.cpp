// SPDX-License-Identifier: GPL-3.0-or-later
// The contact sheet: pictures made smaller by their means, whole PNG files, the same input the same bytes.
#include "draw/contact_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::draw {
namespace {

using testing::ElementsAre;
using testing::StartsWith;

TEST(Smaller, EachPointIsTheMeanOfWhatItStandsFor) {
  const walk::Picture picture{4, 2, {0,  0, 0, 10, 0, 0, 100, 1, 2, 100, 1, 2,  //
                                     20, 0, 0, 30, 0, 0, 100, 1, 2, 100, 1, 2}};
  const walk::Picture small = smaller(picture, 2);
  EXPECT_EQ(small.columns, 2);
  EXPECT_EQ(small.rows, 1);
  EXPECT_THAT(small.rgb, ElementsAre(15, 0, 0, 100, 1, 2));
}

TEST(Smaller, OddSizesKeepTheirMeanBrightness) {
  walk::Picture picture{101, 37, std::vector<uint8_t>(3 * 101 * 37, 77)};
  for (const uint8_t value : smaller(picture, 30).rgb) EXPECT_EQ(value, 77);
}

TEST(Smaller, LeavesASmallPictureAsItIs) {
  const walk::Picture picture{2, 1, {1, 2, 3, 4, 5, 6}};
  EXPECT_EQ(smaller(picture, 10).rgb, picture.rgb);
}

std::string sheet_of(uint8_t grey) {
  const walk::Picture small{kSmallColumns, 270, std::vector<uint8_t>(3 * kSmallColumns * 270, grey)};
  const walk::Picture piece{kPieceColumns, kPieceRows, std::vector<uint8_t>(3 * kPieceColumns * kPieceRows, grey)};
  walk::Mark mark;
  const auto sheet = contact_sheet("camera on \"path\", night", "before compression",
                                   {{&mark, small, piece, {"10.0 m (33 ft)", "120 px/m in the picture"}}});
  EXPECT_TRUE(sheet);
  return sheet.value_or("");
}

TEST(ContactSheet, IsAWholePngAndTheSameForTheSame) {
  const std::string sheet = sheet_of(90);
  EXPECT_THAT(sheet, StartsWith("\x89PNG"));
  EXPECT_EQ(sheet.substr(sheet.size() - 8, 4), "IEND");
  EXPECT_EQ(sheet, sheet_of(90));
  EXPECT_NE(sheet, sheet_of(91));
}

}  // namespace
}  // namespace sightfall::draw
