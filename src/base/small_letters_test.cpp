// SPDX-License-Identifier: GPL-3.0-or-later
// Text in small letters.
#include "base/small_letters.h"

#include <gtest/gtest.h>

namespace sightfall {
namespace {

TEST(SmallLetters, AreThoseOfAsciiAlone) {
  EXPECT_EQ(in_small_letters("PoE Class 3, IP66"), "poe class 3, ip66");
  EXPECT_EQ(in_small_letters("\u00c4[@`{Z"), "\u00c4[@`{z");
  EXPECT_EQ(in_small_letters(""), "");
}

}  // namespace
}  // namespace sightfall
