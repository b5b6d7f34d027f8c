// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/png.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using testing::HasSubstr;

constexpr size_t kKindOfColour = 25;  // where IHDR has it: ISO/IEC 15948, 11.2.2 (from memory)

TEST(Png, GivesEveryPixelBack) {
  for (const bool grey : {false, true})
    for (const auto& [columns, rows] : {std::pair{1, 1}, {7, 3}, {320, 180}, {319, 181}}) {
      const Picture picture = picture_of({columns, rows, 3, grey}, 0);
      const auto bytes = png_of(picture);
      ASSERT_TRUE(bytes) << bytes.error().text;
      const auto back = picture_of_png(*bytes);
      ASSERT_TRUE(back) << back.error().text;
      EXPECT_EQ(*back, picture) << columns << "x" << rows;
      EXPECT_EQ(bytes->at(kKindOfColour), grey ? 0 : 2);
    }
}

TEST(Png, OfOneColouredPixelAmongGreyOnesIsColoured) {
  Picture picture = picture_of({64, 64, 3, true}, 0);
  picture.rgb.back() ^= 1;
  const auto bytes = png_of(picture);
  EXPECT_EQ(bytes->at(kKindOfColour), 2);
  EXPECT_EQ(*picture_of_png(*bytes), picture);
}

TEST(Png, IsTheSameForTheSamePicture) {
  const Picture picture = picture_of({320, 180, 3}, 0);
  EXPECT_EQ(*png_of(picture), *png_of(picture));
}

TEST(Png, NeedsPixels) {
  const auto bytes = png_of(Picture{});
  ASSERT_FALSE(bytes);
  EXPECT_EQ(bytes.error().kind, ErrorKind::kTooLarge);
  EXPECT_THAT(bytes.error().text, HasSubstr("0x0"));
}

TEST(Png, CutShortAnywhereIsAnError) {
  const auto bytes = png_of(picture_of({40, 30, 3}, 0));
  for (size_t kept = 0; kept + 12 < bytes->size(); kept += 7) {  // its last 12 bytes only say that it ends
    const auto back = picture_of_png(std::span{*bytes}.first(kept));
    ASSERT_FALSE(back) << kept << " of " << bytes->size();
    EXPECT_THAT(back.error().text, HasSubstr("cut short or damaged"));
  }
}

TEST(Png, WithAFlippedBitIsAnErrorAndNeverACrash) {
  const auto bytes = png_of(picture_of({40, 30, 3}, 0));
  constexpr size_t kFirstData = 57;  // signature, IHDR and pHYs are behind
  for (size_t at = kFirstData; at + 16 < bytes->size(); at += 11) {
    auto flipped = *bytes;
    flipped[at] ^= 0x10;
    EXPECT_FALSE(picture_of_png(flipped)) << at;
  }
}

TEST(Png, OfRandomBytesIsAnError) {
  std::mt19937 chance(1);
  for (int round = 0; round < 200; ++round) {
    std::vector<uint8_t> bytes(chance() % 400);
    for (uint8_t& byte : bytes) byte = static_cast<uint8_t>(chance());
    EXPECT_FALSE(picture_of_png(bytes));
  }
}

// 1x1, sixteen bits of grey; made with zlib and CRC-32 by Python's zlib module.
TEST(Png, OfOtherPixelsSaysWhichAreAllowed) {
  const std::vector<uint8_t> sixteen{0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48,
                                     0x44, 0x52, 0x00, 0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x10, 0x00, 0x00, 0x00,
                                     0x00, 0x6a, 0xee, 0x47, 0x16, 0x00, 0x00, 0x00, 0x0b, 0x49, 0x44, 0x41, 0x54, 0x78,
                                     0x9c, 0x63, 0x10, 0x32, 0x01, 0x00, 0x00, 0x5b, 0x00, 0x47, 0x96, 0xfb, 0x1b, 0x65,
                                     0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82};
  const auto back = picture_of_png(sixteen);
  ASSERT_FALSE(back);
  EXPECT_EQ(back.error().kind, ErrorKind::kField);
  EXPECT_THAT(back.error().text, HasSubstr("gray16be; eight bits of grey or of RGB are allowed"));
}

}  // namespace
}  // namespace sightfall::video
