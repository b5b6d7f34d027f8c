// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/height_text.h"

#include <gtest/gtest.h>

namespace sightfall::import {
namespace {

using namespace sightfall::units;

TEST(HeightText, metres_with_and_without_their_unit) {
  for (const char* text : {"8", "8.0", " 8 m", "8m", "8 metres", "8 meter", "0.8e1"})
    EXPECT_EQ(height_of_text(text), 8 * m) << text;
}

TEST(HeightText, feet_and_inches) {
  EXPECT_NEAR(height_of_text("26 ft")->in(m), 7.9248, 1e-12);
  EXPECT_NEAR(height_of_text("26'")->in(m), 7.9248, 1e-12);
  EXPECT_NEAR(height_of_text("26'6\"")->in(m), 8.0772, 1e-12);
}

TEST(HeightText, what_is_no_height_is_none) {
  for (const char* text : {"", " ", "about 8", "8,5", "8-9", "8 storeys", "m", "nan", "inf", "1e400", "26'13\"", "26'6",
                           "'", "26'\"", "-3", "0", "1001", "8 m m"})
    EXPECT_FALSE(height_of_text(text)) << text;
}

TEST(HeightText, a_length_may_be_below_zero) { EXPECT_EQ(length_of_text("-0.3"), -0.3 * m); }

TEST(HeightText, a_tag_is_found_among_others) {
  const char* tags = R"("addr:street"=>"He said \"=>\"","height"=>"8 m","roof:shape"=>"flat")";
  EXPECT_EQ(tag_value(tags, "height"), "8 m");
  EXPECT_EQ(tag_value(tags, "roof:shape"), "flat");
  EXPECT_EQ(tag_value(tags, "addr:street"), R"(He said "=>")");
  EXPECT_FALSE(tag_value(tags, "flat"));
}

TEST(HeightText, broken_tag_lists_hold_nothing) {
  for (const char* tags : {"", "height", R"("height)", R"("height")", R"("height"=>)", R"("height"=>"8)",
                           R"("a"=>"b"\)", R"("a"=>"b",,)", R"("height"=>NULL)"})
    EXPECT_FALSE(tag_value(tags, "height")) << tags;
}

}  // namespace
}  // namespace sightfall::import
