// SPDX-License-Identifier: GPL-3.0-or-later
// Coded frames into an MP4 file (ISO/IEC 14496-12 and -15).
//   Library  libavformat, only in mp4_writer.cpp
//   Same     no dates and no names of libraries are written: equal frames give equal files
//   Checked  encode_test.cpp, mp4_boxes_test.cpp
#pragma once
#include <memory>
#include <string>

#include "base/result.h"
#include "video/packet.h"

namespace sightfall::video {

/// Writes PATH.part, and gives it its name when it is whole; what is abandoned is removed.
class Mp4Writer {
 public:
  /// Errors: a file that cannot be written.
  static Result<Mp4Writer> open(const std::string& path, const StreamHead& head);
  /// Errors: a full disk.
  Result<void> add(const Packet& packet);
  Result<void> finish();

  struct Impl;

 private:
  struct Close {
    void operator()(Impl* impl) const;
  };
  explicit Mp4Writer(std::unique_ptr<Impl, Close> impl);
  std::unique_ptr<Impl, Close> impl_;
};

}  // namespace sightfall::video
