// SPDX-License-Identifier: GPL-3.0-or-later
// The file by other eyes: its boxes read here by hand must tell the same as this room does.
//   Source  ISO/IEC 14496-12 (boxes, stsd, stsz, stss, mdhd), 14496-15 (avc1, hvc1), from memory
#include <gtest/gtest.h>

#include <cstdio>
#include <numeric>
#include <span>
#include <string>

#include "video/encode.h"
#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using namespace units;
using Bytes = std::span<const uint8_t>;

uint32_t number(Bytes bytes, size_t at, size_t length = 4) {
  uint32_t value = 0;
  for (const uint8_t byte : bytes.subspan(at, length)) value = value << 8 | byte;
  return value;
}

std::string name_at(Bytes bytes, size_t at) {
  const Bytes name = bytes.subspan(at, 4);
  return {name.begin(), name.end()};
}

/// What is inside the box that a path of names leads to.
Bytes box(Bytes bytes, const std::vector<std::string>& path) {
  for (const std::string& name : path) {
    size_t at = 0;
    while (at + 8 <= bytes.size() && name_at(bytes, at + 4) != name) at += std::max(8U, number(bytes, at));
    if (at + 8 > bytes.size()) return ADD_FAILURE() << "no box " << name, Bytes{};
    bytes = bytes.subspan(at + 8, number(bytes, at) - 8);
  }
  return bytes;
}

class Boxes : public testing::TestWithParam<Codec> {};

TEST_P(Boxes, AgreeOnCodecSizeFramesAndTimes) {
  const std::string path = scratch("a.mp4");
  auto encoder = Encoder::open(path, 162, 90, {GetParam(), 12.5 * Hz, FreeQuality{25}, 10, 1});
  ASSERT_TRUE(encoder) << to_line(encoder.error());
  for (const Picture& picture : clip_of({162, 90, 2}, 25)) ASSERT_TRUE(encoder->add(picture));
  const StreamFacts facts = *encoder->finish();
  const std::vector<uint8_t> file = bytes_of(path);
  const Bytes media = box(file, {"moov", "trak", "mdia"});
  const Bytes table = box(media, {"minf", "stbl"});

  const Bytes kind = box(table, {"stsd"});
  EXPECT_EQ(name_at(kind, 12), GetParam() == Codec::kH264 ? "avc1" : "hvc1");
  EXPECT_EQ(number(kind, 40, 2), 162U);
  EXPECT_EQ(number(kind, 42, 2), 90U);

  const Bytes sizes = box(table, {"stsz"});
  ASSERT_EQ(number(sizes, 8), 25U);
  for (size_t i = 0; i < 25; ++i) EXPECT_EQ(number(sizes, 12 + 4 * i) * byte, facts.sizes[i]) << i;

  const Bytes keys = box(table, {"stss"});
  ASSERT_EQ(number(keys, 4), 3U);
  for (size_t i = 0; i < 3; ++i) EXPECT_EQ(number(keys, 8 + 4 * i), 1 + 10 * i);

  const Bytes head = box(media, {"mdhd"});
  EXPECT_EQ(number(head, 4), 0U) << "no date of making, or equal clips would differ";
  EXPECT_NEAR(static_cast<double>(number(head, 16)) / number(head, 12), 2, 1e-3) << "seconds";
  std::remove(path.c_str());
}

// ITU-T H.273: 1 is BT.709 for primaries, transfer and matrix; the last bit is full range.
TEST_P(Boxes, SayHowColoursAreMeant) {
  const std::string path = scratch("a.mp4");
  auto encoder = Encoder::open(path, 162, 90, {GetParam(), 12.5 * Hz, FreeQuality{25}, 10, 1});
  ASSERT_TRUE(encoder) << to_line(encoder.error());
  ASSERT_TRUE(encoder->add(picture_of({162, 90, 2}, 0)));
  ASSERT_TRUE(encoder->finish());
  const std::vector<uint8_t> file = bytes_of(path);
  const Bytes kind = box(file, {"moov", "trak", "mdia", "minf", "stbl", "stsd"});
  constexpr size_t kEntry = 16, kVisual = 78;  // heads of the table, and of the entry before its own boxes
  const Bytes colour = box(kind.subspan(kEntry + kVisual), {"colr"});
  EXPECT_EQ(name_at(colour, 0), "nclx");
  for (const size_t at : {4U, 6U, 8U}) EXPECT_EQ(number(colour, at, 2), 1U);
  EXPECT_EQ(number(colour, 10, 1) >> 7, 0U);
  std::remove(path.c_str());
}

INSTANTIATE_TEST_SUITE_P(Of, Boxes, testing::Values(Codec::kH264, Codec::kH265),
                         [](const auto& about) { return about.param == Codec::kH264 ? "H264" : "H265"; });

}  // namespace
}  // namespace sightfall::video
