// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/encode.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cmath>
#include <limits>
#include <numeric>

#include "video/decode.h"
#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using namespace units;
using testing::HasSubstr;

constexpr std::array kBoth{Codec::kH264, Codec::kH265};

EncodeSettings settings_of(Codec codec, Rate rate) {
  EncodeSettings settings;
  settings.codec = codec;
  settings.frame_rate = 15.0 * Hz;
  settings.rate = rate;
  settings.keyframe_interval = 10;
  return settings;
}

bool is_there(const std::string& path) {
  struct stat status {};
  return stat(path.c_str(), &status) == 0;
}

Result<StreamFacts> write(const std::string& path, const std::vector<Picture>& clip, const EncodeSettings& settings) {
  Result<Encoder> encoder = Encoder::open(path, clip.front().columns, clip.front().rows, settings);
  if (!encoder) return tl::make_unexpected(encoder.error());
  for (const Picture& picture : clip)
    if (Result<void> added = encoder->add(picture); !added) return tl::make_unexpected(added.error());
  return encoder->finish();
}

TEST(Encode, AtFineQualityGivesNearlyThePicturesBack) {
  const std::vector<Picture> clip = clip_of({320, 180, 1}, 12);
  for (const Codec codec : kBoth) {
    const auto encoded = encode(clip, settings_of(codec, FreeQuality{4}), Back::kPicturesToo);
    ASSERT_TRUE(encoded) << encoded.error().text;
    ASSERT_EQ(encoded->pictures.size(), clip.size());
    for (size_t i = 0; i < clip.size(); ++i) EXPECT_GT(psnr(encoded->pictures[i], clip[i]), 40) << name_of(codec) << i;
    EXPECT_LT(psnr(encoded->pictures[0], clip[5]), 30) << "each picture in its own place";
  }
}

TEST(Encode, LosesMoreTheCoarserItIs) {
  const std::vector<Picture> clip = clip_of({320, 180, 1}, 6);
  for (const Codec codec : kBoth) {
    double finer = std::numeric_limits<double>::infinity(), lower = -1;
    for (const double factor : {10.0, 23.0, 36.0}) {
      const auto encoded = encode(clip, settings_of(codec, FreeQuality{factor}), Back::kPicturesToo);
      const double quality = psnr(encoded->pictures.back(), clip.back());
      EXPECT_LT(quality, finer - 1) << name_of(codec) << factor;
      EXPECT_GT(encoded->quantisers.back(), lower + 4) << name_of(codec) << factor;
      finer = quality;
      lower = encoded->quantisers.back();
    }
  }
}

TEST(Encode, TellsAQuantiserOfEachFrame) {
  const std::vector<Picture> clip = clip_of({320, 180, 2}, 24);
  for (const Codec codec : kBoth)
    for (const Rate& rate : {Rate{FreeQuality{25}}, Rate{ConstantRate{300.0 * kbit / s}}}) {
      const auto encoded = encode(clip, settings_of(codec, rate));
      ASSERT_EQ(encoded->quantisers.size(), clip.size());
      for (const double quantiser : encoded->quantisers) {
        EXPECT_GE(quantiser, 0) << name_of(codec);
        EXPECT_LE(quantiser, 51) << name_of(codec);
      }
      EXPECT_TRUE(encoded->pictures.empty()) << "nobody asked for them";
    }
}

TEST(Encode, LeavesAGreyPictureGrey) {
  const std::vector<Picture> clip = clip_of({320, 180, 2, true}, 3);
  for (const Codec codec : kBoth) {
    const auto encoded = encode(clip, settings_of(codec, FreeQuality{30}), Back::kPicturesToo);
    const std::vector<uint8_t>& rgb = encoded->pictures.back().rgb;
    for (size_t i = 0; i < rgb.size(); i += 3) ASSERT_TRUE(rgb[i] == rgb[i + 1] && rgb[i] == rgb[i + 2]) << i;
  }
}

TEST(Encode, KeepsOddSizesInMemoryAndGrowsThemInTheStream) {
  const std::vector<Picture> clip = clip_of({65, 49, 1}, 3);
  for (const Codec codec : kBoth) {
    const auto encoded = encode(clip, settings_of(codec, FreeQuality{8}), Back::kPicturesToo);
    ASSERT_TRUE(encoded) << encoded.error().text;
    EXPECT_EQ(encoded->facts.columns, 66);
    EXPECT_EQ(encoded->facts.rows, 50);
    EXPECT_EQ(encoded->pictures.back().columns, 65);
    EXPECT_GT(psnr(encoded->pictures.back(), clip.back()), 35);
  }
}

TEST(Encode, TakesTheSmallestPictures) {
  for (const Codec codec : kBoth) EXPECT_TRUE(encode(clip_of({16, 16, 1}, 2), settings_of(codec, FreeQuality{20})));
}

TEST(Encode, GivesTheSameBytesAgainAndWithAnyThreads) {
  const std::vector<Picture> clip = clip_of({320, 180, 3}, 40);
  const std::string path = scratch("a.mp4");
  for (const Codec codec : kBoth)
    for (const Rate& rate :
         {Rate{FreeQuality{25}}, Rate{ConstantRate{400.0 * kbit / s}}, Rate{CappedQuality{20, 400.0 * kbit / s}}}) {
      std::vector<uint8_t> first;
      for (const int threads : {1, 1, 2, 5}) {
        EncodeSettings settings = settings_of(codec, rate);
        settings.threads = threads;
        ASSERT_TRUE(write(path, clip, settings));
        const std::vector<uint8_t> bytes = bytes_of(path);
        if (first.empty()) first = bytes;
        EXPECT_GT(bytes.size(), 1000U);
        EXPECT_TRUE(bytes == first) << name_of(codec) << " rate " << rate.index() << ", " << threads << " threads";
      }
    }
  std::remove(path.c_str());
}

TEST(Encode, InMemoryIsWhatStandsInTheFile) {
  const std::vector<Picture> clip = clip_of({320, 180, 2}, 20);
  const std::string path = scratch("a.mp4");
  for (const Codec codec : kBoth) {
    const EncodeSettings settings = settings_of(codec, FreeQuality{25});
    const auto encoded = encode(clip, settings, Back::kPicturesToo);
    ASSERT_TRUE(write(path, clip, settings));
    size_t next = 0;
    const auto clip_read = read(path, [&](const Picture& picture) {
      EXPECT_EQ(picture, encoded->pictures.at(next++));
      return true;
    });
    EXPECT_EQ(clip_read->facts.sizes, encoded->facts.sizes);
    EXPECT_EQ(next, clip.size());
  }
  std::remove(path.c_str());
}

TEST(Encode, WhatIsAbandonedLeavesNoFile) {
  const std::string path = scratch("a.mp4");
  {
    auto encoder = Encoder::open(path, 64, 64, settings_of(Codec::kH264, FreeQuality{25}));
    ASSERT_TRUE(encoder->add(picture_of({64, 64}, 0)));
    EXPECT_TRUE(is_there(path + ".part"));
  }
  EXPECT_FALSE(is_there(path + ".part"));
  EXPECT_FALSE(is_there(path));
}

TEST(Encode, OfNoPicturesIsAnError) {
  EXPECT_THAT(encode({}, {}).error().text, HasSubstr("no pictures"));
  const std::string path = scratch("a.mp4");
  EXPECT_THAT(Encoder::open(path, 64, 64, {})->finish().error().text, HasSubstr("no pictures"));
  EXPECT_FALSE(is_there(path));
}

TEST(Encode, WhereNothingCanBeWrittenIsAnErrorWithThePath) {
  const std::string path = scratch("no_folder") + "/a.mp4";
  const auto encoder = Encoder::open(path, 64, 64, {});
  ASSERT_FALSE(encoder);
  EXPECT_EQ(encoder.error().kind, ErrorKind::kWrite);
  EXPECT_EQ(encoder.error().where.file, path);
  EXPECT_THAT(encoder.error().text, HasSubstr("No such file or directory"));
}

TEST(Encode, OutOfRangeIsToldWithItsLimits) {
  const auto told = [](int columns, int rows, const EncodeSettings& settings) {
    const auto encoder = Encoder::open(scratch("a.mp4"), columns, rows, settings);
    return encoder ? std::string("it was taken") : encoder.error().text;
  };
  EXPECT_EQ(told(8, 64, {}), "the width is 8 px; 16 to 16384 is allowed");
  EXPECT_EQ(told(64, 20000, {}), "the height is 20000 px; 16 to 16384 is allowed");
  EXPECT_THAT(told(16384, 16384, {}), HasSubstr("the picture is"));
  EncodeSettings settings;
  settings.frame_rate = Frequency{std::nan("")};
  EXPECT_EQ(told(64, 64, settings), "the frame rate is nan Hz; 0.1 to 240 is allowed");
  EXPECT_EQ(told(64, 64, settings_of(Codec::kH264, FreeQuality{52})), "the quality factor is 52; 1 to 51 is allowed");
  EXPECT_EQ(told(64, 64, settings_of(Codec::kH265, ConstantRate{1.0 * kbit / s})),
            "the rate is 1 kbit/s; 16 to 800000 is allowed");
  EXPECT_EQ(told(64, 64, settings_of(Codec::kH265, CappedQuality{20, DataRate{}})),
            "the rate is 0 kbit/s; 16 to 800000 is allowed");
  settings = {};
  settings.keyframe_interval = 0;
  EXPECT_EQ(told(64, 64, settings), "the keyframe interval is 0 frames; 1 to 10000 is allowed");
  settings = {};
  settings.threads = 0;
  EXPECT_EQ(told(64, 64, settings), "the number of threads is 0; 1 to 64 is allowed");
}

TEST(EncodeDeathTest, OfAPictureOfAnotherSizeIsOurMistake) {
  auto encoder = Encoder::open(scratch("a.mp4"), 64, 64, {});
  EXPECT_DEATH((void)encoder->add(picture_of({32, 32}, 0)), "broken promise");
}

}  // namespace
}  // namespace sightfall::video
