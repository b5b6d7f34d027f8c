// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/plan_upload.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <png.h>
#include <turbojpeg.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <vector>

#include "serve/child.h"
#include "serve/plan_picture.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using video::Picture;

std::span<const uint8_t> bytes_of(const std::string& text) {
  return {reinterpret_cast<const uint8_t*>(text.data()), text.size()};
}

/// PNG bytes of pixels in one of libpng's simple formats.
std::string png(uint32_t columns, uint32_t rows, png_uint_32 format, const void* pixels, const void* colours = nullptr,
                png_uint_32 colour_count = 0) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = columns;
  image.height = rows;
  image.format = format;
  image.colormap_entries = colour_count;
  png_alloc_size_t size = 0;
  EXPECT_NE(png_image_write_to_memory(&image, nullptr, &size, 0, pixels, 0, colours), 0) << image.message;
  std::string bytes(size, '\0');
  EXPECT_NE(png_image_write_to_memory(&image, bytes.data(), &size, 0, pixels, 0, colours), 0) << image.message;
  bytes.resize(size);
  return bytes;
}

/// Noise, so that a picture cut short or damaged misses something.
std::vector<uint8_t> noise(size_t count) {
  std::mt19937 random(1);
  std::vector<uint8_t> bytes(count);
  for (uint8_t& byte : bytes) byte = static_cast<uint8_t>(random());
  return bytes;
}

std::string noisy_png(uint32_t columns, uint32_t rows) {
  return png(columns, rows, PNG_FORMAT_RGB, noise(size_t{3} * columns * rows).data());
}

std::string jpeg(int columns, int rows, const std::vector<uint8_t>& rgb) {
  tjhandle encoder = tjInitCompress();
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  EXPECT_EQ(tjCompress2(encoder, rgb.data(), columns, 0, rows, TJPF_RGB, &bytes, &size, TJSAMP_444, 100, 0), 0);
  std::string text(reinterpret_cast<const char*>(bytes), size);
  tjFree(bytes);
  tjDestroy(encoder);
  return text;
}

/// The same with what a camera writes of how it was held.
std::string held(const std::string& plain, char orientation, bool little) {
  const std::string tiff = little ? std::string("II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0", 18) + orientation +
                                        std::string("\0\0\0\0\0\0\0", 7)
                                  : std::string("MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0", 19) + orientation +
                                        std::string("\0\0\0\0\0\0", 6);
  const std::string segment = std::string("Exif\0\0", 6) + tiff;
  const size_t length = segment.size() + 2;
  return plain.substr(0, 2) + "\xFF\xE1" + static_cast<char>(length / 256) + static_cast<char>(length % 256) + segment +
         plain.substr(2);
}

/// A page of 200 x 100 points with a black square in its lower left corner.
std::string pdf() {
  const std::string drawing = "0 0 20 20 re f";
  return "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n"
         "2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n"
         "3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 100]/Contents 4 0 R/Resources<<>>>>endobj\n"
         "4 0 obj<</Length " +
         std::to_string(drawing.size()) + ">>stream\n" + drawing +
         "\nendstream endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n";
}

class PlanTest : public testing::Test {
 protected:
  PlanTest() {
    folder_ = fs::path(testing::TempDir()) /
              ("plan_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~PlanTest() override { fs::remove_all(folder_); }

  Reply put(const std::string& bytes, int page = 1) const {
    return put_plan((folder_ / "a.sightfall.json").string(), bytes, page);
  }
  std::string why(const std::string& bytes, int page = 1) const {
    const Reply reply = put(bytes, page);
    EXPECT_EQ(reply.status, 400);
    return file::print_json(reply.body);
  }
  Picture kept(const std::string& name) const {
    std::ifstream file(folder_ / name, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    const Result<Picture> picture = decode_png(bytes_of(text.str()));
    EXPECT_TRUE(picture.has_value()) << (picture ? "" : picture.error().text);
    return picture.value_or(Picture{});
  }
  size_t files() const {
    return static_cast<size_t>(std::distance(fs::directory_iterator(folder_), fs::directory_iterator{}));
  }

  fs::path folder_;
};

TEST_F(PlanTest, APngIsKeptPixelByPixelUnderANameOfOurs) {
  const std::vector<uint8_t> rgb = noise(size_t{3} * 7 * 5);
  const Reply first = put(png(7, 5, PNG_FORMAT_RGB, rgb.data()));
  ASSERT_EQ(first.status, 200) << file::print_json(first.body);
  EXPECT_EQ(first.body, (file::Value{file::Object{{"picture", "a.plan-1.png"}, {"columns", 7}, {"rows", 5}}}));
  EXPECT_EQ(kept("a.plan-1.png").rgb, rgb);
  EXPECT_EQ(file::print_json(put(noisy_png(2, 2)).body),
            file::print_json(file::Object{{"picture", "a.plan-2.png"}, {"columns", 2}, {"rows", 2}}));
  EXPECT_EQ(files(), 2U);
}

TEST_F(PlanTest, EveryKindOfPixelsBecomesPlainColour) {
  const std::vector<uint8_t> seen_through{10, 20, 30, 0, 10, 20, 30, 255};
  ASSERT_EQ(put(png(2, 1, PNG_FORMAT_RGBA, seen_through.data())).status, 200);
  EXPECT_EQ(kept("a.plan-1.png").rgb, (std::vector<uint8_t>{255, 255, 255, 10, 20, 30}));
  const std::vector<uint8_t> grey{0, 128, 255};
  ASSERT_EQ(put(png(3, 1, PNG_FORMAT_GRAY, grey.data())).status, 200);
  EXPECT_EQ(kept("a.plan-2.png").rgb, (std::vector<uint8_t>{0, 0, 0, 128, 128, 128, 255, 255, 255}));
  const std::vector<uint8_t> palette{9, 8, 7, 200, 100, 50}, index{1, 0};
  ASSERT_EQ(put(png(2, 1, PNG_FORMAT_RGB_COLORMAP, index.data(), palette.data(), 2)).status, 200);
  EXPECT_EQ(kept("a.plan-3.png").rgb, (std::vector<uint8_t>{200, 100, 50, 9, 8, 7}));
  const std::vector<uint16_t> deep{0, 65535, 0};
  ASSERT_EQ(put(png(1, 1, PNG_FORMAT_LINEAR_RGB, deep.data())).status, 200);
  EXPECT_EQ(kept("a.plan-4.png").rgb, (std::vector<uint8_t>{0, 255, 0}));
}

TEST_F(PlanTest, AJpegIsTurnedUpright) {
  // Left half red, right half blue, 16 x 8: on its side the red is above or below.
  std::vector<uint8_t> rgb;
  for (int row = 0; row < 8; ++row)
    for (int column = 0; column < 16; ++column)
      for (const int value : {column < 8 ? 255 : 0, 0, column < 8 ? 0 : 255})
        rgb.push_back(static_cast<uint8_t>(value));
  const std::string plain = jpeg(16, 8, rgb);
  const auto red = [](const Picture& picture, int column, int row) {
    return picture.rgb.at(3 * static_cast<size_t>(row * picture.columns + column)) > 128;
  };
  const Picture as_is = decode_jpeg(bytes_of(plain)).value();
  EXPECT_TRUE(red(as_is, 0, 0) && !red(as_is, 15, 7));
  for (const bool little : {false, true}) {
    const Picture half_turn = decode_jpeg(bytes_of(held(plain, 3, little))).value();
    EXPECT_TRUE(!red(half_turn, 0, 0) && red(half_turn, 15, 7)) << little;
    const Picture clockwise = decode_jpeg(bytes_of(held(plain, 6, little))).value();
    ASSERT_EQ(clockwise.columns, 8);
    EXPECT_TRUE(red(clockwise, 0, 0) && !red(clockwise, 0, 15)) << little;
    const Picture back = decode_jpeg(bytes_of(held(plain, 8, little))).value();
    EXPECT_TRUE(!red(back, 0, 0) && red(back, 0, 15)) << little;
  }
}

TEST_F(PlanTest, APageOfAPdfIsDrawn) {
  const Reply reply = put(pdf());
  ASSERT_EQ(reply.status, 200) << file::print_json(reply.body);
  const Picture picture = kept("a.plan-1.png");
  EXPECT_EQ(picture.columns, 4000);
  EXPECT_EQ(picture.rows, 2000);
  const auto at = [&](int column, int row) { return picture.rgb[3 * static_cast<size_t>(row * 4000 + column)]; };
  EXPECT_EQ(at(200, 1800), 0) << "the square, a tenth of the width";
  EXPECT_EQ(at(600, 1800), 255);
  EXPECT_EQ(at(200, 1400), 255);
}

TEST_F(PlanTest, WhatCannotBeReadIsRefusedAndNothingWritten) {
  EXPECT_THAT(why(""), HasSubstr("neither a PNG, a JPEG nor a PDF"));
  EXPECT_THAT(why("<svg xmlns='http://www.w3.org/2000/svg'/>"), HasSubstr("neither a PNG, a JPEG nor a PDF"));
  EXPECT_THAT(why("\x89PNG\r\n\x1a\n and then nothing of the kind"), HasSubstr("is a PNG that is cut short"));
  EXPECT_THAT(why("\xFF\xD8\xFF\xE0 and then nothing"), HasSubstr("is a JPEG that is cut short"));
  EXPECT_THAT(why("%PDF-1.7\nand then nothing"), HasSubstr("is a PDF of which page 1 cannot be drawn"));
  EXPECT_THAT(why(pdf(), 2), HasSubstr("page 2 cannot be drawn"));
  EXPECT_THAT(why(pdf(), 0), HasSubstr("allowed is 1 to"));
  EXPECT_THAT(why(std::string(kLargestPlan + 1, 'x')), HasSubstr("bytes; at most"));
  EXPECT_EQ(files(), 0U);
  EXPECT_EQ(put_plan("", noisy_png(2, 2), 1).status, 409);
}

TEST_F(PlanTest, DamagedPdfsAreDrawnOrRefused) {
  const std::string whole = pdf();
  std::minstd_rand random(1);
  size_t drawn = 0;
  constexpr size_t kTries = 24;
  for (size_t i = 0; i < kTries; ++i) {
    std::string damaged = whole.substr(0, i % 2 == 0 ? whole.size() : whole.size() - random() % whole.size());
    for (int flip = 0; flip < 4; ++flip) damaged[random() % damaged.size()] = static_cast<char>(random());
    const Reply reply = put(damaged);
    EXPECT_THAT(reply.status, testing::AnyOf(200, 400)) << damaged;
    if (reply.status == 200) ++drawn;
    EXPECT_EQ(files(), drawn) << "what is refused leaves nothing";
  }
  EXPECT_GT(drawn, 0U);
  EXPECT_LT(drawn, kTries);
}

TEST_F(PlanTest, PicturesBeyondTheLimitsAreRefusedByTheirHead) {
  EXPECT_THAT(why(png(12001, 1, PNG_FORMAT_GRAY, std::vector<uint8_t>(12001).data())), HasSubstr("12001 x 1 pixels"));
  // 12000 x 6667 of one colour: 80.004 million pixels in a few kilobytes.
  const std::string bomb = png(12000, 6667, PNG_FORMAT_GRAY, std::vector<uint8_t>(size_t{12000} * 6667).data());
  EXPECT_LT(bomb.size(), 200'000U);
  EXPECT_THAT(why(bomb), HasSubstr("12000 x 6667 pixels"));
  EXPECT_THAT(why(jpeg(12001, 1, std::vector<uint8_t>(size_t{3} * 12001))), HasSubstr("12001 x 1 pixels"));
  EXPECT_EQ(files(), 0U);
}

TEST_F(PlanTest, PicturesCutShortAreRefused) {
  const std::string whole_png = noisy_png(16, 16), whole_jpeg = jpeg(16, 16, noise(size_t{3} * 16 * 16));
  for (size_t size = 8; size < whole_png.size() - 12; size += 7)  // without the mark of the end all pixels are there
    EXPECT_FALSE(decode_png(bytes_of(whole_png.substr(0, size))).has_value()) << size;
  for (size_t size = 3; size < whole_jpeg.size() - 2; size += 7)
    EXPECT_FALSE(decode_jpeg(bytes_of(whole_jpeg.substr(0, size))).has_value()) << size;
}

/// Whatever is wrong with it, the answer is a picture of allowed size or a reason: the sanitizers watch.
TEST_F(PlanTest, DamagedPicturesEndInAPictureOrAReason) {
  const std::string whole_png = noisy_png(16, 16), whole_jpeg = held(jpeg(16, 16, noise(size_t{3} * 16 * 16)), 6, true);
  std::mt19937 random(7);
  int refused = 0;
  for (int i = 0; i < 4000; ++i) {
    std::string bytes = i % 2 == 0 ? whole_png : whole_jpeg;
    for (size_t flips = 1 + random() % 4; flips > 0; --flips)
      bytes[3 + random() % (bytes.size() - 3)] = static_cast<char>(random());
    const Result<Picture> picture = i % 2 == 0 ? decode_png(bytes_of(bytes)) : decode_jpeg(bytes_of(bytes));
    refused += picture ? 0 : 1;
    const Picture found = picture.value_or(Picture{});
    EXPECT_EQ(found.rgb.size(), size_t{3} * static_cast<size_t>(found.columns * found.rows));
  }
  EXPECT_GT(refused, 1000);
}

TEST(Child, IsKilledWhenItTakesTooLong) {
  ChildLimits limits;
  limits.time = std::chrono::milliseconds(100);
  const auto start = std::chrono::steady_clock::now();
  const Result<ChildResult> result = run_child("/bin/sleep", {"30"}, "", limits);
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->too_slow);
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(10));
}

TEST(Child, HasItsInputAndNothingOfOurs) {
  const Result<ChildResult> copy = run_child("/bin/cat", {}, std::string(100'000, 'x'));
  ASSERT_TRUE(copy.has_value());
  EXPECT_EQ(copy->status, 0);
  EXPECT_EQ(copy->output, std::string(100'000, 'x'));
  const Result<ChildResult> environment = run_child("/usr/bin/env", {}, "");
  ASSERT_TRUE(environment.has_value());
  EXPECT_EQ(environment->output, "LC_ALL=C.UTF-8\n");
  const Result<ChildResult> files = run_child("/bin/ls", {"/proc/self/fd"}, "");
  ASSERT_TRUE(files.has_value());
  EXPECT_EQ(files->output, "0\n1\n2\n3\n") << "its own three, and the folder that it lists";
}

TEST(Child, HasTheRoomThatItIsGiven) {
  const ChildRoom room{"/usr", {"NAME=value"}};
  EXPECT_EQ(run_child("/bin/pwd", {}, "", {}, room)->output, "/usr\n");
  EXPECT_EQ(run_child("/usr/bin/env", {}, "", {}, room)->output, "LC_ALL=C.UTF-8\nNAME=value\n");
}

TEST(Child, IsHeardWhileItRunsAndStoppedWhenAsked) {
  std::atomic<bool> stop{false};
  std::string heard;
  ChildRoom room;
  room.stop = &stop;
  room.hear = [&](std::string_view words) {
    heard = words;
    stop = !heard.empty();
  };
  const auto start = std::chrono::steady_clock::now();
  const Result<ChildResult> result = run_child("/bin/sh", {"-c", "echo begun >&2; exec sleep 15"}, "", {}, room);
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stopped);
  EXPECT_FALSE(result->too_slow);
  EXPECT_EQ(heard, "begun\n");
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(10));
}

TEST(Child, WritesNoMoreThanAllowed) {
  ChildLimits limits;
  limits.output = 10'000;
  const Result<ChildResult> result = run_child("/usr/bin/head", {"-c", "1000000", "/dev/zero"}, "", limits);
  ASSERT_TRUE(result.has_value());
  EXPECT_NE(result->status, 0);
  EXPECT_LE(result->output.size(), 10'000U);
}

TEST(Child, TakesNoMoreMemoryThanAllowed) {
  ChildLimits limits;
  limits.memory = size_t{64} << 20;
  const Result<ChildResult> result = run_child("/bin/dd", {"if=/dev/zero", "bs=256M", "count=1"}, "", limits);
  ASSERT_TRUE(result.has_value());
  EXPECT_NE(result->status, 0);
  EXPECT_TRUE(result->output.empty());
}

TEST(Child, AProgramThatIsNotThereIsTold) {
  const Result<ChildResult> result = run_child("/nowhere/program", {}, "");
  ASSERT_FALSE(result.has_value());
  EXPECT_THAT(result.error().text, HasSubstr("/nowhere/program cannot be run"));
}

}  // namespace
}  // namespace sightfall::serve
