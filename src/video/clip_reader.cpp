// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/clip_reader.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/dict.h>
}

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/check.h"
#include "video/freed.h"
#include "video/picture.h"
#include "video/quiet.h"

namespace sightfall::video {
namespace {

using AvPacket = Owned<AVPacket, av_packet_free>;
using File = Owned<AVFormatContext, avformat_close_input>;

std::optional<Codec> codec_of(AVCodecID id) {
  if (id == AV_CODEC_ID_H264) return Codec::kH264;
  if (id == AV_CODEC_ID_HEVC) return Codec::kH265;
  return std::nullopt;
}

/// Playlists and the like would have the library open whatever they name.
int opened(AVFormatContext*& file, const std::string& path) {
  AVDictionary* options = nullptr;
  av_dict_set(&options, "protocol_whitelist", "file", 0);
  av_dict_set(&options, "format_whitelist", "mov,mp4,matroska,webm,mpegts", 0);
  av_dict_set(&options, "codec_whitelist", "h264,hevc", 0);
  const int code = avformat_open_input(&file, ("file:" + path).c_str(), nullptr, &options);
  av_dict_free(&options);
  return code;
}

/// The file's only stream of pictures, or what is wrong.
Result<int> pictures_in(const AVFormatContext& file) {
  std::optional<int> found;
  for (unsigned i = 0; i < file.nb_streams; ++i) {
    if (file.streams[i]->codecpar->codec_type != AVMEDIA_TYPE_VIDEO) continue;
    if (found) return failure(ErrorKind::kField, "it has more than one stream of pictures; one is allowed");
    found = static_cast<int>(i);
  }
  if (!found) return failure(ErrorKind::kField, "it has no stream of pictures, or is cut short");
  return *found;
}

Result<StreamHead> head_of(const AVStream& stream) {
  const AVCodecParameters& parameters = *stream.codecpar;
  if (parameters.codec_id == AV_CODEC_ID_NONE)
    return failure(ErrorKind::kSyntax, "it does not say how its pictures are coded: it is cut short or damaged");
  const std::optional<Codec> codec = codec_of(parameters.codec_id);
  if (!codec)
    return failure(ErrorKind::kField, fmt::format("its pictures are coded as {}; H.264 and H.265 are read here",
                                                  avcodec_get_name(parameters.codec_id)));
  const int columns = parameters.width, rows = parameters.height;
  if (columns < 1 || rows < 1 || columns > kLargestSide || rows > kLargestSide ||
      static_cast<int64_t>(columns) * rows > kMostPixels)
    return failure(ErrorKind::kTooLarge,
                   fmt::format("its pictures are {}x{}; 1 to {} a side are allowed, {} pixels in all", columns, rows,
                               kLargestSide, kMostPixels));
  return StreamHead{*codec,
                    columns,
                    rows,
                    {parameters.extradata, parameters.extradata + parameters.extradata_size},
                    stream.time_base.num,
                    stream.time_base.den};
}

}  // namespace

struct ClipReader::Impl {
  std::string path;
  File file;
  int stream = 0;
  int64_t announced = 0, given = 0;
  int64_t last_decoded = AV_NOPTS_VALUE, usual = 1;  // ticks
  AvPacket packet{av_packet_alloc()};

  tl::unexpected<Error> failed(const std::string& why) const {
    return failure(ErrorKind::kSyntax, why, {path, {}, {}});
  }
  tl::unexpected<Error> cut_short() const {
    return failed(announced > given
                      ? fmt::format("it is cut short or damaged: {} of its {} frames are there", given, announced)
                      : fmt::format("it is cut short or damaged after {} frames", given));
  }
  Packet taken();
};

/// Frames without times of their own follow the one before.
Packet ClipReader::Impl::taken() {
  Packet taken;
  taken.bytes.assign(packet->data, packet->data + packet->size);
  taken.key = (packet->flags & AV_PKT_FLAG_KEY) != 0;
  taken.lasts = packet->duration > 0 ? packet->duration : usual;
  const int64_t follows = last_decoded == AV_NOPTS_VALUE ? 0 : last_decoded + taken.lasts;
  taken.decoded = packet->dts != AV_NOPTS_VALUE ? packet->dts : follows;
  taken.shown = packet->pts != AV_NOPTS_VALUE ? packet->pts : taken.decoded;
  last_decoded = taken.decoded;
  ++given;
  return taken;
}

void ClipReader::Close::operator()(Impl* impl) const { std::default_delete<Impl>{}(impl); }

ClipReader::ClipReader(std::unique_ptr<Impl, Close> impl) : impl_{std::move(impl)} {}

Result<ClipReader> ClipReader::open(const std::string& path) {
  const Quiet quiet;
  std::unique_ptr<Impl, Close> impl{std::make_unique<Impl>().release()};
  impl->path = path;
  AVFormatContext* file = nullptr;
  if (const int code = opened(file, path); code < 0) {
    if (code == AVERROR(ENOENT)) return failure(ErrorKind::kMissingFile, "there is no such file", {path, {}, {}});
    if (code == AVERROR(EACCES) || code == AVERROR(EISDIR) || code == AVERROR(EPERM))
      return failure(ErrorKind::kMissingFile, "it is not a file that can be read", {path, {}, {}});
    return impl->failed(fmt::format(
        "it is no clip that is read here (MP4, QuickTime, Matroska, MPEG-TS), or cut short: {}", quiet.said(code)));
  }
  impl->file.reset(file);
  if (const int code = avformat_find_stream_info(file, nullptr); code < 0)
    return impl->failed(fmt::format("its streams cannot be read: {}", quiet.said(code)));
  const Result<int> stream = pictures_in(*file);
  Result<StreamHead> head = stream.and_then([&](int i) { return head_of(*file->streams[i]); });
  if (!head) {
    head.error().where.file = path;
    return tl::make_unexpected(head.error());
  }
  impl->stream = *stream;
  const AVStream& chosen = *file->streams[*stream];
  impl->announced = chosen.nb_frames;
  if (chosen.avg_frame_rate.num > 0)
    impl->usual = std::max<int64_t>(1, av_rescale_q(1, av_inv_q(chosen.avg_frame_rate), chosen.time_base));
  ClipReader reader{std::move(impl)};
  reader.head_ = std::move(*head);
  return reader;
}

Result<std::optional<Packet>> ClipReader::next() {
  const Quiet quiet;
  AVPacket& packet = *impl_->packet;
  while (true) {
    av_packet_unref(&packet);
    const int code = av_read_frame(impl_->file.get(), &packet);
    if (code == AVERROR_EOF) {
      if (impl_->given < impl_->announced) return impl_->cut_short();
      return std::optional<Packet>{};
    }
    if (code < 0 || (packet.flags & AV_PKT_FLAG_CORRUPT) != 0) return impl_->cut_short();
    if (packet.stream_index == impl_->stream && packet.size > 0) return std::optional<Packet>{impl_->taken()};
  }
}

}  // namespace sightfall::video
