// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures into coded frames, one at a time.
//   Model    x264 superfast and x265 ultrafast, no B-frames, a keyframe every `keyframe_interval` frames and no others,
//            one reference frame. Why these presets, and what no preset can tell: encode.h
//   Library  libavcodec with libx264 and libx265, only in compress.cpp
//   Checked  encode_test.cpp
#pragma once
#include <functional>
#include <memory>

#include "base/result.h"
#include "video/encode.h"
#include "video/packet.h"
#include "video/pixels.h"

namespace sightfall::video {

class Compressor {
 public:
  using Take = std::function<Result<void>(Packet)>;

  /// Errors: settings out of their range, an encoder that the system's libavcodec lacks.
  static Result<Compressor> open(int columns, int rows, const EncodeSettings& settings);

  const StreamHead& head() const { return head_; }
  /// The frames that are ready once this picture is in. Errors: the encoder's, and those of `take`.
  Result<void> add(const Picture& picture, const Take& take);
  /// The frames that the encoder still holds; nothing can be added any more.
  Result<void> finish(const Take& take);

  struct Impl;

 private:
  struct Close {
    void operator()(Impl* impl) const;
  };
  explicit Compressor(std::unique_ptr<Impl, Close> impl);
  Result<void> drain(const Take& take);

  std::unique_ptr<Impl, Close> impl_;
  StreamHead head_;
};

}  // namespace sightfall::video
