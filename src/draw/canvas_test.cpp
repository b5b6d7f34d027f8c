// SPDX-License-Identifier: GPL-3.0-or-later
// Names of any script within lines of ours.
#include "draw/canvas.h"

#include <gtest/gtest.h>

#include "draw/files.h"

namespace sightfall::draw {
namespace {

constexpr const char* kTamil = "\u0BB5\u0BBE\u0B9A\u0BB2\u0BCD";

/// What a line looks like, as far as `width` from its beginning.
std::string drawn(const std::string& text, double width = 200) {
  const auto png = drawn_png({200, 40}, [&](Canvas& canvas) {
    canvas.within(rectangle({0, 0}, {width, 40}), [&] { canvas.letter_from(text, {}, {4, 8}); });
  });
  EXPECT_TRUE(png.has_value());
  return png ? *png : std::string{};
}

TEST(Lettering, ALineRunsToTheRightEvenIfTheFirstLettersOfItDoNot) {
  // A mark of direction in front, which has no shape of its own, sets the same (Unicode Standard Annex 9, rule P2).
  EXPECT_EQ(drawn("6 שער, 3.8 m, C6"), drawn("\u200E6 שער, 3.8 m, C6"));
}

TEST(Lettering, ALineStandsWhereItWouldWithoutAName) {
  const std::string name = std::string("x ") + kTamil;
  ASSERT_GT(measured(name, {}).height, measured("x", {}).height) << "a typeface that reaches higher";
  EXPECT_EQ(drawn(name, 12), drawn("x", 12));
}

TEST(Lettering, TheSignsOfASyllableComeFromOneTypeface) {
  // Two typefaces set the second sign beside a dotted circle of its own, which takes its room.
  const auto width = [](const std::string& text) { return measured(text, {}).width; };
  EXPECT_LT(width("\u0BB5\u0BBE"), width("\u0BB5") + width("\u0BBE"));
}

}  // namespace
}  // namespace sightfall::draw
