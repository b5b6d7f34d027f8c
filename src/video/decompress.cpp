// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/decompress.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavutil/mem.h>
}

#include <fmt/format.h>

#include <cstring>
#include <utility>

#include "base/check.h"
#include "video/freed.h"
#include "video/pixels.h"
#include "video/quiet.h"

namespace sightfall::video {
namespace {

using Context = Owned<AVCodecContext, avcodec_free_context>;
using Frame = Owned<AVFrame, av_frame_free>;
using AvPacket = Owned<AVPacket, av_packet_free>;

AVCodecID id_of(Codec codec) { return codec == Codec::kH264 ? AV_CODEC_ID_H264 : AV_CODEC_ID_HEVC; }

/// A copy with the padding that libavcodec's readers may run into.
uint8_t* padded(const std::vector<uint8_t>& bytes) {
  auto* copy = static_cast<uint8_t*>(av_mallocz(bytes.size() + AV_INPUT_BUFFER_PADDING_SIZE));
  CHECK_EQ(copy == nullptr, false);
  if (!bytes.empty()) std::memcpy(copy, bytes.data(), bytes.size());
  return copy;
}

bool damaged(const AVFrame& frame) {
  return frame.decode_error_flags != 0 || (frame.flags & AV_FRAME_FLAG_CORRUPT) != 0;
}

PlaneKind kind_of(const AVFrame& frame) {
  return {frame.width, frame.height, frame.format, frame.colorspace, frame.color_range == AVCOL_RANGE_JPEG};
}

PlanesIn planes_of(const AVFrame& frame) {
  PlanesIn planes;
  for (size_t i = 0; i < planes.begin.size(); ++i) {
    planes.begin.at(i) = frame.data[i];
    planes.stride.at(i) = frame.linesize[i];
  }
  return planes;
}

}  // namespace

struct Decompressor::Impl {
  Context context;
  int columns = 0, rows = 0;
  FromPlanes from_planes;
  Frame frame{av_frame_alloc()};
  AvPacket packet{av_packet_alloc()};
  int given = 0;

  tl::unexpected<Error> failed(const std::string& why) const {
    return failure(ErrorKind::kSyntax, fmt::format("it is damaged near frame {}: {}", given + 1, why));
  }
};

void Decompressor::Close::operator()(Impl* impl) const { std::default_delete<Impl>{}(impl); }

Decompressor::Decompressor(std::unique_ptr<Impl, Close> impl) : impl_{std::move(impl)} {}

Result<Decompressor> Decompressor::open(const StreamHead& head) {
  const Quiet quiet;
  const AVCodec* codec = avcodec_find_decoder(id_of(head.codec));
  if (codec == nullptr)
    return failure(ErrorKind::kRequest,
                   fmt::format("this system's libavcodec does not decode {}", name_of(head.codec)));
  Context context{avcodec_alloc_context3(codec)};
  context->thread_count = 1;  // many clips at once use the processor better, and damage is told where it is
  context->err_recognition = AV_EF_EXPLODE | AV_EF_CRCCHECK | AV_EF_BITSTREAM | AV_EF_BUFFER;
  context->max_pixels = kMostPixels;
  context->extradata = padded(head.parameters);
  context->extradata_size = static_cast<int>(head.parameters.size());
  if (const int code = avcodec_open2(context.get(), codec, nullptr); code < 0)
    return failure(ErrorKind::kSyntax, fmt::format("its parameter sets cannot be read: {}", quiet.said(code)));
  auto impl = std::make_unique<Impl>(Impl{std::move(context), head.columns, head.rows, {}});
  return Decompressor{std::unique_ptr<Impl, Close>{impl.release()}};
}

Result<void> Decompressor::drain(const Take& take) {
  const Quiet quiet;
  const AVFrame& frame = *impl_->frame;
  while (true) {
    const int code = avcodec_receive_frame(impl_->context.get(), impl_->frame.get());
    if (code == AVERROR(EAGAIN) || code == AVERROR_EOF) return {};
    if (code < 0) return impl_->failed(quiet.said(code));
    if (damaged(frame)) return impl_->failed("parts of it are missing");
    if (frame.width != impl_->columns || frame.height != impl_->rows)
      return impl_->failed(fmt::format("its pictures are {}x{}, and {}x{} was announced", frame.width, frame.height,
                                       impl_->columns, impl_->rows));
    Result<Picture> picture = impl_->from_planes.convert(planes_of(frame), kind_of(frame));
    if (!picture) return tl::make_unexpected(picture.error());
    ++impl_->given;
    take(std::move(*picture));
  }
}

Result<void> Decompressor::add(const Packet& packet, const Take& take) {
  const Quiet quiet;
  AVPacket& coded = *impl_->packet;
  av_packet_unref(&coded);
  if (const int code = av_new_packet(&coded, static_cast<int>(packet.bytes.size())); code < 0)
    return impl_->failed(quiet.said(code));
  if (!packet.bytes.empty()) std::memcpy(coded.data, packet.bytes.data(), packet.bytes.size());
  coded.pts = packet.shown;
  coded.dts = packet.decoded;
  if (packet.key) coded.flags |= AV_PKT_FLAG_KEY;
  if (const int code = avcodec_send_packet(impl_->context.get(), &coded); code < 0)
    return impl_->failed(quiet.said(code));
  return drain(take);
}

Result<void> Decompressor::finish(const Take& take) {
  const Quiet quiet;
  if (const int code = avcodec_send_packet(impl_->context.get(), nullptr); code < 0)
    return impl_->failed(quiet.said(code));
  return drain(take);
}

}  // namespace sightfall::video
