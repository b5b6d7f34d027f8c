// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/compress.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavutil/dict.h>
#include <libavutil/intreadwrite.h>
#include <libavutil/opt.h>
}

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "base/check.h"
#include "video/freed.h"
#include "video/quiet.h"

namespace sightfall::video {
using namespace sightfall::units;
namespace {

using Context = Owned<AVCodecContext, avcodec_free_context>;
using Frame = Owned<AVFrame, av_frame_free>;
using AvPacket = Owned<AVPacket, av_packet_free>;

constexpr int kMostTerms = 1'001'000;  // of the frame rate as a fraction: holds 30000/1001

/// A number with its limits, as an error tells it; unset when it is within them.
std::optional<Error> outside(const char* what, double value, double lowest, double highest, const char* unit) {
  if (value >= lowest && value <= highest) return std::nullopt;
  return Error{ErrorKind::kRequest,
               fmt::format("{} is {:g}{}; {:g} to {:g} is allowed", what, value, unit, lowest, highest),
               {}};
}

struct RateLimits {
  static constexpr double kLowest = 16, kHighest = 800e3;  // kbit/s
  static constexpr double kFinest = 1, kCoarsest = 51;

  static std::optional<Error> of(DataRate rate) {
    return outside("the rate", rate.in(kbit / s), kLowest, kHighest, " kbit/s");
  }
  static std::optional<Error> of(double factor) {
    return outside("the quality factor", factor, kFinest, kCoarsest, "");
  }
  std::optional<Error> operator()(const ConstantRate& kind) const { return of(kind.rate); }
  std::optional<Error> operator()(const FreeQuality& kind) const { return of(kind.factor); }
  std::optional<Error> operator()(const CappedQuality& kind) const {
    std::optional<Error> flaw = of(kind.factor);
    return flaw ? flaw : of(kind.ceiling);
  }
};

std::optional<Error> flaw_of(int columns, int rows, const EncodeSettings& settings) {
  constexpr int kSmallestSide = 16;
  constexpr double kSlowest = 0.1, kFastest = 240;
  constexpr int kLongestInterval = 10000, kMostThreads = 64;
  for (const auto& flaw : {outside("the width", columns, kSmallestSide, kLargestSide, " px"),
                           outside("the height", rows, kSmallestSide, kLargestSide, " px"),
                           outside("the picture", static_cast<double>(columns) * rows, 0, kMostPixels, " px"),
                           outside("the frame rate", settings.frame_rate.in(Hz), kSlowest, kFastest, " Hz"),
                           outside("the keyframe interval", settings.keyframe_interval, 1, kLongestInterval, " frames"),
                           outside("the number of threads", settings.threads, 1, kMostThreads, ""),
                           std::visit(RateLimits{}, settings.rate)})
    if (flaw) return flaw;
  return std::nullopt;
}

/// Options of an encoder by name, as libavcodec takes them.
class Options {
 public:
  Options() = default;
  ~Options() { av_dict_free(&entries_); }
  Options(const Options&) = delete;
  Options& operator=(const Options&) = delete;
  void set(const char* name, const std::string& value) { av_dict_set(&entries_, name, value.c_str(), 0); }
  AVDictionary** entries() { return &entries_; }

 private:
  AVDictionary* entries_ = nullptr;
};

struct SetRate {
  AVCodecContext& context;
  Options& options;

  void ceiling(DataRate rate) const {
    context.rc_max_rate = static_cast<int64_t>(rate.in(bit / s));
    context.rc_buffer_size = static_cast<int>((rate * kBuffer).in(bit));
  }
  void operator()(const ConstantRate& kind) const {
    context.bit_rate = static_cast<int64_t>(kind.rate.in(bit / s));
    ceiling(kind.rate);
  }
  void operator()(const FreeQuality& kind) const { options.set("crf", fmt::format("{:.3f}", kind.factor)); }
  void operator()(const CappedQuality& kind) const {
    (*this)(FreeQuality{kind.factor});
    ceiling(kind.ceiling);
  }
};

void set_picture(AVCodecContext& context, int columns, int rows, const EncodeSettings& settings) {
  context.width = even(columns);
  context.height = even(rows);
  context.pix_fmt = AV_PIX_FMT_YUV420P;
  context.color_range = AVCOL_RANGE_MPEG;
  context.colorspace = AVCOL_SPC_BT709;
  context.color_primaries = AVCOL_PRI_BT709;
  context.color_trc = AVCOL_TRC_BT709;
  context.chroma_sample_location = AVCHROMA_LOC_LEFT;
  context.framerate = av_d2q(settings.frame_rate.in(Hz), kMostTerms);
  context.time_base = av_inv_q(context.framerate);
}

/// The same frames every time, from any number of threads. x264 works alone: with two threads and a buffer to keep,
/// the same pictures gave other frames from run to run. x265 works on one frame at a time, in rows that wait for each
/// other, with a buffer model that does not look at how far other rows are (const-vbv).
void set_search(AVCodecContext& context, Options& options, const EncodeSettings& settings) {
  context.max_b_frames = 0;
  context.thread_count = 1;  // whole frames side by side
  context.gop_size = context.keyint_min = settings.keyframe_interval;
  context.flags |= AV_CODEC_FLAG_GLOBAL_HEADER | AV_CODEC_FLAG_CLOSED_GOP;
  if (settings.codec == Codec::kH264) {
    options.set("preset", "superfast");
    options.set("sc_threshold", "0");
  } else {
    options.set("preset", "ultrafast");
    options.set("x265-params",
                fmt::format("log-level=none:info=0:scenecut=0:open-gop=0:wpp=1:lookahead-slices=0:const-vbv=1:pools={}",
                            settings.threads));
  }
}

const char* encoder_of(Codec codec) { return codec == Codec::kH264 ? "libx264" : "libx265"; }

/// The frame with each start code four bytes long (encoders write some with three), as long as the lengths that stand
/// in their place in a file: a frame has the same size here and there.
std::vector<uint8_t> with_long_start_codes(std::span<const uint8_t> frame) {
  constexpr std::array<uint8_t, 3> kStart{0, 0, 1};  // nowhere else in a frame: ITU-T H.264 and H.265, annex B
  std::vector<uint8_t> bytes;
  bytes.reserve(frame.size() + kStart.size());
  while (true) {
    const auto start = std::search(frame.begin(), frame.end(), kStart.begin(), kStart.end());
    bytes.insert(bytes.end(), frame.begin(), start);
    if (start == frame.end()) return bytes;
    if (bytes.empty() || bytes.back() != 0) bytes.push_back(0);
    bytes.insert(bytes.end(), kStart.begin(), kStart.end());
    frame = {start + kStart.size(), frame.end()};
  }
}

Packet packet_from(const AVPacket& coded) {
  Packet packet;
  packet.bytes = with_long_start_codes({coded.data, static_cast<size_t>(coded.size)});
  packet.shown = coded.pts;
  packet.decoded = coded.dts;
  packet.lasts = 1;
  packet.key = (coded.flags & AV_PKT_FLAG_KEY) != 0;
  size_t size = 0;
  const uint8_t* stats = av_packet_get_side_data(&coded, AV_PKT_DATA_QUALITY_STATS, &size);
  if (stats != nullptr && size >= sizeof(uint32_t))
    packet.quantiser = static_cast<double>(AV_RL32(stats)) / FF_QP2LAMBDA;
  return packet;
}

tl::unexpected<Error> encoder_failed(const Quiet& quiet, int code) {
  return failure(ErrorKind::kRequest, fmt::format("the encoder failed: {}", quiet.said(code)));
}

}  // namespace

struct Compressor::Impl {
  Context context;
  IntoPlanes into_planes;
  Frame frame{av_frame_alloc()};
  AvPacket packet{av_packet_alloc()};
  int64_t added = 0;
};

void Compressor::Close::operator()(Impl* impl) const { std::default_delete<Impl>{}(impl); }

Compressor::Compressor(std::unique_ptr<Impl, Close> impl) : impl_{std::move(impl)} {}

Result<Compressor> Compressor::open(int columns, int rows, const EncodeSettings& settings) {
  if (const std::optional<Error> flaw = flaw_of(columns, rows, settings)) return tl::make_unexpected(*flaw);
  Quiet quiet;
  const AVCodec* codec = avcodec_find_encoder_by_name(encoder_of(settings.codec));
  if (codec == nullptr)
    return failure(ErrorKind::kRequest, fmt::format("this system's libavcodec has no {}, which encodes {}",
                                                    encoder_of(settings.codec), name_of(settings.codec)));
  Context context{avcodec_alloc_context3(codec)};
  Options options;
  set_picture(*context, columns, rows, settings);
  set_search(*context, options, settings);
  std::visit(SetRate{*context, options}, settings.rate);
  if (const int code = avcodec_open2(context.get(), codec, options.entries()); code < 0)
    return encoder_failed(quiet, code);
  auto impl = std::make_unique<Impl>(Impl{std::move(context), IntoPlanes{columns, rows}});
  Compressor compressor{std::unique_ptr<Impl, Close>{impl.release()}};
  const AVCodecContext& opened = *compressor.impl_->context;
  compressor.head_ = {settings.codec,       opened.width,
                      opened.height,        {opened.extradata, opened.extradata + opened.extradata_size},
                      opened.time_base.num, opened.time_base.den};
  return compressor;
}

Result<void> Compressor::drain(const Take& take) {
  const Quiet quiet;
  while (true) {
    const int code = avcodec_receive_packet(impl_->context.get(), impl_->packet.get());
    if (code == AVERROR(EAGAIN) || code == AVERROR_EOF) return {};
    if (code < 0) return encoder_failed(quiet, code);
    Packet packet = packet_from(*impl_->packet);
    av_packet_unref(impl_->packet.get());
    if (Result<void> taken = take(std::move(packet)); !taken) return taken;
  }
}

Result<void> Compressor::add(const Picture& picture, const Take& take) {
  const Quiet quiet;
  AVFrame& frame = *impl_->frame;
  av_frame_unref(&frame);
  frame.format = AV_PIX_FMT_YUV420P;
  frame.width = head_.columns;
  frame.height = head_.rows;
  if (const int code = av_frame_get_buffer(&frame, 0); code < 0) return encoder_failed(quiet, code);
  PlanesOut planes;
  for (size_t i = 0; i < planes.begin.size(); ++i) {
    planes.begin.at(i) = frame.data[i];
    planes.stride.at(i) = frame.linesize[i];
  }
  impl_->into_planes.convert(picture, planes);
  frame.pts = impl_->added++;
  if (const int code = avcodec_send_frame(impl_->context.get(), &frame); code < 0) return encoder_failed(quiet, code);
  return drain(take);
}

Result<void> Compressor::finish(const Take& take) {
  const Quiet quiet;
  if (const int code = avcodec_send_frame(impl_->context.get(), nullptr); code < 0) return encoder_failed(quiet, code);
  return drain(take);
}

}  // namespace sightfall::video
