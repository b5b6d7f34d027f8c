// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/decode.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <random>

#include "video/encode.h"
#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using namespace units;
using testing::HasSubstr;

constexpr std::array kBoth{Codec::kH264, Codec::kH265};

StreamFacts write(const std::string& path, Codec codec, int frames, Frequency rate, int interval) {
  auto encoder = Encoder::open(path, 160, 90, {codec, rate, FreeQuality{25}, interval, 1});
  for (const Picture& picture : clip_of({160, 90, 2}, frames)) EXPECT_TRUE(encoder->add(picture));
  return *encoder->finish();
}

bool any(const Picture&) { return true; }

void expect_same(const StreamFacts& a, const StreamFacts& b) {
  EXPECT_EQ(a.codec, b.codec);
  EXPECT_EQ(a.columns, b.columns);
  EXPECT_EQ(a.rows, b.rows);
  EXPECT_EQ(a.frames, b.frames);
  EXPECT_EQ(a.sizes, b.sizes);
  EXPECT_EQ(a.keyframe_interval, b.keyframe_interval);
  EXPECT_NEAR(a.frame_rate / b.frame_rate, 1, 1e-6);
  EXPECT_NEAR(a.duration / b.duration, 1, 1e-6);
  EXPECT_NEAR(a.mean / b.mean, 1, 1e-6);
  EXPECT_NEAR(a.peak / b.peak, 1, 1e-6);
}

TEST(Decode, FindsWhatWasAskedOfTheEncoder) {
  const std::string path = scratch("a.mp4");
  for (const Codec codec : kBoth)
    for (const double rate : {12.5, 30000 / 1001.0, 1.0}) {
      const StreamFacts written = write(path, codec, 35, rate * Hz, 15);
      const auto facts = facts_of(path);
      ASSERT_TRUE(facts) << facts.error().text;
      EXPECT_EQ(facts->codec, codec);
      EXPECT_EQ(facts->columns, 160);
      EXPECT_EQ(facts->rows, 90);
      EXPECT_EQ(facts->frames, 35);
      EXPECT_EQ(facts->keyframe_interval, 15);
      EXPECT_NEAR(facts->frame_rate.in(Hz), rate, 1e-4 * rate);
      EXPECT_NEAR(facts->duration.in(s), 35 / rate, 1e-3);
      expect_same(*facts, written);
    }
  std::remove(path.c_str());
}

TEST(Decode, HandsOverEveryPictureUnlessStopped) {
  const std::string path = scratch("a.mp4");
  const StreamFacts written = write(path, Codec::kH264, 20, 15.0 * Hz, 10);
  const auto all = read(path, any);
  ASSERT_TRUE(all) << all.error().text;
  EXPECT_EQ(all->pictures, 20);
  expect_same(all->facts, written);
  int seen = 0;
  const auto some = read(path, [&](const Picture&) { return ++seen < 7; });
  EXPECT_EQ(some->pictures, 7);
  EXPECT_EQ(seen, 7);
  expect_same(some->facts, written);
  std::remove(path.c_str());
}

void expect_named(const Error& error, ErrorKind kind, const std::string& path) {
  EXPECT_EQ(error.kind, kind) << error.text;
  EXPECT_EQ(error.where.file, path);
  EXPECT_FALSE(error.text.empty());
}

TEST(Decode, OfNoFileOrAFolderIsAnError) {
  const std::string path = scratch("none.mp4");
  expect_named(facts_of(path).error(), ErrorKind::kMissingFile, path);
  EXPECT_EQ(read(path, any).error().text, "there is no such file");
  expect_named(facts_of(testing::TempDir()).error(), ErrorKind::kMissingFile, testing::TempDir());
}

// Each ends somewhere else: in the frames, in the table of frames at the end, in the head.
TEST(Decode, OfACutFileIsAnError) {
  const std::string path = scratch("a.mp4");
  for (const Codec codec : kBoth) {
    write(path, codec, 20, 15.0 * Hz, 10);
    const std::vector<uint8_t> whole = bytes_of(path);
    for (size_t part = 0; part < 40; ++part) {
      const size_t kept = whole.size() * part / 40;
      write_bytes(path, {whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(kept)});
      const auto facts = facts_of(path);
      ASSERT_FALSE(facts) << kept << " of " << whole.size();
      expect_named(facts.error(), facts.error().kind, path);
      EXPECT_THAT(facts.error().text, HasSubstr("cut short"));
    }
  }
  std::remove(path.c_str());
}

// The table of frames stands at the end; blanks in the middle leave it whole and take the frames.
TEST(Decode, OfAFileWithAHoleIsAnErrorOnceItsPicturesAreAskedFor) {
  const std::string path = scratch("a.mp4");
  for (const Codec codec : kBoth) {
    write(path, codec, 20, 15.0 * Hz, 10);
    std::vector<uint8_t> bytes = bytes_of(path);
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(bytes.size() / 3), 400, uint8_t{0});
    write_bytes(path, bytes);
    const auto clip = read(path, any);
    ASSERT_FALSE(clip);
    expect_named(clip.error(), ErrorKind::kSyntax, path);
    EXPECT_THAT(clip.error().text, HasSubstr("damaged near frame"));
  }
  std::remove(path.c_str());
}

TEST(Decode, OfFlippedBitsNeverCrashes) {
  const std::string path = scratch("a.mp4");
  std::mt19937 chance(7);
  for (const Codec codec : kBoth) {
    write(path, codec, 4, 15.0 * Hz, 2);
    const std::vector<uint8_t> whole = bytes_of(path);
    int errors = 0;
    for (int round = 0; round < 100; ++round) {
      std::vector<uint8_t> bytes = whole;
      for (int flip = 0; flip < 8; ++flip) bytes[chance() % bytes.size()] ^= static_cast<uint8_t>(1U << chance() % 8);
      write_bytes(path, bytes);
      const auto clip = read(path, any);
      if (!clip) expect_named(clip.error(), clip.error().kind, path);
      errors += clip ? 0 : 1;
    }
    EXPECT_GT(errors, 50) << name_of(codec);
  }
  std::remove(path.c_str());
}

TEST(Decode, OfRandomBytesIsAnError) {
  const std::string path = scratch("a.mp4");
  std::mt19937 chance(3);
  for (int round = 0; round < 60; ++round) {
    std::vector<uint8_t> bytes(chance() % 5000);
    for (uint8_t& byte : bytes) byte = static_cast<uint8_t>(chance());
    write_bytes(path, bytes);
    const auto clip = read(path, any);
    ASSERT_FALSE(clip);
    expect_named(clip.error(), clip.error().kind, path);
  }
  std::remove(path.c_str());
}

// A playlist would have the library open what it names.
TEST(Decode, OpensNothingThatAFileNames) {
  const std::string clip = scratch("a.mp4"), list = scratch("list.m3u8");
  write(clip, Codec::kH264, 4, 15.0 * Hz, 2);
  const std::string text = "#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n" + clip + "\n#EXT-X-ENDLIST\n";
  write_bytes(list, {text.begin(), text.end()});
  const auto facts = facts_of(list);
  ASSERT_FALSE(facts);
  EXPECT_THAT(facts.error().text, HasSubstr("no clip that is read here"));
  EXPECT_FALSE(facts_of("concat:" + clip));
  std::remove(clip.c_str());
  std::remove(list.c_str());
}

TEST(Decode, PrintsNothing) {
  const std::string path = scratch("a.mp4");
  testing::internal::CaptureStderr();
  testing::internal::CaptureStdout();
  for (const Codec codec : kBoth) {
    write(path, codec, 20, 15.0 * Hz, 10);
    std::vector<uint8_t> bytes = bytes_of(path);
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(bytes.size() / 3), 400, uint8_t{0});
    write_bytes(path, bytes);
    EXPECT_FALSE(read(path, any));
    EXPECT_FALSE(facts_of(path + "x"));
  }
  EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
  std::remove(path.c_str());
}

}  // namespace
}  // namespace sightfall::video
