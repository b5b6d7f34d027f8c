// SPDX-License-Identifier: GPL-3.0-or-later
// Clips as recorders hand them over: the same frames in other containers, put there by libavformat alone.
extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

#include <gtest/gtest.h>

#include <cstdio>

#include "video/decode.h"
#include "video/encode.h"
#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using namespace units;

/// Copies the only stream of a clip, coded frame by coded frame.
void copy(const std::string& from, const std::string& to, const char* format) {
  AVFormatContext *in = nullptr, *out = nullptr;
  ASSERT_EQ(avformat_open_input(&in, from.c_str(), nullptr, nullptr), 0);
  ASSERT_GE(avformat_find_stream_info(in, nullptr), 0);
  ASSERT_GE(avformat_alloc_output_context2(&out, nullptr, format, nullptr), 0);
  AVStream* stream = avformat_new_stream(out, nullptr);
  avcodec_parameters_copy(stream->codecpar, in->streams[0]->codecpar);
  stream->codecpar->codec_tag = 0;
  stream->avg_frame_rate = in->streams[0]->avg_frame_rate;
  stream->time_base = av_inv_q(stream->avg_frame_rate);
  ASSERT_GE(avio_open(&out->pb, to.c_str(), AVIO_FLAG_WRITE), 0);
  ASSERT_GE(avformat_write_header(out, nullptr), 0);
  AVPacket* packet = av_packet_alloc();
  while (av_read_frame(in, packet) >= 0) {
    av_packet_rescale_ts(packet, in->streams[0]->time_base, stream->time_base);
    EXPECT_GE(av_interleaved_write_frame(out, packet), 0);
  }
  EXPECT_GE(av_write_trailer(out), 0);
  av_packet_free(&packet);
  avio_closep(&out->pb);
  avformat_free_context(out);
  avformat_close_input(&in);
}

struct Kind {
  const char* format;
  Codec codec;
};

class Containers : public testing::TestWithParam<Kind> {};

TEST_P(Containers, ChangeNeitherFactsNorPictures) {
  const std::string path = scratch("a.mp4"), other = scratch(std::string("b.") + GetParam().format);
  auto encoder = Encoder::open(path, 160, 90, {GetParam().codec, 12.5 * Hz, FreeQuality{25}, 10, 1});
  ASSERT_TRUE(encoder) << to_line(encoder.error());
  for (const Picture& picture : clip_of({160, 90, 2}, 25)) ASSERT_TRUE(encoder->add(picture));
  ASSERT_TRUE(encoder->finish());
  copy(path, other, GetParam().format);
  std::vector<Picture> pictures;
  const auto expected = read(path, [&](Picture picture) { return pictures.push_back(std::move(picture)), true; });
  size_t next = 0;
  const auto found = read(other, [&](const Picture& picture) { return picture == pictures.at(next++); });
  ASSERT_TRUE(found) << to_line(found.error());
  EXPECT_EQ(found->pictures, 25);
  EXPECT_EQ(found->facts.codec, expected->facts.codec);
  EXPECT_EQ(found->facts.frames, 25);
  EXPECT_EQ(found->facts.keyframe_interval, 10);
  EXPECT_NEAR(found->facts.frame_rate.in(Hz), 12.5, 0.01);
  // Parameter sets and marks between frames stand in some containers' frames, a hundred bytes each at most.
  const DataRate marks = 100.0 * byte * (12.5 * Hz);
  EXPECT_GE(found->facts.mean, expected->facts.mean * 0.99);
  EXPECT_LE(found->facts.mean, expected->facts.mean + marks);
  std::remove(path.c_str());
  std::remove(other.c_str());
}

INSTANTIATE_TEST_SUITE_P(Of, Containers,
                         testing::Values(Kind{"mov", Codec::kH264}, Kind{"matroska", Codec::kH264},
                                         Kind{"mpegts", Codec::kH264}, Kind{"matroska", Codec::kH265},
                                         Kind{"mpegts", Codec::kH265}),
                         [](const auto& about) {
                           return std::string(about.param.format) +
                                  (about.param.codec == Codec::kH264 ? "H264" : "H265");
                         });

}  // namespace
}  // namespace sightfall::video
