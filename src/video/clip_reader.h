// SPDX-License-Identifier: GPL-3.0-or-later
// Coded frames out of a clip's file.
//   Library  libavformat, only in clip_reader.cpp
//   Limits   MP4 and QuickTime, Matroska and MPEG transport streams, from local files alone: nothing that a file
//            names elsewhere is opened. Strict: a file that was cut short is an error
//   Checked  decode_test.cpp, containers_test.cpp
#pragma once
#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "video/packet.h"

namespace sightfall::video {

class ClipReader {
 public:
  /// Errors: no such file, another kind of file, no pictures in it, a codec that is not read here.
  static Result<ClipReader> open(const std::string& path);

  const StreamHead& head() const { return head_; }
  /// The next frame; unset at the end. Errors: a file that ends before its frames do.
  Result<std::optional<Packet>> next();

  struct Impl;

 private:
  struct Close {
    void operator()(Impl* impl) const;
  };
  explicit ClipReader(std::unique_ptr<Impl, Close> impl);

  std::unique_ptr<Impl, Close> impl_;
  StreamHead head_;
};

}  // namespace sightfall::video
