// SPDX-License-Identifier: GPL-3.0-or-later
// Coded frames back into pictures, in the order in which they are shown.
//   Library  libavcodec, only in decompress.cpp
//   Limits   strict: what a viewer would paper over (a lost slice, a missing reference) is an error
//   Checked  decode_test.cpp, encode_test.cpp
#pragma once
#include <functional>
#include <memory>

#include "base/result.h"
#include "video/packet.h"
#include "video/picture.h"

namespace sightfall::video {

class Decompressor {
 public:
  using Take = std::function<void(Picture)>;

  /// Errors: parameter sets that make no sense.
  static Result<Decompressor> open(const StreamHead& head);

  /// The pictures that are ready once this frame is in. Errors: damaged frames, a size that changes on the way.
  Result<void> add(const Packet& packet, const Take& take);
  /// The pictures that the decoder still holds.
  Result<void> finish(const Take& take);

  struct Impl;

 private:
  struct Close {
    void operator()(Impl* impl) const;
  };
  explicit Decompressor(std::unique_ptr<Impl, Close> impl);
  Result<void> drain(const Take& take);

  std::unique_ptr<Impl, Close> impl_;
};

}  // namespace sightfall::video
