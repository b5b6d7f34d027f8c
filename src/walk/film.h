// SPDX-License-Identifier: GPL-3.0-or-later
// A walk's pictures one after the other, as the sensor gives them and as they come out of the camera's stream.
//   Model    frames at the camera's rate, at the pace of who walks or drives; what stands still is cast once
//            (walk/still.h). A single picture goes through the codec as the last of kRunUp frames, at the quantiser
//            that the verdict counts with (detail/codec.h); a clip under the rate control that the stream states
//   Limits   encoders of cameras differ (video/encode.h). Who walks changes pace nowhere
//   Checked  film_test.cpp
#pragma once
#include <optional>

#include "video/encode.h"
#include "walk/marks.h"

namespace sightfall::walk {

/// Frames that a single picture's codec sees: a keyframe and those that follow it.
inline constexpr int kRunUp = 4;

class Film {
 public:
  /// Casts what stands still. The walk must outlive it.
  explicit Film(const Walk& walk, const Progress& progress = {});

  /// As the sensor gives it, after the tone curve.
  Picture picture(const Mark& mark) const;
  /// As the stream leaves it; without a stream as the sensor gives it. Errors: the codec's, or that it was stopped.
  Result<Picture> shown(const Mark& mark, const Progress& progress = {}) const;

 private:
  const Walk& walk_;
  Stage standing_;
  StillCast still_;
};

/// The stream of a walk's camera, if one is stated.
const camera::Stream* stream_of(const WalkRequest& request);

/// Such as `H.265, at most 8 Mbit/s`; "none" without a stream.
std::string compression_in_words(const WalkRequest& request);

/// How a clip is encoded: as the stream is set or, for a camera of which none is stated, as H.264 of usual quality.
/// `free`: the same quality without a ceiling.
video::EncodeSettings encoding_of(const Walk& walk, bool free);

}  // namespace sightfall::walk
