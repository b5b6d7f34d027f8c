// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/pixels.h"

extern "C" {
#include <libavutil/pixfmt.h>
}

#include <gtest/gtest.h>

#include <cmath>

#include "video/test_scene.h"

namespace sightfall::video {
namespace {

struct Planes {
  int columns, rows;
  std::vector<uint8_t> y, u, v;

  explicit Planes(int wide, int high)
      : columns{wide}, rows{high}, y(size_of(wide, high)), u(size_of(wide / 2, high / 2)), v(u) {}
  static size_t size_of(int wide, int high) { return static_cast<size_t>(wide) * static_cast<size_t>(high); }
  PlanesOut out() { return {{y.data(), u.data(), v.data()}, {columns, columns / 2, columns / 2}}; }
  PlanesIn in() const { return {{y.data(), u.data(), v.data()}, {columns, columns / 2, columns / 2}}; }
};

Picture flat(int columns, int rows, std::array<uint8_t, 3> colour) {
  Picture picture{columns, rows, {}};
  for (int i = 0; i < columns * rows; ++i) picture.rgb.insert(picture.rgb.end(), colour.begin(), colour.end());
  return picture;
}

PlaneKind limited(int columns, int rows) { return {columns, rows, AV_PIX_FMT_YUV420P, AVCOL_SPC_BT709, false}; }

// ITU-R BT.709-6, items 3.2-3.4 and 4.6 (from memory).
TEST(Pixels, OfFlatColoursFollowTheStandard) {
  for (const std::array<uint8_t, 3> rgb :
       {std::array<uint8_t, 3>{0, 0, 0}, {255, 255, 255}, {255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {40, 90, 200}}) {
    Planes planes(32, 16);
    IntoPlanes(32, 16).convert(flat(32, 16, rgb), planes.out());
    const double luma = 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    EXPECT_NEAR(planes.y[100], 16 + 219 * luma / 255, 1);
    EXPECT_NEAR(planes.u[30], 128 + 224 * (rgb[2] - luma) / 1.8556 / 255, 1);
    EXPECT_NEAR(planes.v[30], 128 + 224 * (rgb[0] - luma) / 1.5748 / 255, 1);
  }
}

TEST(Pixels, ComeBackWithinALevelWhereTheyAreGrey) {
  Picture ramp{256, 16, {}};
  for (int i = 0; i < 256 * 16; ++i) ramp.rgb.insert(ramp.rgb.end(), 3, static_cast<uint8_t>(i % 256));
  Planes planes(256, 16);
  IntoPlanes(256, 16).convert(ramp, planes.out());
  const auto back = FromPlanes().convert(planes.in(), limited(256, 16));
  ASSERT_TRUE(back);
  for (size_t i = 0; i < ramp.rgb.size(); ++i) ASSERT_NEAR(back->rgb[i], ramp.rgb[i], 1) << i;
}

TEST(Pixels, ComeBackWithinThreeLevelsWhereColourIsFlat) {
  for (const std::array<uint8_t, 3> rgb : {std::array<uint8_t, 3>{200, 30, 60}, {20, 220, 120}, {40, 90, 200}}) {
    Planes planes(32, 16);
    IntoPlanes(32, 16).convert(flat(32, 16, rgb), planes.out());
    const auto back = FromPlanes().convert(planes.in(), limited(32, 16));
    for (size_t i = 0; i < back->rgb.size(); ++i) ASSERT_NEAR(back->rgb[i], rgb.at(i % 3), 3) << i;
  }
}

TEST(Pixels, OfOddSizesRepeatTheLastColumnAndRow) {
  const Picture odd = picture_of({33, 17, 4, true}, 0);
  Planes planes(34, 18);
  IntoPlanes(33, 17).convert(odd, planes.out());
  for (size_t row = 0; row < 18; ++row) EXPECT_EQ(planes.y[34 * row + 33], planes.y[34 * row + 32]);
  for (size_t column = 0; column < 34; ++column) EXPECT_EQ(planes.y[34 * 17 + column], planes.y[34 * 16 + column]);
}

TEST(Pixels, AreReadByTheRangeThatIsStated) {
  Planes planes(32, 16);
  std::fill(planes.y.begin(), planes.y.end(), uint8_t{128});
  std::fill(planes.u.begin(), planes.u.end(), uint8_t{128});
  std::fill(planes.v.begin(), planes.v.end(), uint8_t{128});
  PlaneKind kind = limited(32, 16);
  FromPlanes from;
  EXPECT_NEAR(from.convert(planes.in(), kind)->rgb[50], 255 * (128 - 16) / 219.0, 1);
  kind.full_range = true;
  EXPECT_NEAR(from.convert(planes.in(), kind)->rgb[50], 128, 1) << "the same converter, of another kind of planes";
}

TEST(Pixels, AreReadByTheMatrixThatIsStated) {
  Planes planes(32, 16);
  IntoPlanes(32, 16).convert(flat(32, 16, {200, 30, 60}), planes.out());
  PlaneKind kind = limited(32, 16);
  const auto by_709 = FromPlanes().convert(planes.in(), kind);
  kind.matrix = AVCOL_SPC_UNSPECIFIED;
  EXPECT_EQ(*FromPlanes().convert(planes.in(), kind), *by_709) << "where none is stated";
  kind.matrix = AVCOL_SPC_SMPTE170M;
  EXPECT_GT(std::abs(FromPlanes().convert(planes.in(), kind)->rgb[1] - by_709->rgb[1]), 10);
}

TEST(Pixels, OfAnUnknownKindAreAnError) {
  const Planes planes(32, 16);
  PlaneKind kind = limited(32, 16);
  kind.format = AV_PIX_FMT_VAAPI;
  EXPECT_FALSE(FromPlanes().convert(planes.in(), kind));
}

}  // namespace
}  // namespace sightfall::video
