// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/mp4_writer.h"

extern "C" {
#include <libavformat/avformat.h>
#include <libavutil/mem.h>
}

#include <fmt/format.h>

#include <cstdio>
#include <cstring>
#include <utility>

#include "base/check.h"
#include "video/freed.h"
#include "video/quiet.h"

namespace sightfall::video {
namespace {

using AvPacket = Owned<AVPacket, av_packet_free>;

struct CloseOutput {
  void operator()(AVFormatContext* file) const {
    avio_closep(&file->pb);
    avformat_free_context(file);
  }
};

void describe(AVStream& stream, const StreamHead& head) {
  AVCodecParameters& parameters = *stream.codecpar;
  parameters.codec_type = AVMEDIA_TYPE_VIDEO;
  parameters.codec_id = head.codec == Codec::kH264 ? AV_CODEC_ID_H264 : AV_CODEC_ID_HEVC;
  // Parameter sets stand in the file's head alone, which is what hvc1 says and what more players take.
  if (head.codec == Codec::kH265) parameters.codec_tag = MKTAG('h', 'v', 'c', '1');
  parameters.width = head.columns;
  parameters.height = head.rows;
  parameters.color_range = AVCOL_RANGE_MPEG;
  parameters.color_space = AVCOL_SPC_BT709;
  parameters.color_primaries = AVCOL_PRI_BT709;
  parameters.color_trc = AVCOL_TRC_BT709;
  const size_t size = head.parameters.size();
  parameters.extradata = static_cast<uint8_t*>(av_mallocz(size + AV_INPUT_BUFFER_PADDING_SIZE));
  CHECK_EQ(parameters.extradata == nullptr, false);
  std::memcpy(parameters.extradata, head.parameters.data(), size);
  parameters.extradata_size = static_cast<int>(size);
  stream.time_base = {static_cast<int>(head.tick_numerator), static_cast<int>(head.tick_denominator)};
  stream.avg_frame_rate = av_inv_q(stream.time_base);
}

}  // namespace

struct Mp4Writer::Impl {
  std::string path;
  AVRational tick{};
  std::unique_ptr<AVFormatContext, CloseOutput> file;
  AvPacket packet{av_packet_alloc()};
  bool opened = false, whole = false;

  Impl(std::string where, const StreamHead& head)
      : path{std::move(where)}, tick{static_cast<int>(head.tick_numerator), static_cast<int>(head.tick_denominator)} {}
  ~Impl() {
    file.reset();
    if (opened && !whole) std::remove(part().c_str());
  }
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;

  std::string part() const { return path + ".part"; }
  tl::unexpected<Error> failed(const std::string& why) const {
    return failure(ErrorKind::kWrite, fmt::format("it cannot be written: {}", why), {path, {}, {}});
  }
};

void Mp4Writer::Close::operator()(Impl* impl) const { std::default_delete<Impl>{}(impl); }

Mp4Writer::Mp4Writer(std::unique_ptr<Impl, Close> impl) : impl_{std::move(impl)} {}

Result<Mp4Writer> Mp4Writer::open(const std::string& path, const StreamHead& head) {
  const Quiet quiet;
  std::unique_ptr<Impl, Close> impl{std::make_unique<Impl>(path, head).release()};
  AVFormatContext* file = nullptr;
  if (const int code = avformat_alloc_output_context2(&file, nullptr, "mp4", nullptr); code < 0)
    return impl->failed(quiet.said(code));
  impl->file.reset(file);
  file->flags |= AVFMT_FLAG_BITEXACT;
  AVStream* stream = avformat_new_stream(file, nullptr);
  CHECK_EQ(stream == nullptr, false);
  describe(*stream, head);
  // "file:" keeps a path with a colon from being taken for the name of a protocol.
  if (const int code = avio_open(&file->pb, ("file:" + impl->part()).c_str(), AVIO_FLAG_WRITE); code < 0)
    return impl->failed(quiet.said(code));
  impl->opened = true;
  if (const int code = avformat_write_header(file, nullptr); code < 0) return impl->failed(quiet.said(code));
  return Mp4Writer{std::move(impl)};
}

Result<void> Mp4Writer::add(const Packet& packet) {
  const Quiet quiet;
  AVPacket& coded = *impl_->packet;
  av_packet_unref(&coded);
  if (const int code = av_new_packet(&coded, static_cast<int>(packet.bytes.size())); code < 0)
    return impl_->failed(quiet.said(code));
  std::memcpy(coded.data, packet.bytes.data(), packet.bytes.size());
  coded.pts = packet.shown;
  coded.dts = packet.decoded;
  coded.duration = packet.lasts;
  if (packet.key) coded.flags |= AV_PKT_FLAG_KEY;
  av_packet_rescale_ts(&coded, impl_->tick, impl_->file->streams[0]->time_base);
  int code = av_write_frame(impl_->file.get(), &coded);
  if (code >= 0) code = impl_->file->pb->error;
  return code < 0 ? Result<void>{impl_->failed(quiet.said(code))} : Result<void>{};
}

Result<void> Mp4Writer::finish() {
  const Quiet quiet;
  if (const int code = av_write_trailer(impl_->file.get()); code < 0) return impl_->failed(quiet.said(code));
  if (const int code = avio_closep(&impl_->file->pb); code < 0) return impl_->failed(quiet.said(code));
  if (std::rename(impl_->part().c_str(), impl_->path.c_str()) != 0)
    return impl_->failed("its finished part cannot be given its name");
  impl_->whole = true;
  return {};
}

}  // namespace sightfall::video
