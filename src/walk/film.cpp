// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/film.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "detail/delivered.h"
#include "detail/signal.h"

namespace sightfall::walk {

using namespace units;

namespace {

constexpr double kKeyframeEvery = 2;  // s, from memory: usual

video::Codec codec_of(const camera::Stream& stream) {
  return stream.codec == camera::Codec::kH264 ? video::Codec::kH264 : video::Codec::kH265;
}

int threads() { return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 64); }

}  // namespace

Film::Film(const Walk& walk, const Progress& progress)
    : walk_{walk},
      standing_{*walk.request().project, walk.lit(), walk.station(), {}},
      still_{standing_, walk.station(), progress} {}

Picture Film::picture(const Mark& mark) const {
  const Stage stage{standing_, walk_.visitor_at(mark)};
  return shoot(still_, stage, walk_.shot_at(mark));
}

Result<Picture> Film::shown(const Mark& mark, const Progress& progress) const {
  const camera::Stream* stream = stream_of(walk_.request());
  const detail::CameraConstants& camera = walk_.station().constants;
  if (stream == nullptr || !camera.codec) return picture(mark);
  const std::vector<Mark> frames = walk_.frames_before(mark, kRunUp);
  std::vector<Picture> pictures;
  pictures.reserve(frames.size());
  for (const Mark& frame : frames) {
    if (progress.stopped()) return failure(ErrorKind::kRequest, "stopped before its end");
    pictures.push_back(picture(frame));
    // What comes after takes about as long as one frame.
    progress.tell(static_cast<double>(pictures.size()) / static_cast<double>(frames.size() + 1), "making frames");
  }
  const Shot shot = walk_.shot_at(mark);
  const detail::Signal signal = detail::signal_of(camera, shot.seen, shot.values);
  const double factor =
      camera.codec->quality_of_step(detail::quantiser_step(camera, signal, shot.values), signal.frame_noise);
  const Frequency rate{walk_.station().frame_rate};
  auto encoded = video::encode(pictures, {codec_of(*stream), rate, video::FreeQuality{factor}, kRunUp, threads()},
                               video::Back::kPicturesToo);
  if (!encoded) return tl::make_unexpected(encoded.error());
  return std::move(encoded->pictures.back());
}

const camera::Stream* stream_of(const WalkRequest& request) {
  if (request.camera->stream) return &*request.camera->stream;
  const camera::Sheet& sheet = need::the_named(request.project->catalogue, request.camera->sheet);
  return sheet.stream ? &*sheet.stream : nullptr;
}

std::string compression_in_words(const WalkRequest& request) {
  const camera::Stream* stream = stream_of(request);
  if (stream == nullptr) return "none";
  const std::string_view codec = video::name_of(codec_of(*stream));
  if (!stream->rate) return fmt::format("{}, at a quality alone", codec);
  const double rate = stream->rate->in(Mbit / s);
  return stream->control == camera::RateControl::kCapped ? fmt::format("{}, at most {:.3g} Mbit/s", codec, rate)
                                                         : fmt::format("{}, {:.3g} Mbit/s", codec, rate);
}

video::EncodeSettings encoding_of(const Walk& walk, bool free) {
  const camera::Stream* stream = stream_of(walk.request());
  const double usual = walk.request().project->settings.typical.stream_quality.value.nominal;
  const double factor = stream != nullptr ? stream->quality.value_or(usual) : usual;
  video::EncodeSettings settings;
  settings.frame_rate = Frequency{walk.station().frame_rate};
  settings.keyframe_interval = std::max(1, static_cast<int>(std::lround(kKeyframeEvery * walk.station().frame_rate)));
  settings.threads = threads();
  settings.rate = video::FreeQuality{factor};
  if (stream == nullptr) return settings;
  settings.codec = codec_of(*stream);
  if (free || !stream->rate) return settings;
  if (stream->control == camera::RateControl::kConstant)
    settings.rate = video::ConstantRate{*stream->rate};
  else
    settings.rate = video::CappedQuality{factor, *stream->rate};
  return settings;
}

}  // namespace sightfall::walk
